/**
 * Keeps what is open: every edit is handed to the browser's database before it is drawn, or as soon as the writing
 * before it is done, and the store says whether the last one has arrived. Follows the store from one document to the
 * next.
 */
import { Keeper } from '../files/autosave.ts';
import type { Outcome } from '../files/keptDatabase.ts';
import type { Library } from '../files/library.ts';
import { gestureEnded, type History, sameSteps } from './history.ts';
import { keptOf } from './keepHistory.ts';
import { type Claim, claimDesign, hasLocks, openDesigns } from './keepTabs.ts';
import { rememberOpen } from './keepSession.ts';
import type { OpenDocument } from './openDocument.ts';
import type { AppStore } from './store.ts';
import type { Work } from '../panels/bench.ts';

/** Between the starts of two writings of one gesture, ms: a drag is not written for every pixel. */
const SPACING_MS = 100;
/** Writings under way at once: an edit need not wait for the one before it, and they do not pile up on a slow disk. */
const UNDER_WAY = 2;
/** After a writing that failed, ms. */
const RETRY_MS = 5_000;

/** A document with what it takes to write it. */
export interface Held {
  readonly keeper: Keeper;
  readonly claim: Claim;
}

export interface Keeping {
  readonly library: Library;
  /** Makes known how the document that the store shows next is written. */
  readonly hold: (document: OpenDocument, held: Held) => void;
  /** Designs whose last state could not be written are still here, until the page is closed. */
  readonly unkept: ReadonlyMap<string, { readonly document: OpenDocument; readonly history: History<Work> }>;
  readonly keepNow: () => void;
  /** Whether the page can go without a loss; resolves when what is on its way has arrived or has failed. */
  readonly safe: () => Promise<boolean>;
  /** Whether something of the open design could not be read, and waits to be set aside. */
  readonly spoilt: () => boolean;
  /** Resolves when what was left has been written and let go. */
  readonly left: () => Promise<void>;
}

export function keepEveryEdit(store: AppStore, library: Library, first: Held): Keeping {
  const holds = new Map<string, Held>([[store.getState().document.id, first]]);
  const unkept = new Map<string, { document: OpenDocument; history: History<Work> }>();
  let current = first;
  let changed = false;
  let underWay = 0;
  /** When the last writing began, and in which gesture; when the next may begin. */
  let begun_ms = -Infinity;
  let gesture: string | null = null;
  let due_ms = -Infinity;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let asked = false;
  let left = Promise.resolve();

  const said = (outcome: Outcome<null>, history: History<Work>) => {
    const state = store.getState();
    if (!outcome.ok && outcome.fault.code === 'taken' && !state.document.newer) {
      state.becomeCopy();
      state.say('This design was changed in another tab. What you did here goes on as a copy of its own.');
      return;
    }
    if (outcome.ok && !asked && history.past.length > 0) {
      asked = true;
      void askForPersistence();
    }
    if (outcome.ok) {
      state.setKept({ state: sameSteps(state.history, history) ? 'kept' : 'keeping' });
      return;
    }
    // What is still under way brings what this one did not.
    changed ||= underWay === 0;
    due_ms = performance.now() + RETRY_MS;
    state.setKept({ state: 'failed', reason: outcome.fault.reason });
  };
  const write = async () => {
    const { document, history } = store.getState();
    const held = current;
    changed = false;
    underWay++;
    begun_ms = performance.now();
    gesture = history.gesture;
    const outcome = await held.keeper.keep(keptOf(document, history), held.claim.alone);
    underWay--;
    if (held === current) said(outcome, history);
    advance();
  };
  const advance = () => {
    clearTimeout(timer);
    if (!changed || underWay >= UNDER_WAY) return;
    const wait_ms = due_ms - performance.now();
    if (wait_ms > 0) timer = setTimeout(advance, wait_ms);
    else void write();
  };
  /** Without waiting for anything, for a page that may be gone in a moment. */
  const keepNow = () => {
    if (changed) void write();
  };
  const leave = async (document: OpenDocument, history: History<Work>, held: Held, dirty: boolean) => {
    holds.delete(document.id);
    if (dirty) {
      const outcome = await held.keeper.keep(keptOf(document, history), held.claim.alone);
      // What is done to it when it is open again is a step of its own.
      if (!outcome.ok) unkept.set(document.id, { document, history: gestureEnded(history) });
    }
    held.claim.release();
    await library.tidy(await openDesigns(), document.id);
  };

  rememberOpen(store.getState().document.id);
  // Written as it is, so that this tab finds it again whatever the other tabs open.
  if (!first.keeper.written) {
    changed = true;
    advance();
  }
  store.subscribe((state, before) => {
    if (state.document !== before.document) {
      const dirty = changed || underWay > 0 || state.kept.state === 'failed';
      const copied = sameSteps(state.history, before.history);
      const leaving = leave(before.document, before.history, current, dirty && !copied);
      left = left.then(() => leaving);
      current = holds.get(state.document.id) ?? heldAsNew(library, state.document);
      holds.set(state.document.id, current);
      unkept.delete(state.document.id);
      rememberOpen(state.document.id);
    } else if (sameSteps(state.history, before.history)) return;
    if (state.document !== before.document && current.keeper.written) {
      changed = false;
      state.setKept({ state: 'kept' });
      return;
    }
    changed = true;
    const goesOn = state.history.gesture !== null && state.history.gesture === gesture;
    due_ms = goesOn ? begun_ms + SPACING_MS : -Infinity;
    // Before anything is drawn: a page that dies while it draws has the edit on its way.
    advance();
    if (state.kept.state === 'kept') state.setKept({ state: 'keeping' });
  });
  window.document.addEventListener('visibilitychange', () => {
    if (window.document.visibilityState === 'hidden') keepNow();
  });
  window.addEventListener('pagehide', (event) => {
    keepNow();
    if (event.persisted) current.claim.release();
  });
  const loses = () => {
    const { kept: state, history, document } = store.getState();
    const edited = document.newer === null && history.past.length + history.future.length > 0;
    return unkept.size > 0 || (state.state === 'failed' && edited);
  };
  window.addEventListener('beforeunload', (event) => {
    if (loses()) event.preventDefault();
  });
  // A page that the browser had set aside (back, forward) does not know what was done to the design meanwhile.
  window.addEventListener('pageshow', (event) => {
    if (!event.persisted) return;
    if (!loses()) window.location.reload();
    else current = { keeper: current.keeper, claim: { alone: false, release: () => undefined } };
  });
  const safe = async () => {
    keepNow();
    await left;
    while (store.getState().kept.state === 'keeping')
      await new Promise<void>((resolve) => {
        const stop = store.subscribe(() => {
          stop();
          resolve();
        });
      });
    return !loses();
  };
  return {
    safe,
    spoilt: () => current.keeper.spoilt,
    library,
    unkept,
    keepNow,
    left: () => left,
    hold: (document, held) => holds.set(document.id, held),
  };
}

/** For a document that only this tab knows; its lock is there before anyone else could ask for it. */
export function heldAsNew(library: Library, document: OpenDocument): Held {
  const { id, origin, link } = document;
  const keeper = Keeper.forNew(library, { id, origin, ...(link === null ? {} : { link }) });
  const claimed = claimDesign(id);
  const release = () => void claimed.then((claim) => claim?.release());
  return { keeper, claim: { alone: hasLocks(), release } };
}

/** Browsers may clear what pages have stored, when space runs short or after days without a visit. */
async function askForPersistence(): Promise<void> {
  const storage = navigator.storage as StorageManager | undefined;
  if (!storage?.persist || (await storage.persisted())) return;
  await storage.persist();
}
