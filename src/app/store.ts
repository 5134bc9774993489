/**
 * The one store: the work (variants of the design with their history), the moment, the view, the station.
 * Everything else on screen is derived from these (derived.ts). Lengths mm, angles degrees, as in the file.
 */
import { createStore, type StoreApi } from 'zustand/vanilla';
import { momentsOf, type Moment } from '../blank/moments.ts';
import type { Design } from '../design/document.ts';
import type { Bench, Pointed, Station, Variant, Work } from '../panels/bench.ts';
import { changed, gestureEnded, historyOf, redone, undone, type History } from './history.ts';

export type Theme = 'light' | 'dark' | 'system';
export type CameraPreset = 'home' | 'axis' | 'face' | 'entry';

export interface SectionPlane {
  readonly on: boolean;
  /** Place along the lathe axis as a share of the length, 0 at the foot. */
  readonly place: number;
  /** Angle between the plane and the axis: 0 cuts lengthwise, 90 straight across. */
  readonly tilt_deg: number;
  /** Azimuth that the plane's normal leans to. */
  readonly azimuth_deg: number;
}

export interface View {
  readonly section: SectionPlane;
  /** 0 together, 1 fully pulled apart. */
  readonly apart: number;
  readonly stripsInside: boolean;
  readonly dimensions: boolean;
  readonly atTheSaw: boolean;
  /** All variants side by side instead of the active one alone. */
  readonly compare: boolean;
  readonly map: boolean;
  readonly theme: Theme;
  /** The last preset asked for; the count tells two equal requests apart. */
  readonly camera: { readonly preset: CameraPreset; readonly request: number };
}

export interface AppState extends Bench {
  readonly history: History<Work>;
  readonly view: View;
  /** Place on the line of moments; whole numbers are the moments, see blank/moments.ts. */
  readonly position: number;
  readonly playing: boolean;
  readonly keysShown: boolean;

  setStation(station: Station): void;
  setPosition(position: number): void;
  stepMoment(by: number): void;
  setPlaying(playing: boolean): void;
  setView(change: Partial<View>): void;
  showCamera(preset: CameraPreset): void;
  showKeys(shown: boolean): void;
  openDesign(design: Design): void;
  renameDesign(name: string): void;
  editWork(label: string, change: (work: Work) => Work, gesture?: string): void;
}

export type AppStore = StoreApi<AppState>;

const HOME_VIEW: View = {
  section: { on: false, place: 0.5, tilt_deg: 0, azimuth_deg: 0 },
  apart: 0,
  stripsInside: false,
  dimensions: false,
  atTheSaw: false,
  compare: false,
  map: true,
  theme: 'system',
  camera: { preset: 'home', request: 0 },
};

export function lastPosition(design: Design): number {
  return momentsOf(design).length - 1;
}

export function createAppStore(design: Design): AppStore {
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
      });
    };
    const editWork: AppState['editWork'] = (label, change, gesture) => {
      const { history } = get();
      setHistory(changed(history, label, change(history.present), gesture ?? null));
    };
    const work = workOf(design);
    return {
      history: historyOf(work),
      work,
      design,
      station: 'rings',
      selectedSet: design.sets[0]?.id ?? null,
      pointed: null,
      lockedSets: new Set(),
      view: HOME_VIEW,
      position: lastPosition(design),
      playing: false,
      keysShown: false,

      edit: (label, change, gesture) =>
        editWork(label, (current) => withDesign(current, change(activeDesign(current))), gesture),
      editWork,
      endGesture: () => set({ history: gestureEnded(get().history) }),
      undo: () => setHistory(undone(get().history)),
      redo: () => setHistory(redone(get().history)),
      setUnit: (unit) =>
        editWork(unit === 'in' ? 'show inches' : 'show millimetres', (current) => ({
          ...current,
          variants: current.variants.map((variant) => ({ ...variant, design: { ...variant.design, unit } })),
        })),
      renameDesign: (name) =>
        editWork('rename', (current) => withDesign(current, { ...activeDesign(current), name }), 'rename'),
      openDesign: (opened) => {
        const next = workOf(opened);
        set({ position: Infinity });
        editWork(`open ${opened.name}`, () => next);
        set({ position: lastPosition(opened), selectedSet: opened.sets[0]?.id ?? null });
      },
      selectSet: (id) => set({ selectedSet: id }),
      point: (target) => set({ pointed: target }),
      setLocked: (id, locked) => {
        const lockedSets = new Set(get().lockedSets);
        if (locked) lockedSets.add(id);
        else lockedSets.delete(id);
        set({ lockedSets });
      },
      setStation: (station) => set({ station }),
      setPosition: (position) =>
        set({ position: Math.min(Math.max(position, 0), lastPosition(get().design)) }),
      stepMoment: (by) => {
        const { position, setPosition } = get();
        const from = by > 0 ? Math.floor(position + 1e-6) : Math.ceil(position - 1e-6);
        set({ playing: false });
        setPosition(from + by);
      },
      setPlaying: (playing) => set({ playing }),
      setView: (change) => set({ view: { ...get().view, ...change } }),
      showCamera: (preset) =>
        set({
          view: { ...get().view, camera: { preset, request: get().view.camera.request + 1 } },
        }),
      showKeys: (keysShown) => set({ keysShown }),
    };
  });
}

export function workOf(design: Design): Work {
  return { variants: [{ id: 'v1', name: 'A', design }], active: 0 };
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

/** Where the scrubber stands after an edit: at the same moment of the new line, the end staying the end. */
export function positionAfter(before: Design, after: Design, position: number): number {
  const old = momentsOf(before);
  const next = momentsOf(after);
  if (position >= old.length - 1) return next.length - 1;
  const index = Math.floor(position);
  const key = momentKey(before, old[index]);
  const found = next.findIndex((moment) => momentKey(after, moment) === key);
  return found >= 0 ? found + (position - index) : Math.min(position, next.length - 1);
}

function momentKey(design: Design, moment: Moment): string {
  return `${moment.kind} ${moment.slot === null ? '' : design.order[moment.slot]}`;
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
