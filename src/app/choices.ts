/** What of a work is offered to a client, and the choice that comes back. */
import type { Choice, Design } from '../design/document.ts';
import { isSameOffer, isSamePiece, setChoice } from '../design/offerEdits.ts';
import type { Variant, Work } from '../panels/bench.ts';
import { isSample } from './asBuiltVariants.ts';

/** The variants without the samples of how a piece may come out. */
export function choicesOf({ variants }: Work): readonly Variant[] {
  const choices = variants.filter((variant) => !isSample(variant));
  return choices.length > 0 ? choices : variants;
}

/** The choices as a link carries them, and which of them comes first. */
export function offeredWork(work: Work): Work {
  const variants = choicesOf(work);
  return { variants, active: Math.max(0, variants.indexOf(work.variants[work.active])) };
}

/** The variant that an answer is about: the same piece in the same words, else the same piece; −1: none. */
export function chosenIn(
  { variants }: Pick<Work, 'variants'>,
  answer: Design,
  like: 'offer' | 'piece',
): number {
  const same = like === 'offer' ? isSameOffer : isSamePiece;
  return variants.findIndex((variant) => !isSample(variant) && same(variant.design, answer));
}

/** The work with a choice recorded at one variant and at no other; null takes it back. */
export function withChoice(work: Work, index: number, choice: Choice | null): Work {
  const variants = work.variants.map((variant, i) => ({
    ...variant,
    design: setChoice(variant.design, i === index ? choice : null),
  }));
  return { variants, active: index };
}
