/**
 * The one store: the work (variants of the design with their history), the moment, the view, the station.
 * Everything else on screen follows from these (panels/derived.ts, reports.ts). Lengths mm, angles degrees, as in the file.
 */
import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Design } from '../design/document.ts';
import { formatAngle } from '../design/lengthText.ts';
import { setIdOf } from '../design/order.ts';
import type { Origin } from '../files/kept.ts';
import type { CameraPreset, RingDrag } from '../stage/props.ts';
import type { Bench, LastReady, ReportState, Station, Work } from '../panels/bench.ts';
import { newGesture } from '../panels/gesture.ts';
import { sampleName } from '../panels/plan/sampleVariant.ts';
import { asBuiltVariants, nextSample } from './asBuiltVariants.ts';
import { changed, gestureEnded, historyOf, redone, undone, type History } from './history.ts';
import type { Shelf } from './keepShelf.ts';
import {
  copyName,
  newDocument,
  NEWER_WORDS,
  type KeptState,
  type OpenDocument,
  type Refused,
} from './openDocument.ts';
import { lastPosition, nearestCut, positionAfter } from './position.ts';
import { isLocked, withSetAt } from './movedSet.ts';
import { selectionAfter, stillThere } from './selection.ts';
import { comparing, HOME_VIEW, type View } from './view.ts';
import {
  activeDesign,
  angleVariants,
  firstFault,
  MAX_VARIANTS,
  withAnotherVariant,
  withDesign,
  workOf,
} from './work.ts';

export interface AppState extends Bench {
  readonly history: History<Work>;
  readonly document: OpenDocument;
  readonly view: View;
  readonly keysShown: boolean;
  /** `offer` and `share` are one dialog: the link for a client, and the design itself. */
  readonly dialog: 'designs' | 'share' | 'offer' | null;
  /** The file that could not be opened, while its faults are shown. */
  readonly refused: Refused | null;
  /** A sentence for the maker, shown until it is dismissed or replaced. */
  readonly said: string | null;
  readonly kept: KeptState;
  /** The designs kept in this browser; null before the app has started. */
  readonly shelf: Shelf | null;
  /**
   * On a page that shows a link and keeps nothing: why a client's link cannot be opened, or null; or what another tab has
   * done with a client's answer. null: the maker's window.
   */
  readonly client: { readonly fault: string | null; readonly handedOver?: string } | null;
  /** Single-letter keys; off for those whom they get in the way of. */
  readonly letterKeys: boolean;

  readonly setStation: (station: Station) => void;
  readonly setView: (change: Partial<View>) => void;
  readonly showCamera: (preset: CameraPreset) => void;
  /** To the other of light and dark than the one on screen. */
  readonly switchTheme: () => void;
  readonly showKeys: (shown: boolean) => void;
  readonly setRefused: (refused: Refused | null) => void;
  readonly say: (sentence: string | null) => void;
  readonly setKept: (kept: KeptState) => void;
  readonly setReports: (reports: ReadonlyMap<Design, ReportState>, newest: LastReady | null) => void;
  /** Takes over the new version that waits; null while there is none. */
  readonly update: (() => void) | null;
  readonly showDialog: (dialog: AppState['dialog']) => void;
  readonly setLetterKeys: (on: boolean) => void;
  /** Opens a design as a new document; the one before stays among the kept designs. */
  readonly openDesign: (design: Design, origin: Origin) => void;
  readonly openDocument: (document: OpenDocument, history: History<Work>) => void;
  /** The open design goes on under another id, as a copy. */
  readonly becomeCopy: () => void;
  /** null when done, else why the name cannot be. */
  readonly renameDesign: (name: string) => string | null;
  /** A ring dragged on the stage: its set moves along the axis, one undo step per drag. */
  readonly dragRing: (drag: RingDrag) => void;
}

export type AppStore = StoreApi<AppState>;

export interface StoreOptions {
  /** Whether the unrolled map is shown at first; a narrow window has no room for it. */
  readonly map?: boolean;
  /** What is open, when it is more than the first work. */
  readonly document?: OpenDocument;
  readonly history?: History<Work>;
  readonly client?: AppState['client'];
}

export function createAppStore(first: Work, options: StoreOptions = {}): AppStore {
  const design = activeDesign(first);
  return createStore<AppState>()((set, get) => {
    const setHistory = (history: History<Work>) => {
      const before = get();
      if (history === before.history) return;
      const work = history.present;
      const next = activeDesign(work);
      set({
        history,
        work,
        design: next,
        position: positionAfter(before.design, next, before.position),
        selectedSet: selectionAfter(next, before.selectedSet),
        pointed: stillThere(next, before.pointed),
        view: work.variants.length > 1 ? before.view : { ...before.view, compare: false },
      });
    };
    const editWork: AppState['editWork'] = (label, change, gesture) => {
      const { history, document } = get();
      if (document.newer)
        return `made with a newer Kerfweave (version ${document.newer.version}): open for reading only`;
      const next = change(history.present);
      const fault = firstFault(history.present, next);
      if (fault !== null) return fault;
      setHistory(changed(history, label, next, gesture ?? null));
      return null;
    };
    let dragGesture: string | null = null;
    return {
      history: options.history ?? historyOf(first),
      document: options.document ?? newDocument('starter'),
      work: first,
      design,
      station: 'rings',
      selectedSet: design.sets[0]?.id ?? null,
      pointed: null,
      view: { ...HOME_VIEW, map: options.map ?? true },
      position: lastPosition(design),
      playing: false,
      reports: new Map(),
      lastReady: null,
      keysShown: false,
      dialog: null,
      update: null,
      refused: null,
      said: null,
      kept: { state: 'kept' },
      shelf: null,
      client: options.client ?? null,
      letterKeys: true,

      edit: (label, change, gesture) =>
        editWork(label, (current) => withDesign(current, change(activeDesign(current))), gesture),
      editWork,
      endGesture: () => set({ history: gestureEnded(get().history) }),
      undo: () => setHistory(undone(get().history)),
      redo: () => setHistory(redone(get().history)),
      dragRing: ({ variant, slot, center_mm, phase }) => {
        const { work: current, endGesture, undo } = get();
        const setId = setIdOf(slot);
        if (current.variants[current.active].id !== variant || isLocked(get().design, setId)) return;
        if (phase === 'start') {
          dragGesture = newGesture();
          set({ selectedSet: setId });
        } else if (phase === 'move' && dragGesture !== null) {
          get().moveSet(setId, center_mm, dragGesture);
        } else {
          const moved = dragGesture !== null && get().history.gesture === dragGesture;
          endGesture();
          if (phase === 'cancel' && moved) undo();
          dragGesture = null;
        }
      },
      setUnit: (unit) =>
        editWork(unit === 'in' ? 'show inches' : 'show millimetres', (current) => ({
          ...current,
          variants: current.variants.map((variant) => ({ ...variant, design: { ...variant.design, unit } })),
        })),
      renameDesign: (name) =>
        editWork('rename', (current) => withDesign(current, { ...activeDesign(current), name }), 'rename'),
      openDesign: (opened, origin) => get().openDocument(newDocument(origin), historyOf(workOf(opened))),
      openDocument: (document, history) => {
        const work = history.present;
        const opened = activeDesign(work);
        set({
          document,
          history,
          work,
          design: opened,
          position: lastPosition(opened),
          playing: false,
          said: document.newer && NEWER_WORDS,
          selectedSet: opened.sets[0]?.id ?? null,
          pointed: null,
          view: work.variants.length > 1 ? get().view : { ...get().view, compare: false },
        });
      },
      becomeCopy: () => {
        get().endGesture();
        set({ document: newDocument('copy') });
        get().renameDesign(copyName(get().design.name));
        get().endGesture();
      },
      compareAngles: (of_deg, at_deg) => {
        editWork(`compare ${at_deg.map(formatAngle).join(' and ')}`, (current) =>
          angleVariants(activeDesign(current), of_deg, at_deg),
        );
        set({ view: comparing(get().view) });
      },
      compareAsBuilt: (times) => {
        const next = asBuiltVariants(get().work, times);
        if (next.variants.length > MAX_VARIANTS) {
          set({ said: 'There is no room for another piece beside these: remove a variant first.' });
          return;
        }
        const label = sampleName(nextSample(get().work, times)).toLowerCase();
        const fault = editWork(label, () => next);
        if (fault !== null) set({ said: `No piece as it may come out: ${fault}.` });
        else set({ view: comparing(get().view) });
      },
      addVariant: () => {
        editWork('add a variant', withAnotherVariant);
        set({ view: comparing(get().view) });
      },
      chooseVariant: (index) => {
        const { history } = get();
        const active = Math.min(Math.max(index, 0), history.present.variants.length - 1);
        setHistory({ ...history, present: { ...history.present, active }, gesture: null });
      },
      selectSet: (id) => set({ selectedSet: id }),
      moveSet: (id, center_mm, gesture) => {
        if (isLocked(get().design, id)) return;
        set({ selectedSet: id });
        get().edit(`move ${id}`, (current) => withSetAt(current, id, center_mm), gesture);
      },
      point: (target) => set({ pointed: target }),
      setStation: (station) => set(station === get().station ? {} : { station, pointed: null }),
      setPosition: (position) =>
        set({ position: Math.min(Math.max(position, 0), lastPosition(get().design)) }),
      stepMoment: (by) => {
        const { position, setPosition } = get();
        const from = by > 0 ? Math.floor(position + 1e-6) : Math.ceil(position - 1e-6);
        set({ playing: false });
        setPosition(from + by);
      },
      setPlaying: (playing) => set({ playing }),
      setView: (change) => {
        const before = get();
        const atTheSaw = change.atTheSaw === true && !before.view.atTheSaw;
        set({
          view: { ...before.view, ...change },
          ...(atTheSaw && { position: nearestCut(before.design, before.position), playing: false }),
        });
      },
      switchTheme: () =>
        get().setView({ theme: document.documentElement.dataset.theme === 'dark' ? 'light' : 'dark' }),
      showCamera: (preset) =>
        set({
          view: { ...get().view, camera: { preset, nonce: get().view.camera.nonce + 1 } },
        }),
      showKeys: (keysShown) => set({ keysShown }),
      setRefused: (refused) => set({ refused }),
      say: (said) => set({ said }),
      setKept: (kept) => set({ kept }),
      setReports: (reports, newest) => set({ reports, lastReady: newest ?? get().lastReady }),
      showDialog: (dialog) => set({ dialog }),
      setLetterKeys: (letterKeys) => set({ letterKeys }),
    };
  });
}
