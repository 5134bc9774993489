/**
 * What is open when the app starts: the design in the address, else the one that this tab had open, else the
 * one that was edited last, else the first starter. A design that another tab has open is opened as a copy.
 */
import { Keeper } from '../files/autosave.ts';
import type { KeepFault, Outcome } from '../files/keptDatabase.ts';
import type { Library } from '../files/library.ts';
import { readLink } from '../files/link.ts';
import type { ReadBack } from '../files/readBack.ts';
import type { Work } from '../panels/bench.ts';
import { type History, historyOf } from './history.ts';
import { type Held, heldAsNew } from './keep.ts';
import { historyFrom } from './keepHistory.ts';
import { rememberedOpen } from './keepSession.ts';
import { claimDesign } from './keepTabs.ts';
import { firstStarter } from './starter.ts';
import { copyName, newDocument, type OpenDocument, type Refused } from './openDocument.ts';
import { workOf } from './work.ts';

export interface Opening {
  readonly document: OpenDocument;
  readonly history: History<Work>;
  readonly held: Held;
  /** For the maker to read; null when all is as it should be. */
  readonly words: string | null;
}

export type KeptOpening =
  | { readonly ok: true; readonly opening: Opening }
  /** `words`: null when there is no such design. */
  | { readonly ok: false; readonly words: string | null };

/** How long this page waits for its own past self to let go of a design, ms. */
const RELOAD_WAIT_MS = 1_500;

export interface FirstOpening extends Opening {
  /** Why nothing can be kept; null when it can. */
  readonly fault: KeepFault | null;
}

export async function openingFromLibrary(library: Library): Promise<FirstOpening> {
  const words: string[] = [];
  const remembered = rememberedOpen();
  const list = await library.list();
  const listed = list.ok ? list.value.map(({ id }) => id) : [];
  const shut = !list.ok && list.fault.code === 'blocked';
  for (const id of new Set(remembered === null || shut ? listed : [remembered, ...listed])) {
    const kept = await openKept(library, id, id === remembered ? RELOAD_WAIT_MS : 0);
    if (kept.ok) {
      words.push(kept.opening.words ?? '');
      return { ...kept.opening, words: sentences(words), fault: null };
    }
    words.push(kept.words ?? '');
  }
  const starter = opened(library, workOf(firstStarter()), { origin: 'starter' });
  return { ...starter, words: sentences(words), fault: list.ok ? null : list.fault };
}

function sentences(words: readonly string[]): string | null {
  const said = words.filter((sentence) => sentence !== '');
  return said.length === 0 ? null : said.join(' ');
}

/** A design of the library, with its history: as itself, or as a copy where another tab has it. */
export async function openKept(library: Library, id: string, wait_ms = 0): Promise<KeptOpening> {
  const claim = await claimDesign(id, wait_ms);
  const read = await library.read(id);
  const readable = readableOf(library, id, read);
  if (typeof readable !== 'object' || readable === null) {
    claim?.release();
    return { ok: false, words: readable };
  }
  if (claim === null) return { ok: true, opening: asCopy(library, readable) };
  const { keeper, ...rest } = readable;
  return { ok: true, opening: { ...rest, held: { keeper, claim } } };
}

type Readable = Omit<Opening, 'held'> & { readonly keeper: Keeper };

/** What can be opened of a design, or why nothing can, or null when there is no such design. */
function readableOf(library: Library, id: string, read: Outcome<ReadBack>): Readable | string | null {
  if (!read.ok) return `A kept design could not be read: ${read.fault.reason}.`;
  if (read.value.state === 'none') return null;
  const { header } = read.value;
  // Deleted in another tab, while this one was closed: what is done to it now would be deleted with it.
  if (header && header.removed_ms !== null) return null;
  const name = header?.name ?? 'A design';
  if (read.value.state === 'damaged' || !header)
    return `${name} could not be read back (${read.value.state === 'damaged' ? read.value.reason : ''}). It is left as it is.`;
  const document: OpenDocument = { id, origin: header.origin, link: header.link, newer: null };
  if (read.value.state === 'newer') {
    const { newer } = read.value;
    if (!newer.design) return `${name} was made with a newer Kerfweave and cannot be shown here.`;
    const keeper = Keeper.forWritten(library, header);
    return {
      keeper,
      document: { ...document, newer },
      history: historyOf(workOf(newer.design)),
      words: null,
    };
  }
  const { timeline, lost } = read.value;
  const words =
    lost &&
    `Of ${name}, ${lost.reason}. It is open in its last good state; what was found can be saved from the list of your designs.`;
  const keeper = Keeper.forRead(library, read.value);
  return { keeper, document, history: historyFrom(timeline), words };
}

function asCopy(library: Library, { document, history }: Readable): Opening {
  const words = (name: string) =>
    `${name} is open in another tab. This is a copy of it; what you do here does not change the other.`;
  const { present } = history;
  const { name } = present.variants[present.active].design;
  if (document.newer) return { ...opened(library, present, { newer: document.newer }), words: words(name) };
  const variants = present.variants.map((v) => ({
    ...v,
    design: { ...v.design, name: copyName(v.design.name) },
  }));
  return { ...opened(library, { ...present, variants }), words: words(name) };
}

export function opened(
  library: Library,
  work: Work,
  more: Partial<OpenDocument> = {},
): Omit<Opening, 'words'> {
  const document = newDocument(more.origin ?? 'beside', more);
  return { document, history: historyOf(work), held: heldAsNew(library, document) };
}

export type LinkOpening =
  /** null: it is what is open already. */
  { readonly ok: true; readonly opening: Opening | null } | { readonly ok: false; readonly refused: Refused };

/** The design in the address as a new one; the one that came by the same link before, if it is untouched. */
export async function openLink(library: Library, fragment: string, openId: string): Promise<LinkOpening> {
  const link = fragment.replace(/^#/, '');
  const list = await library.list();
  const before = list.ok
    ? list.value.find((header) => header.link === link && header.count === 1)
    : undefined;
  if (before?.id === openId) return { ok: true, opening: null };
  if (before) {
    const kept = await openKept(library, before.id);
    if (kept.ok) return kept;
  }
  const read = readLink(link);
  if (read.ok) {
    const variants = read.work.variants.map((variant, i) => ({ ...variant, id: `v${i + 1}` }));
    const work = { variants, active: read.work.active };
    return { ok: true, opening: { ...opened(library, work, { origin: 'link', link }), words: null } };
  }
  const { newer } = read;
  if (newer?.design) {
    const work = workOf(newer.design);
    return { ok: true, opening: { ...opened(library, work, { origin: 'link', link, newer }), words: null } };
  }
  return { ok: false, refused: { fileName: 'The link', faults: read.faults } };
}
