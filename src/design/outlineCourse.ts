/**
 * Whether an outline is the edge of a solid: it encloses wood, meets the axis only at its ends, ends nearer
 * the head than it starts, and neither crosses nor touches itself. A loop keeps off the axis and runs from the
 * foot along the outside first. Checked on the same polyline that the engine turns. Frame (z, r), mm.
 */
import { flattenOutline, type OutlinePointLike, type Profile } from '../geometry/outline.ts';

/** Fine enough for the eye and the gauge, coarse enough for outlines of ten metres. */
const TOLERANCE_MM = 2e-3;
const TOLERANCE_OF_SIZE = 1e-5;
const MAX_PIECES = 20_000;

export interface CourseFault {
  readonly code:
    | 'outline-crosses'
    | 'outline-touches'
    | 'outline-meets-axis'
    | 'outline-ends'
    | 'outline-empty'
    | 'outline-direction';
  readonly message: string;
}

/**
 * The first fault of an outline's course, or null. At least three points: of a loop all off the axis, else the
 * first and the last on it.
 */
export function courseFault(outline: readonly OutlinePointLike[], loop = false): CourseFault | null {
  const profile = polyline(outline, loop);
  return loop ? loopFault(profile) : openFault(profile);
}

function loopFault(profile: Profile): CourseFault | null {
  const { z_mm, r_mm } = profile;
  const onAxis = r_mm.findIndex((r) => r <= 0);
  if (onAxis >= 0)
    return {
      code: 'outline-meets-axis',
      message: `meets the axis at z ${round(z_mm[onAxis])} mm: a loop keeps off it`,
    };
  if (z_mm.length < 4) return { code: 'outline-empty', message: 'encloses no wood' };
  const crossing = firstCrossing(profile, true);
  if (crossing) return crossing;
  let twiceArea = 0;
  for (let i = 0; i + 1 < z_mm.length; i++) twiceArea += z_mm[i] * r_mm[i + 1] - z_mm[i + 1] * r_mm[i];
  if (twiceArea < 0) return null;
  return {
    code: 'outline-direction',
    message: 'runs the wrong way round: a loop goes from the foot along the outside first',
  };
}

function openFault(profile: Profile): CourseFault | null {
  const { z_mm, r_mm } = profile;
  const first = r_mm.findIndex((r) => r > 0);
  if (first < 0) return { code: 'outline-empty', message: 'encloses no wood: every point lies on the axis' };
  const last = r_mm.findLastIndex((r) => r > 0);
  for (let i = first; i <= last; i++) {
    if (r_mm[i] > 0) continue;
    return {
      code: 'outline-meets-axis',
      message: `meets the axis at z ${round(z_mm[i])} mm, before its end`,
    };
  }
  const start_mm = z_mm[first - 1];
  const end_mm = z_mm[last + 1];
  if (end_mm <= start_mm)
    return {
      code: 'outline-ends',
      message: `ends on the axis at z ${round(end_mm)} mm, not nearer the head than it starts (z ${round(start_mm)} mm)`,
    };
  return firstCrossing(profile, false);
}

function polyline(outline: readonly OutlinePointLike[], loop: boolean): Profile {
  const extent = (pick: (point: OutlinePointLike) => number): number => {
    const values = outline.map(pick);
    return Math.max(...values) - Math.min(...values);
  };
  const size_mm = Math.max(
    extent((point) => point.z_mm),
    extent((point) => point.r_mm),
  );
  const tolerance_mm = Math.max(TOLERANCE_MM, TOLERANCE_OF_SIZE * size_mm);
  const profile = flattenOutline(outline, tolerance_mm, loop);
  const excess = profile.z_mm.length / MAX_PIECES;
  return excess <= 1 ? profile : flattenOutline(outline, tolerance_mm * excess * excess, loop);
}

/** Boxes around runs of the polyline's pieces, as a binary tree: node n has the children 2n and 2n + 1. */
interface Boxes {
  readonly leaves: number;
  /** zMin, zMax, rMin, rMax per node. */
  readonly bounds: Float64Array;
}

function boxesAround({ z_mm, r_mm }: Profile): Boxes {
  const pieces = z_mm.length - 1;
  const leaves = 2 ** Math.ceil(Math.log2(Math.max(1, pieces)));
  const bounds = new Float64Array(8 * leaves);
  for (let n = 2 * leaves - 1; n >= 1; n--) {
    const i = n - leaves;
    const [a, b] = i >= 0 ? [i, i + 1] : [2 * n, 2 * n + 1];
    if (i >= pieces) bounds.set([Infinity, -Infinity, Infinity, -Infinity], 4 * n);
    else if (i >= 0)
      bounds.set(
        [
          Math.min(z_mm[a], z_mm[b]),
          Math.max(z_mm[a], z_mm[b]),
          Math.min(r_mm[a], r_mm[b]),
          Math.max(r_mm[a], r_mm[b]),
        ],
        4 * n,
      );
    else
      for (let side = 0; side < 4; side++)
        bounds[4 * n + side] = (side % 2 === 0 ? Math.min : Math.max)(
          bounds[4 * a + side],
          bounds[4 * b + side],
        );
  }
  return { leaves, bounds };
}

function firstCrossing(profile: Profile, loop: boolean): CourseFault | null {
  const { leaves, bounds } = boxesAround(profile);
  const apart = (a: number, b: number): boolean =>
    bounds[4 * a] > bounds[4 * b + 1] ||
    bounds[4 * b] > bounds[4 * a + 1] ||
    bounds[4 * a + 2] > bounds[4 * b + 3] ||
    bounds[4 * b + 2] > bounds[4 * a + 3];
  const between = (a: number, b: number): CourseFault | null => {
    if (apart(a, b)) return null;
    if (a >= leaves) return meeting(profile, a - leaves, b - leaves, loop);
    return (
      between(2 * a, 2 * b) ??
      between(2 * a, 2 * b + 1) ??
      between(2 * a + 1, 2 * b) ??
      between(2 * a + 1, 2 * b + 1)
    );
  };
  const within = (n: number): CourseFault | null => {
    if (n >= leaves || bounds[4 * n] === Infinity) return null;
    return within(2 * n) ?? between(2 * n, 2 * n + 1) ?? within(2 * n + 1);
  };
  return within(1);
}

/** What two pieces i < j have in common that they must not. In a loop the last piece goes over into the first. */
function meeting({ z_mm, r_mm }: Profile, i: number, j: number, loop: boolean): CourseFault | null {
  const side = (a: number, b: number, p: number): number =>
    Math.sign((z_mm[b] - z_mm[a]) * (r_mm[p] - r_mm[a]) - (r_mm[b] - r_mm[a]) * (z_mm[p] - z_mm[a]));
  const at = `near z ${round(z_mm[j])} mm, r ${round(r_mm[j])} mm`;
  const touching: CourseFault = { code: 'outline-touches', message: `touches itself ${at}` };
  const doublesBack = (from: number, to: number): boolean => {
    const along =
      (z_mm[from + 1] - z_mm[from]) * (z_mm[to + 1] - z_mm[to]) +
      (r_mm[from + 1] - r_mm[from]) * (r_mm[to + 1] - r_mm[to]);
    return along < 0 && side(from, from + 1, to + 1) === 0;
  };
  const closes = loop && i === 0 && j === z_mm.length - 2;
  if (j === i + 1 || closes)
    return (j === i + 1 && doublesBack(i, j)) || (closes && doublesBack(j, i)) ? touching : null;
  const jStart = side(i, i + 1, j);
  const jEnd = side(i, i + 1, j + 1);
  const iStart = side(j, j + 1, i);
  const iEnd = side(j, j + 1, i + 1);
  if (jStart * jEnd > 0 || iStart * iEnd > 0) return null;
  if (jStart * jEnd < 0 && iStart * iEnd < 0)
    return { code: 'outline-crosses', message: `crosses itself ${at}` };
  // On one line: their boxes overlap, so they do.
  return touching;
}

function round(value_mm: number): number {
  return Math.round(value_mm * 1000) / 1000;
}
