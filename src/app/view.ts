/** How the work is looked at: what is cut away, what is beside what, light and finish. Never part of the design. */
import type { Finish, ScaleReference, StageView, StudioLight } from '../stage/props.ts';

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

/** What the Show station adds to the picture; it keeps its own, so that the other stations' tools do not show in it. */
export interface ShownView {
  readonly light: StudioLight;
  readonly dimensions: boolean;
  /** Something of known size beside the piece. */
  readonly reference: ScaleReference | null;
  /** A finish tried on a client's page, which leaves the design as it is. */
  readonly finish: Finish | null;
  /** Nothing but the piece: bar, stations and controls are put away. */
  readonly clean: boolean;
}

export interface View extends Omit<StageView, 'section' | 'cutaway' | 'light' | 'reference'> {
  readonly section: SectionChoice;
  readonly shown: ShownView;
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

export const HOME_SECTION: SectionChoice = {
  on: false,
  kind: 'plane',
  tilt_deg: 0,
  // Toward the camera where it stands at first, so that the cut face is seen.
  azimuth_deg: 300,
  place: 0,
  opening_deg: 90,
};

export const HOME_SHOWN: ShownView = {
  light: 'studio',
  dimensions: false,
  reference: null,
  finish: null,
  clean: false,
};

export const HOME_VIEW: View = {
  section: HOME_SECTION,
  shown: HOME_SHOWN,
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
export function comparing(view: View): View {
  return { ...view, compare: true, map: true, mapLarge: false, sheetTall: false };
}
