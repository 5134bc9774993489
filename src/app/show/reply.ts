/**
 * A client's answer, opened by the maker: the choice is recorded at the kept variant that it is about. Matched by what
 * the piece is (docs/decisions/offers.md), first in the open design, then in the others, the last edited first.
 */
import type { Design } from '../../design/document.ts';
import { dateText } from '../../design/dates.ts';
import type { Library } from '../../files/library.ts';
import { readLink } from '../../files/link.ts';
import { chosenIn, withChoice } from '../choices.ts';
import type { AppStore } from '../store.ts';

/** Where an answer belongs. */
interface AnswerPlace {
  readonly id: string;
  readonly variant: number;
}

/**
 * Opens an answer: `recorded` in the design that it is about, `elsewhere` when there is none here, `none` when the
 * fragment is no answer.
 */
export async function openAnswer(
  fragment: string,
  library: Library,
  store: AppStore,
  open: (id: string) => Promise<string | null>,
): Promise<'recorded' | 'elsewhere' | 'none'> {
  const read = readLink(fragment);
  if (!read.ok || read.for !== 'reply') return 'none';
  const answer = read.work.variants[read.work.active].design;
  const place = await placeOfAnswer(answer, library, store);
  if (!place || (await open(place.id)) !== null) return 'elsewhere';
  recordAnswer(store, place.variant, answer);
  store.getState().setStation('show');
  return 'recorded';
}

async function placeOfAnswer(answer: Design, library: Library, store: AppStore): Promise<AnswerPlace | null> {
  const { document, work } = store.getState();
  const list = await library.list();
  const others = (list.ok ? list.value : []).filter(({ id }) => id !== document.id);
  const works = [{ id: document.id, work: async () => work }].concat(
    others.map(({ id }) => ({
      id,
      work: async () => {
        const present = await library.present(id);
        return present.ok && present.value ? present.value : { variants: [], active: 0 };
      },
    })),
  );
  for (const like of ['offer', 'piece'] as const)
    for (const { id, work: read } of works) {
      const variant = chosenIn(await read(), answer, like);
      if (variant >= 0) return { id, variant };
    }
  return null;
}

/** Records the answer's choice in the open design and says so, or why it cannot be. */
function recordAnswer(store: AppStore, variant: number, answer: Design): void {
  const { editWork, say, said, document } = store.getState();
  const { choice } = answer;
  if (!choice) {
    say('The answer holds no choice.');
    return;
  }
  const fault = editWork('the client’s choice', (work) => withChoice(work, variant, choice));
  if (fault !== null) {
    say(`The client’s choice was not recorded: ${fault}.`);
    return;
  }
  const { work } = store.getState();
  const who = choice.by === undefined ? 'The client' : choice.by;
  const what = work.variants.length > 1 ? ` “${work.variants[variant].name}” of` : '';
  const words = `${who} chose${what} “${answer.name}” on ${dateText(choice.made_on)}. It is recorded here.`;
  // What was said on opening (a copy, because another tab has the design) still holds.
  const elsewhere = document.origin === 'beside' ? ' To have it there too, open the answer in that tab.' : '';
  say(said === null ? words : `${said} ${words}${elsewhere}`);
}

export const ANSWER_ELSEWHERE =
  'This is a client’s answer. The piece is not kept in this browser, or has changed since it was offered, so it is open ' +
  'as a design of its own, with the choice in it.';
