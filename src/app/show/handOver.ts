/**
 * An answer for a design that another tab has open goes to that tab, which alone may write the design: it is asked over a
 * channel of the browser, records the answer as an edit of its own, and says so. Nobody answers where the tab sleeps or is of
 * an older version; then the answer goes into a copy here, as any edit beside another tab does.
 */
import { openDesigns } from '../keepTabs.ts';
import { newId } from '../openDocument.ts';

const CHANNEL = 'kerfweave answers';
/** How long the other tab may take. */
const WAIT_MS = 3_000;
/** Not begun after this, so that a tab that wakes up later does not record what has gone into a copy by then. */
const BEGIN_MS = 1_500;

interface Asked {
  readonly asked: string;
  /** Of the design. */
  readonly id: string;
  readonly fragment: string;
  readonly until_ms: number;
}

interface Told {
  readonly told: string;
  /** What to say to whoever opened the answer. */
  readonly words: string;
}

/** What the tab that has the design said when it had recorded the answer; null when no tab did. */
export async function handAnswerOver(id: string, fragment: string): Promise<string | null> {
  if (!hasChannels() || !(await openDesigns()).has(id)) return null;
  const channel = new BroadcastChannel(CHANNEL);
  const asked = newId();
  return new Promise((resolve) => {
    const end = (words: string | null) => {
      clearTimeout(timer);
      channel.close();
      resolve(words);
    };
    const timer = setTimeout(end, WAIT_MS, null);
    channel.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
      if (isTold(data) && data.told === asked) end(data.words);
    });
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a channel is of one origin
    channel.postMessage({ asked, id, fragment, until_ms: Date.now() + BEGIN_MS } satisfies Asked);
  });
}

/** `record` records the answer and returns what to say in the other tab, or null. Returns what ends it. */
export function takeAnswers(record: (id: string, fragment: string) => string | null): () => void {
  if (!hasChannels()) return () => undefined;
  const channel = new BroadcastChannel(CHANNEL);
  channel.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
    if (!isAsked(data) || Date.now() > data.until_ms) return;
    const words = record(data.id, data.fragment);
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- as above
    if (words !== null) channel.postMessage({ told: data.asked, words } satisfies Told);
  });
  return () => channel.close();
}

/** The types say that they are always there; some browsers shut them off where storage is blocked. */
function hasChannels(): boolean {
  return typeof BroadcastChannel === 'function';
}

function isAsked(data: unknown): data is Asked {
  return holds(data, { asked: 'string', id: 'string', fragment: 'string', until_ms: 'number' });
}

function isTold(data: unknown): data is Told {
  return holds(data, { told: 'string', words: 'string' });
}

function holds(data: unknown, fields: Readonly<Record<string, 'string' | 'number'>>): boolean {
  if (typeof data !== 'object' || data === null) return false;
  return Object.entries(fields).every(([name, type]) => typeof Reflect.get(data, name) === type);
}
