/**
 * Sets of real numbers as sorted, disjoint intervals in one flat list [from0, to0, from1, to1 …]; used for
 * azimuths in radians and for parameters along lines. Sets are closed, but only their measure matters:
 * single points may be dropped.
 */

export type Intervals = number[];

export function measure(set: Intervals): number {
  let sum = 0;
  for (let i = 0; i < set.length; i += 2) sum += set[i + 1] - set[i];
  return sum;
}

export function intersect(a: Intervals, b: Intervals): Intervals {
  const out: Intervals = [];
  let i = 0;
  let j = 0;
  while (i < a.length && j < b.length) {
    const from = Math.max(a[i], b[j]);
    const to = Math.min(a[i + 1], b[j + 1]);
    if (from < to) out.push(from, to);
    if (a[i + 1] < b[j + 1]) i += 2;
    else j += 2;
  }
  return out;
}

/** What a has and b has not. */
export function subtract(a: Intervals, b: Intervals): Intervals {
  if (b.length === 0) return a;
  const out: Intervals = [];
  let j = 0;
  for (let i = 0; i < a.length; i += 2) {
    let from = a[i];
    const to = a[i + 1];
    while (j < b.length && b[j + 1] <= from) j += 2;
    for (let k = j; k < b.length && b[k] < to; k += 2) {
      if (b[k] > from) out.push(from, b[k]);
      if (b[k + 1] > from) from = b[k + 1];
    }
    if (from < to) out.push(from, to);
  }
  return out;
}

/** Intervals given in any order, overlapping or touching, as a sorted disjoint set; ends closer than `gap` are joined. */
export function united(pieces: Intervals, gap = 0): Intervals {
  const order: [number, number][] = [];
  for (let i = 0; i < pieces.length; i += 2) order.push([pieces[i], pieces[i + 1]]);
  order.sort((x, y) => x[0] - y[0]);
  const out: Intervals = [];
  for (const [from, to] of order) {
    const end = out.length - 1;
    if (end > 0 && from <= out[end] + gap) out[end] = Math.max(out[end], to);
    else out.push(from, to);
  }
  return out;
}

/**
 * The azimuths of [from, to] (at most one turn) where a cos φ + b sin φ + c ≤ 0: the part of it within
 * acos(c / R) of the azimuth where the sinusoid is lowest, R = √(a² + b²).
 */
export function whereSinusoidNotPositive(
  a: number,
  b: number,
  c: number,
  from: number,
  to: number,
): Intervals {
  const amplitude = Math.hypot(a, b);
  if (c <= -amplitude) return [from, to];
  if (c >= amplitude) return [];
  return withinHalfAngle(Math.atan2(-b, -a), Math.acos(c / amplitude), from, to);
}

/** The azimuths of [from, to] (within −2π … 4π) no further than `half` from `center` (in −π … π), modulo 2π. */
export function withinHalfAngle(center: number, half: number, from: number, to: number): Intervals {
  const out: Intervals = [];
  const turn = 2 * Math.PI;
  for (let k = Math.floor((from - center - half) / turn); ; k++) {
    const low = center - half + k * turn;
    if (low >= to) break;
    const a = Math.max(low, from);
    const b = Math.min(center + half + k * turn, to);
    if (a < b) out.push(a, b);
  }
  return out;
}

/** The parameters of [from, to] where c0 + c1 t ≤ 0. */
export function whereLinearNotPositive(c0: number, c1: number, from: number, to: number): Intervals {
  if (c1 === 0) return c0 <= 0 ? [from, to] : [];
  const root = -c0 / c1;
  const low = c1 > 0 ? from : Math.max(from, root);
  const high = c1 > 0 ? Math.min(to, root) : to;
  return low < high ? [low, high] : [];
}
