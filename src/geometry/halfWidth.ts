/**
 * Integrals along a side of a polygon in a plane that cuts one straight piece of an outline: of the half-width
 * V = √(r² − u²) of the cut, and of the side's v limited to it (geometry/revolution.ts). r, u and v are linear
 * along the side; closed-form ends, Gauss–Legendre between them in a variable in which V is smooth.
 */
import { gaussLegendre } from './quadrature.ts';

/** ∫ over λ in [0, 1] of sign(v) min(|v|, V), all of r, u, v being linear in λ. */
export function pieceIntegral(
  r0: number,
  r1: number,
  u0: number,
  u1: number,
  v0: number,
  v1: number,
): number {
  const dr = r1 - r0;
  const du = u1 - u0;
  const dv = v1 - v0;
  // Past the boundary where c2 λ² + 2 c1 λ + c0 > 0.
  const c2 = du * du + dv * dv - dr * dr;
  const c1 = u0 * du + v0 * dv - r0 * dr;
  const c0 = u0 * u0 + v0 * v0 - r0 * r0;
  const end = u1 * u1 + v1 * v1 - r1 * r1;
  if (c2 >= 0 && c0 <= 0 && end <= 0) return (v0 + v1) / 2;
  const stops = [0];
  const addStop = (t: number) => {
    if (t > 0 && t < 1) stops.push(t);
  };
  const discriminant = c1 * c1 - c2 * c0;
  if (discriminant > 0) {
    const sum = -(c1 + (c1 < 0 ? -1 : 1) * Math.sqrt(discriminant));
    if (sum !== 0) addStop(c0 / sum);
    if (c2 !== 0) addStop(sum / c2);
  }
  if (v0 * v1 < 0) addStop(v0 / (v0 - v1));
  stops.push(1);
  stops.sort((a, b) => a - b);
  let total = 0;
  for (let i = 0; i + 1 < stops.length; i++) {
    const from = stops[i];
    const to = stops[i + 1];
    const t = (from + to) / 2;
    const v = v0 + t * dv;
    // Two places, since the boundary may be touched at one.
    const a = from + 0.3 * (to - from);
    const b = from + 0.7 * (to - from);
    if (c2 * (a * a + b * b) + 2 * c1 * (a + b) + 2 * c0 <= 0) total += (to - from) * v;
    else
      total +=
        Math.sign(v) *
        (to - from) *
        halfWidthIntegral(r0 + from * dr, r0 + to * dr, u0 + from * du, u0 + to * du);
  }
  return total;
}

/** ∫ over λ in [0, 1] of V = √max(0, r² − u²), r and u linear in λ, r ≥ 0. */
export function halfWidthIntegral(r0: number, r1: number, u0: number, u1: number): number {
  // V² = (r − u)(r + u), both factors linear: V exists where both are positive.
  const a0 = r0 - u0;
  const a1 = r1 - u1;
  const b0 = r0 + u0;
  const b1 = r1 + u1;
  let from = 0;
  let to = 1;
  if (a0 < 0 !== a1 < 0) {
    if (a0 < 0) from = Math.max(from, a0 / (a0 - a1));
    else to = Math.min(to, a0 / (a0 - a1));
  } else if (a0 <= 0 && a1 <= 0) return 0;
  if (b0 < 0 !== b1 < 0) {
    if (b0 < 0) from = Math.max(from, b0 / (b0 - b1));
    else to = Math.min(to, b0 / (b0 - b1));
  } else if (b0 <= 0 && b1 <= 0) return 0;
  if (!(from < to)) return 0;
  const at = (p: number, q: number, t: number) => Math.max(0, p + (q - p) * t);
  return (to - from) * rootOfProduct(at(a0, a1, from), at(a0, a1, to), at(b0, b1, from), at(b0, b1, to), 0);
}

const RULE = gaussLegendre(10);

/**
 * ∫ over λ in [0, 1] of √(a b), a and b linear and not negative. A factor that changes much is integrated in
 * its own root, in which the integrand is smooth even where the factor vanishes; where both do, by halves.
 */
function rootOfProduct(a0: number, a1: number, b0: number, b1: number, depth: number): number {
  const steepA = Math.min(a0, a1) < 0.4 * Math.max(a0, a1);
  const steepB = Math.min(b0, b1) < 0.4 * Math.max(b0, b1);
  if (steepA && steepB && depth < 16) {
    const a = (a0 + a1) / 2;
    const b = (b0 + b1) / 2;
    return (rootOfProduct(a0, a, b0, b, depth + 1) + rootOfProduct(a, a1, b, b1, depth + 1)) / 2;
  }
  if (steepB && !steepA) return rootOfProduct(b0, b1, a0, a1, depth);
  const { nodes, weights } = RULE;
  let sum = 0;
  if (!steepA) {
    for (let i = 0; i < nodes.length; i++) {
      const t = (1 + nodes[i]) / 2;
      sum += weights[i] * Math.sqrt((a0 + (a1 - a0) * t) * (b0 + (b1 - b0) * t));
    }
    return sum / 2;
  }
  // λ = (w² − a0) / (a1 − a0), w = √a.
  const w0 = Math.sqrt(a0);
  const w1 = Math.sqrt(a1);
  for (let i = 0; i < nodes.length; i++) {
    const w = (w0 + w1) / 2 + ((w1 - w0) / 2) * nodes[i];
    const t = (w * w - a0) / (a1 - a0);
    sum += weights[i] * w * w * Math.sqrt(Math.max(0, b0 + (b1 - b0) * t));
  }
  return sum / (w0 + w1);
}
