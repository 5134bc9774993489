/** One choice as a client sees it: a small picture, its name, what is said of it, its price. All text is shown as text. */
import { useCallback, type ReactNode } from 'react';
import type { Variant } from '../../panels/bench.ts';
import { dateText } from '../../design/dates.ts';
import { madeOf, priceText, sizeText, termsOf } from '../../plan/offerText.ts';
import { Portrait } from '../Portrait.tsx';

export interface ChoiceCardProps {
  readonly variant: Variant;
  /** What the card is called; a single piece goes by the name of its design. */
  readonly name: string;
  readonly shown: boolean;
  readonly onShow: () => void;
  readonly children?: ReactNode;
}

export function ChoiceCard({ variant, name, shown, onShow, children }: ChoiceCardProps) {
  const { design } = variant;
  const { offer, choice } = design;
  const price = priceText(offer);
  const look = useCallback(() => design, [design]);
  return (
    <li className="choice" data-shown={shown}>
      <button type="button" className="choice-head" aria-pressed={shown} onClick={onShow}>
        <Portrait of={design} look={look} className="choice-portrait" />
        <span className="choice-words">
          <b>{name}</b>
          <span>{madeOf(design)}</span>
          <span>{sizeText(design)}</span>
          {price !== null && <strong className="choice-price">{price}</strong>}
        </span>
      </button>
      {offer?.note !== undefined && <p className="choice-note">{offer.note}</p>}
      {termsOf(offer).length > 0 && (
        <ul className="choice-terms">
          {termsOf(offer).map((term) => (
            <li key={term}>{term}</li>
          ))}
        </ul>
      )}
      {choice && (
        <p className="choice-made">
          Chosen{choice.by === undefined ? '' : ` by ${choice.by}`} on {dateText(choice.made_on)}
          {choice.note === undefined ? '' : `: ${choice.note}`}
        </p>
      )}
      {children}
    </li>
  );
}
