/**
 * The one store: the work (variants of the design with their history), the moment, the view, the station.
 * Everything else on screen is derived from these (derived.ts). Lengths mm, angles degrees, as in the file.
 */
import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Design } from '../design/document.ts';
import { formatAngle } from '../design/lengthText.ts';
import { faultLine, type Fault } from '../design/faults.ts';
import { MAX_NAME_CHARACTERS } from '../design/limits.ts';
import { checkDesign, type NewerFile } from '../design/parse.ts';
import type { Origin } from '../files/kept.ts';
import type { Shelf } from './keepShelf.ts';
import type { CameraPreset, Finish, RingDrag, StageView } from '../stage/props.ts';
import { newGesture } from '../panels/gesture.ts';
import type { Bench, LastReady, Pointed, ReportState, Station, Variant, Work } from '../panels/bench.ts';
import { asBuiltVariants, nextTry } from './asBuiltVariants.ts';
import { lastPosition, nearestCut, positionAfter } from './position.ts';
import { changed, gestureEnded, historyOf, redone, undone, type History } from './history.ts';

export type ThemeChoice = 'light' | 'dark' | 'system';

/** What is cut away as the maker sets it; stageView.ts turns it into a plane or a cutter in millimetres. */
export interface SectionChoice {
  readonly on: boolean;
  /** One plane; or a wedge or an octant taken out of the piece. */
  readonly kind: 'plane' | 'wedge' | 'octant';
  /** Plane: 0 lays it along the lathe axis, 90 straight across it. Wedge, octant: how far it leans. */
  readonly tilt_deg: number;
  /** Azimuth that the plane faces, or that the wedge and the octant open to. */
  readonly azimuth_deg: number;
  /** From the middle of the blank along the plane's normal (wedge, octant: along the axis); ±1 leaves the wood. */
  readonly place: number;
  /** Wedge only. */
  readonly opening_deg: number;
}

export interface View extends Omit<StageView, 'section' | 'cutaway'> {
  readonly section: SectionChoice;
  /** All variants side by side instead of the active one alone. */
  readonly compare: boolean;
  readonly map: boolean;
  /** The map in the place of the stage. */
  readonly mapLarge: boolean;
  /** On a phone: the controls have most of the window, the stage what is left. */
  readonly sheetTall: boolean;
  readonly theme: ThemeChoice;
  readonly finish: Finish;
}

export interface AppState extends Bench {
  readonly history: History<Work>;
  readonly document: OpenDocument;
  readonly view: View;
  readonly keysShown: boolean;
  readonly dialog: 'designs' | 'share' | null;
  /** The file that could not be opened, while its faults are shown. */
  readonly refused: Refused | null;
  /** A sentence for the maker, shown until it is dismissed or replaced. */
  readonly said: string | null;
  readonly kept: KeptState;
  /** The designs kept in this browser; null before the app has started. */
  readonly shelf: Shelf | null;
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

/** The open design as the library of this browser knows it. */
export interface OpenDocument {
  readonly id: string;
  readonly origin: Origin;
  /** The link that it came by. */
  readonly link: string | null;
  /** A file of a later version: open for reading only, and saved as it came. */
  readonly newer: NewerFile | null;
}

/** Whether the last edit is in this browser's storage. */
export type KeptState =
  | { readonly state: 'kept' }
  | { readonly state: 'keeping' }
  | { readonly state: 'failed'; readonly reason: string };

const NEWER_WORDS =
  'This design was made with a newer Kerfweave. It is open for reading only; saved to a file it keeps all that it holds.';

export interface Refused {
  readonly fileName: string;
  readonly faults: readonly Fault[];
}

export type AppStore = StoreApi<AppState>;

export const HOME_SECTION: SectionChoice = {
  on: false,
  kind: 'plane',
  tilt_deg: 0,
  // Toward the camera where it stands at first, so that the cut face is seen.
  azimuth_deg: 300,
  place: 0,
  opening_deg: 90,
};

const MAX_VARIANTS = 4;

const HOME_VIEW: View = {
  section: HOME_SECTION,
  apart: 0,
  xray: false,
  dimensions: false,
  atTheSaw: false,
  projection: 'perspective',
  camera: { preset: 'home', nonce: 0 },
  turntable: false,
  compare: false,
  map: true,
  mapLarge: false,
  sheetTall: false,
  theme: 'system',
  finish: 'oiled',
};

/** Side by side on the stage, with the table of what differs and what can be done with the variants in sight. */
function comparing(view: View): View {
  return { ...view, compare: true, map: true, mapLarge: false, sheetTall: false };
}

export interface StoreOptions {
  /** Whether the unrolled map is shown at first; a narrow window has no room for it. */
  readonly map?: boolean;
  /** What is open, when it is more than the first work. */
  readonly document?: OpenDocument;
  readonly history?: History<Work>;
}

export function newDocument(origin: Origin, more: Partial<OpenDocument> = {}): OpenDocument {
  return { id: newId(), origin, link: null, newer: null, ...more };
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
      letterKeys: true,

      edit: (label, change, gesture) =>
        editWork(label, (current) => withDesign(current, change(activeDesign(current))), gesture),
      editWork,
      endGesture: () => set({ history: gestureEnded(get().history) }),
      undo: () => setHistory(undone(get().history)),
      redo: () => setHistory(redone(get().history)),
      dragRing: ({ variant, slot, center_mm, phase }) => {
        const { work: current, endGesture, undo } = get();
        const setId = slot.slice(0, slot.lastIndexOf('.'));
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
        set({ document: newDocument('copy') });
        get().renameDesign(copyName(get().design.name));
      },
      compareAngles: (of_deg, at_deg) => {
        editWork(`compare ${at_deg.map(formatAngle).join(' and ')}`, (current) =>
          angleVariants(activeDesign(current), of_deg, at_deg),
        );
        set({ view: comparing(get().view) });
      },
      compareAsBuilt: () => {
        const next = asBuiltVariants(get().work);
        if (next.variants.length > MAX_VARIANTS) {
          set({ said: 'There is no room for another piece beside these: remove a variant first.' });
          return;
        }
        const fault = editWork(`as sawn, try ${nextTry(get().work)}`, () => next);
        if (fault !== null) set({ said: `No piece as it may come out: ${fault}.` });
        else set({ view: comparing(get().view) });
      },
      addVariant: () => {
        editWork('add a variant', (current) => {
          const { variants, active } = current;
          if (variants.length >= MAX_VARIANTS) return current;
          const id = freshId(variants);
          const copy = { id, name: freshName(variants), design: variants[active].design };
          return { variants: [...variants, copy], active: variants.length };
        });
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

/** Why a changed variant is no valid design, or null. Variants that did not change are taken as they are. */
function firstFault(before: Work, after: Work): string | null {
  for (const variant of after.variants) {
    if (before.variants.some((known) => known.design === variant.design)) continue;
    const result = checkDesign(variant.design);
    if (!result.ok) return result.faults.map(faultLine)[0] ?? 'this is no valid design';
  }
  return null;
}

/** A random id. (randomUUID is there only for pages that came over https or from this machine.) */
export function newId(): string {
  return Array.from(crypto.getRandomValues(new Uint8Array(12)), (byte) =>
    byte.toString(36).padStart(2, '0'),
  ).join('');
}

/** `Bowl, copy`, within the length that a name may have. */
export function copyName(name: string): string {
  return `${name.slice(0, MAX_NAME_CHARACTERS - 6).replace(/[\ud800-\udbff]$/, '')}, copy`;
}

export function workOf(design: Design): Work {
  return { variants: [{ id: 'v1', name: 'Variant 1', design }], active: 0 };
}

function freshId(variants: readonly Variant[]): string {
  for (let n = 1; ; n++) if (!variants.some(({ id }) => id === `v${n}`)) return `v${n}`;
}

function freshName(variants: readonly Variant[]): string {
  for (let n = variants.length + 1; ; n++)
    if (!variants.some(({ name }) => name === `Variant ${n}`)) return `Variant ${n}`;
}

function angleVariants(design: Design, of_deg: number, at_deg: readonly number[]): Work {
  const at = (angle_deg: number): Design =>
    angle_deg === of_deg
      ? design
      : {
          ...design,
          sets: design.sets.map((set) => (set.angle_deg === of_deg ? { ...set, angle_deg } : set)),
        };
  const angles = at_deg.includes(of_deg) ? at_deg : [of_deg, ...at_deg];
  const variants = angles.map((angle_deg, i) => ({
    id: `v${i + 1}`,
    name: formatAngle(angle_deg),
    design: at(angle_deg),
  }));
  return { variants, active: angles.indexOf(of_deg) };
}

export function activeDesign(work: Work): Design {
  return work.variants[work.active].design;
}

/** The work with another document in its active variant; the same work when the document is the same. */
export function withDesign(work: Work, design: Design): Work {
  const active = work.variants[work.active];
  if (design === active.design) return work;
  const variants = work.variants.map((variant): Variant =>
    variant === active ? { ...variant, design } : variant,
  );
  return { ...work, variants };
}

function isLocked(design: Design, id: string): boolean {
  return design.sets.find((set) => set.id === id)?.locked === true;
}

/** The design with a set moved along the axis, to a tenth of a millimetre and within the blank. */
function withSetAt(design: Design, id: string, center_mm: number): Design {
  const held = Math.min(Math.max(center_mm, 0), design.blank.length_mm);
  const placed = Math.round(held * 10) / 10;
  return {
    ...design,
    sets: design.sets.map((set) => (set.id === id ? { ...set, center_mm: placed } : set)),
  };
}

function selectionAfter(design: Design, selected: string | null): string | null {
  if (selected !== null && design.sets.some((set) => set.id === selected)) return selected;
  return design.sets[0]?.id ?? null;
}

function stillThere(design: Design, pointed: Pointed | null): Pointed | null {
  if (!pointed) return null;
  const ids = new Set(design.order);
  const there =
    pointed.kind === 'ring' ? ids.has(pointed.slot) : ids.has(pointed.under) && ids.has(pointed.over);
  return there ? pointed : null;
}
