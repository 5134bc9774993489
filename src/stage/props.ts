/**
 * What the app hands to the stage and what comes back. The stage keeps no state of its own beyond the camera:
 * everything drawn follows from these properties.
 *
 * Frame: the lathe frame (z along the axis from foot to head, azimuth counter-clockwise seen from the head),
 * millimetres and degrees. No import of three here, so that the app can use these types before the stage is loaded.
 */
import type { Moment } from '../blank/moments.ts';
import type { Design, SlotId } from '../design/document.ts';
import type { Vec3 } from '../geometry/vector.ts';

export type Theme = 'light' | 'dark';
export type Finish = 'raw' | 'oiled' | 'gloss';
/** studio: soft from the left front; window: cool from the side; overcast: the whole sky; evening: low and warm. */
export type StudioLight = 'studio' | 'window' | 'overcast' | 'evening';
/** Of true size beside the piece: a hand of 190 mm, a plain pencil of 175 mm, a disc of 24 mm (common practice). */
export type ScaleReference = 'hand' | 'pencil' | 'coin';
export type Projection = 'perspective' | 'orthographic';

/** home: three-quarter view; axis: from the head; face: square on face A; entry: on the entry side of the slot at hand. */
export type CameraPreset = 'home' | 'axis' | 'face' | 'entry';

export interface StageVariant {
  /** Stable key of the variant; 'main' for the design itself. */
  readonly key: string;
  /** Shown above the variant when there are several. */
  readonly label: string;
  readonly design: Design;
  /** What its slots are called on the stage, where that is not their own id: the names that `highlight` uses. */
  readonly slotNames?: ReadonlyMap<SlotId, SlotId>;
  /** Drawn on the turned piece. */
  readonly marks?: readonly StageMark[];
  /** Words in the picture itself, above the piece. */
  readonly caption?: string;
}

/** A place on the turned piece that is pointed out, lathe frame, mm. */
export interface StageMark {
  /** '': none. */
  readonly text: string;
  readonly at: Vec3;
  /** A line on the surface. */
  readonly line?: readonly Vec3[];
}

/** Wood on the side that the normal points to is taken away (normal · p > offset_mm). The normal need not be a unit vector. */
export interface SectionView {
  readonly normal: Vec3;
  readonly offset_mm: number;
}

/**
 * A piece cut out of the picture.
 * - wedge: between two half-planes through a line parallel to the axis at `at_mm`; opens `opening_deg` about `azimuth_deg`.
 * - box: centred at `at_mm`, `size_mm` along its own axes.
 * - octant: everything on the far side of three perpendicular planes through `at_mm` (towards azimuth, azimuth + 90°, head).
 * The whole cutter is turned to `azimuth_deg` and leaned by `tilt_deg` about its own side axis through `at_mm`.
 */
export interface CutawayView {
  readonly kind: 'wedge' | 'box' | 'octant';
  readonly at_mm: Vec3;
  readonly azimuth_deg: number;
  readonly tilt_deg: number;
  /** Wedge only; default 90, below 180. */
  readonly opening_deg?: number;
  /** Box only; default half the blank's width each way. */
  readonly size_mm?: Vec3;
}

export interface StageView {
  readonly section: SectionView | null;
  readonly cutaway: CutawayView | null;
  /** 0: together; 1: the parts pulled well apart. */
  readonly apart: number;
  /** The strips seen inside the wood. */
  readonly xray: boolean;
  readonly dimensions: boolean;
  /** Azimuth that dimension lines are to be read from, lathe frame; from where the camera stands at first when left out. */
  readonly dimensionsFrom_deg?: number;
  /** Fence, blade, stop and face letters at a cut. */
  readonly atTheSaw: boolean;
  readonly projection: Projection;
  /** A new nonce moves the camera to the preset, even when the preset is the same. */
  readonly camera: { readonly preset: CameraPreset; readonly nonce: number };
  /** Turns the piece slowly (draws all the time while on). */
  readonly turntable: boolean;
  readonly reference?: ScaleReference;
  /** The studio's own light when left out. */
  readonly light?: StudioLight;
}

/** Longest side of a picture, pixels. */
export const MOST_PICTURE_PX = 4096;

export const DEFAULT_VIEW: StageView = {
  section: null,
  cutaway: null,
  apart: 0,
  xray: false,
  dimensions: false,
  atTheSaw: false,
  projection: 'perspective',
  camera: { preset: 'home', nonce: 0 },
  turntable: false,
};

export interface StageHover {
  readonly variant: string;
  /** The strip under the pointer; null: the blank's own timber. */
  readonly slot: SlotId | null;
  readonly z_mm: number;
  readonly azimuth_deg: number;
  readonly radius_mm: number;
}

/** A ring dragged along the axis. `center_mm` is the new centre of the slot's set, never rounded or limited. */
export interface RingDrag {
  readonly variant: string;
  readonly slot: SlotId;
  readonly center_mm: number;
  readonly phase: 'start' | 'move' | 'end' | 'cancel';
}

export interface StageStatus {
  /** Solids are being worked out; the picture already follows. */
  readonly busy: boolean;
  /** A sentence for the status line, or null when there is nothing to say. */
  readonly message: string | null;
  readonly level: 'ok' | 'note' | 'fault';
}

export interface PictureRequest {
  readonly width_px: number;
  readonly height_px: number;
  /** Default: the studio; transparent leaves out floor and shadow. */
  readonly background?: 'studio' | 'transparent';
  /** One variant alone; default: all, as on the stage, with their names. */
  readonly variant?: string;
  /** Default: as on the stage. */
  readonly dimensions?: boolean;
  /** Ends the work; the promise then rejects with the signal's reason. */
  readonly signal?: AbortSignal;
  /** Called with the share that is drawn, 0…1. */
  readonly onProgress?: (share: number) => void;
  /** Side of the tiles that the picture is drawn in; left out, it follows the graphics card. */
  readonly tile_px?: number;
}

/** One turn of the piece before the camera, in pictures taken at even steps. */
export interface TurnRequest {
  readonly width_px: number;
  readonly height_px: number;
  /** Pictures in the whole turn: after the last comes the first again. */
  readonly frames: number;
  readonly signal?: AbortSignal;
}

export interface TurnFrames {
  /** Draws picture `index`; the canvas is the same each time. Rejects as `capture` does. */
  draw(index: number): Promise<HTMLCanvasElement>;
  dispose(): void;
}

/** For tests and benches: what the graphics card drew, as numbers. */
export interface StageInspection {
  /**
   * Number of the material that each pixel shows, rows from the top: −1 the blank's own timber, else the index in the
   * order of cutting; −2 where nothing of the piece is seen.
   */
  materials(width_px: number, height_px: number): Int16Array;
  /** Where a point of the piece (lathe frame, mm) falls in a picture of that size; null where it is hidden. */
  see(point: Vec3, width_px: number, height_px: number): readonly [x_px: number, y_px: number] | null;
  /** Where a point (lathe frame, mm) falls in a picture of that size, hidden or not. */
  place(point: Vec3, width_px: number, height_px: number): readonly [x_px: number, y_px: number];
  /** Time of one frame drawn to the end, ms. `flat`: the same mesh and light in one colour. */
  time(kind: 'picture' | 'moving' | 'flat', width_px: number, height_px: number): number;
  /** What the renderer keeps on the card. */
  memory(): { readonly geometries: number; readonly textures: number; readonly programs: number };
  /** Frames drawn so far. */
  frames(): number;
}

/** Imperative handle of the stage (React ref). */
export interface StageHandle {
  /**
   * A PNG in full quality at the size asked for, of the whole piece seen from where the camera stands. Drawn apart from the
   * screen, from what the stage shows at the moment of the call. Rejects with a sentence when the graphics context is lost.
   */
  capture(request: PictureRequest): Promise<Blob>;
  /** The turn of a film, drawn as a picture is. The caller disposes of it. */
  openTurn(request: TurnRequest): Promise<TurnFrames>;
  /** Turns the camera about the piece, degrees; for keys. */
  orbit(azimuth_deg: number, elevation_deg: number): void;
  /** Above 1: nearer. */
  zoom(factor: number): void;
  /** null until the stage is ready. */
  inspect(): StageInspection | null;
}

export interface StageProps {
  /** One to four, side by side under one camera. */
  readonly variants: readonly StageVariant[];
  /** Continuous place in `momentsOf(design)` of each variant; see `momentAt`. */
  readonly position: number;
  readonly view: StageView;
  readonly theme: Theme;
  readonly finish: Finish;
  /** Lit up; the other rings step back. */
  readonly highlight: SlotId | null;
  /** Width at the right edge that tools cover, CSS pixels; the piece is fitted clear of it, still in the middle. */
  readonly inset_px?: number;
  /** Of several, the one that is edited; its name is marked. */
  readonly chosen?: string;
  /** Called with the key of a variant whose name is pressed. */
  readonly onChoose?: (key: string) => void;
  readonly onHover?: (hover: StageHover | null) => void;
  readonly onDragRing?: (drag: RingDrag) => void;
  readonly onStatus?: (status: StageStatus) => void;
  /** Called after each full-quality frame; for tests and for pictures. */
  readonly onSettled?: () => void;
}

export interface MomentPlace {
  readonly moment: Moment;
  readonly index: number;
  /** 0: the moment begins; 1: it is complete. */
  readonly progress: number;
}

/**
 * The moment at a place of the line of moments. A whole number n is moment n **complete** (the kerf open, the strip in,
 * the form turned), so that the steps of the line show what their names say; between n − 1 and n, moment n is
 * under way. Places outside the list are held to its ends.
 */
export function momentAt(moments: readonly Moment[], position: number): MomentPlace {
  const held = Math.min(Math.max(position, 0), moments.length - 1);
  const index = Math.max(0, Math.ceil(held - 1e-9));
  return { moment: moments[index], index, progress: index === 0 ? 1 : Math.min(1, held - (index - 1)) };
}
