/**
 * A client's answer, opened by the maker: the choice is recorded at the kept variant that it is about. Matched by what
 * the piece is (docs/decisions/offers.md), first in the open design, then in the others, the last edited first.
 */
import type { Design } from '../../design/document.ts';
import { dateText } from '../../design/dates.ts';
import type { Library } from '../../files/library.ts';
import { readLink } from '../../files/link.ts';
import type { Work } from '../../panels/bench.ts';
import { chosenIn, withChoice } from '../choices.ts';
import type { AppStore } from '../store.ts';
import { handAnswerOver, takeAnswers } from './handOver.ts';

/** Where an answer belongs. */
interface AnswerPlace {
  readonly id: string;
  readonly variant: number;
}

/**
 * Opens an answer: `recorded` in the design that it is about, here or by the tab that has it open, `elsewhere` when there is
 * none, `none` when the fragment is no answer.
 */
export async function openAnswer(
  fragment: string,
  library: Library,
  store: AppStore,
  open: (id: string) => Promise<string | null>,
): Promise<'recorded' | 'elsewhere' | 'none'> {
  const answer = answerIn(fragment);
  if (!answer) return 'none';
  const { document, work, say, setStation } = store.getState();
  const place = await placeOfAnswer(answer, library, { id: document.id, work });
  if (!place) return 'elsewhere';
  const handed = place.id === document.id ? null : await handAnswerOver(place.id, fragment);
  if (handed !== null) {
    say(handed);
    return 'recorded';
  }
  if ((await open(place.id)) !== null) return 'elsewhere';
  const { said, document: opened } = store.getState();
  const { words } = recordAnswer(store, place.variant, answer);
  // What was said on opening (a copy, because another tab has the design) still holds.
  const elsewhere = opened.origin === 'beside' ? ' To have it there too, open the answer in that tab.' : '';
  say(said === null ? words : `${said} ${words}${elsewhere}`);
  setStation('show');
  return 'recorded';
}

/** For a page that is opened by an answer: what the tab said that has the piece open and has recorded it; null if none has. */
export async function answerHandedOver(fragment: string, library: Library): Promise<string | null> {
  const answer = answerIn(fragment);
  const place = answer && (await placeOfAnswer(answer, library, null));
  return place && handAnswerOver(place.id, fragment);
}

/** Records the answers that other tabs open and that are about the design that is open here. */
export function takeOthersAnswers(store: AppStore): void {
  const take = (id: string, fragment: string) => {
    const { document, work, say } = store.getState();
    const answer = answerIn(fragment);
    if (id !== document.id || document.newer || !answer) return null;
    const variant = variantOf(work, answer);
    if (variant < 0) return null;
    const recorded = recordAnswer(store, variant, answer);
    say(recorded.words);
    return recorded.ok ? recorded.words.replace(RECORDED_HERE, RECORDED_THERE) : null;
  };
  let stop = takeAnswers(take);
  // A page that the browser sets aside has let go of its design; an open channel may keep it from being set aside.
  window.addEventListener('pagehide', () => stop());
  window.addEventListener('pageshow', ({ persisted }) => {
    if (persisted) stop = takeAnswers(take);
  });
}

function answerIn(fragment: string): Design | null {
  const read = readLink(fragment);
  return read.ok && read.for === 'reply' ? read.work.variants[read.work.active].design : null;
}

function variantOf(work: Pick<Work, 'variants'>, answer: Design): number {
  const same = chosenIn(work, answer, 'offer');
  return same >= 0 ? same : chosenIn(work, answer, 'piece');
}

/** `own`: what is open in this tab, if something is. */
async function placeOfAnswer(
  answer: Design,
  library: Library,
  own: { readonly id: string; readonly work: Work } | null,
): Promise<AnswerPlace | null> {
  const list = await library.list();
  const others = (list.ok ? list.value : []).filter(({ id }) => id !== own?.id);
  const works: { id: string; work: () => Promise<Pick<Work, 'variants'>> }[] = others.map(({ id }) => ({
    id,
    work: async () => {
      const present = await library.present(id);
      return present.ok && present.value ? present.value : { variants: [] };
    },
  }));
  if (own) works.unshift({ id: own.id, work: () => Promise.resolve(own.work) });
  for (const like of ['offer', 'piece'] as const)
    for (const { id, work: read } of works) {
      const variant = chosenIn(await read(), answer, like);
      if (variant >= 0) return { id, variant };
    }
  return null;
}

const RECORDED_HERE = 'It is recorded here.';
const RECORDED_THERE = 'It is recorded in the tab that has the piece open.';

/** Records the answer's choice in the open design. `words`: that it is, or why it cannot be. */
function recordAnswer(
  store: AppStore,
  variant: number,
  answer: Design,
): { readonly ok: boolean; readonly words: string } {
  const { choice } = answer;
  if (!choice) return { ok: false, words: 'The answer holds no choice.' };
  const fault = store.getState().editWork('the client’s choice', (work) => withChoice(work, variant, choice));
  if (fault !== null) return { ok: false, words: `The client’s choice was not recorded: ${fault}.` };
  const { work } = store.getState();
  const who = choice.by === undefined ? 'The client' : choice.by;
  const what = work.variants.length > 1 ? ` “${work.variants[variant].name}” of` : '';
  const words = `${who} chose${what} “${answer.name}” on ${dateText(choice.made_on)}. ${RECORDED_HERE}`;
  return { ok: true, words };
}

export const ANSWER_ELSEWHERE =
  'This is a client’s answer. The piece is not kept in this browser, or has changed since it was offered, so it is open ' +
  'as a design of its own, with the choice in it.';
