/**
 * How the wood of a blank and of its strips grew, with everything that a design leaves out filled in. Lathe frame,
 * mm, degrees; for the picture only. The defaults are our own choice of what turning stock commonly is: spindle
 * blanks with the fibre along the axis, bowl blanks across it, both cut clear of the pith.
 */
import { cosDeg, sinDeg } from '../geometry/angle.ts';
import type { Vec3 } from '../geometry/vector.ts';
import type { Blank, Grain, StripGrain, StripLayer } from './document.ts';
import { sectionGeometry, support_mm } from './section.ts';

export interface BlankGrain extends Required<Grain> {
  /** Unit direction of the fibre. */
  readonly fibre: Vec3;
  /** Unit directions in which the two numbers of pith_mm count; first × second = fibre. */
  readonly first: Vec3;
  readonly second: Vec3;
  /** Where they count from: the middle of the blank. */
  readonly middle_mm: Vec3;
}

/** The grain of a valid blank. */
export function grainOf(blank: Blank): BlankGrain {
  const { section, length_mm } = blank;
  const across_mm = Math.min(section.width_mm, section.depth_mm ?? section.width_mm);
  const along = blank.grain?.along ?? (length_mm < across_mm ? 'across' : 'axis');
  const azimuth_deg = blank.grain?.azimuth_deg ?? 0;
  const axes =
    along === 'axis'
      ? { fibre: [0, 0, 1] as const, first: [1, 0, 0] as const, second: [0, 1, 0] as const }
      : {
          fibre: [cosDeg(azimuth_deg), sinDeg(azimuth_deg), 0] as const,
          first: [-sinDeg(azimuth_deg), cosDeg(azimuth_deg), 0] as const,
          second: [0, 0, 1] as const,
        };
  const pith_mm =
    blank.grain?.pith_mm ?? (along === 'axis' ? pithBeside(blank) : pithAbove(blank, azimuth_deg));
  return { along, azimuth_deg, pith_mm, ...axes, middle_mm: [0, 0, length_mm / 2] };
}

/** The direction of a strip layer's fibre. */
export function stripGrainOf(layer: StripLayer): StripGrain {
  return layer.grain ?? 'length';
}

/** Between the normals of two faces: one shows flat-sawn figure, the next quarter-sawn, the others between. */
const PITH_AZIMUTH_DEG = 292.5;
/** Wood between the pith and the blank. */
const CLEAR_OF_WIDTH = 0.1;
const CLEAR_MM = 4;

function pithBeside({ section }: Blank): readonly [number, number] {
  const distance_mm =
    support_mm(sectionGeometry(section), PITH_AZIMUTH_DEG) + CLEAR_OF_WIDTH * section.width_mm + CLEAR_MM;
  return [distance_mm * cosDeg(PITH_AZIMUTH_DEG), distance_mm * sinDeg(PITH_AZIMUTH_DEG)];
}

/** A bowl opens toward the pith: flat-sawn figure in the middle, quarter-sawn at the two sides. */
function pithAbove({ section, length_mm }: Blank, azimuth_deg: number): readonly [number, number] {
  const half_mm = support_mm(sectionGeometry(section), azimuth_deg + 90);
  return [half_mm / 4, length_mm / 2 + CLEAR_OF_WIDTH * section.width_mm + CLEAR_MM];
}
