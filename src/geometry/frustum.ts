/**
 * Cone frusta (cylinders and flat rings among them) about the lathe axis, and the curves in which planes cut
 * them. Lathe frame, mm, radians.
 *
 * A point of a frustum is (t, φ): r = ra + t dr, z = za + t dz, t in [0, 1]. With φ counted from the azimuth
 * of the plane's normal (ψ) and z from za, the plane n · p = c cuts it where
 *
 *     nh (ra + t dr) cos ψ + nz t dz = c′          c′ = c − nz za
 *     t = (c′ − p cos ψ) / D,   D = q + w cos ψ    p = nh ra, w = nh dr, q = nz dz
 *     r = κ / D                                    κ = ra q + dr c′   (a conic with its focus on the axis)
 *     dt/dψ = nh κ sin ψ / D²
 *
 * so t is monotone in ψ on either side of the normal's azimuth, and any further condition n₂ · p ≤ c₂ along
 * the curve becomes a cos ψ + b sin ψ + c ≤ 0 once multiplied by D, whose sign is that of κ. κ = 0: the plane
 * passes through the cone's apex and the curve is two generators (elementary; derived here).
 */
import type { HalfSpace } from './halfspace.ts';
import { whereLinearNotPositive, type Intervals } from './intervals.ts';
import type { Profile } from './outline.ts';
import { gaussLegendre } from './quadrature.ts';

export interface Frustum {
  /** End with the smaller radius, where t = 0. */
  readonly za_mm: number;
  readonly ra_mm: number;
  /** From there to the other end; dr ≥ 0. */
  readonly dz_mm: number;
  readonly dr_mm: number;
  /** Length of the generator. */
  readonly slant_mm: number;
  /** Distance along the outline where t = 0, and its change from t = 0 to t = 1 (± slant). */
  readonly along_mm: number;
  readonly alongStep_mm: number;
}

/** Frusta of the outline from one vertex to another, in the outline's direction; those on the axis left out. */
export function frustaOf(
  profile: Profile,
  first = profile.outsideStart,
  last = profile.outsideEnd,
): Frustum[] {
  const frusta: Frustum[] = [];
  let along = 0;
  for (let i = first; i < last; i++) {
    const turned = profile.r_mm[i + 1] < profile.r_mm[i];
    const a = turned ? i + 1 : i;
    const b = turned ? i : i + 1;
    const dz = profile.z_mm[b] - profile.z_mm[a];
    const dr = profile.r_mm[b] - profile.r_mm[a];
    const slant = Math.hypot(dz, dr);
    if (profile.r_mm[b] > 0 && slant > 0)
      frusta.push({
        za_mm: profile.z_mm[a],
        ra_mm: profile.r_mm[a],
        dz_mm: dz,
        dr_mm: dr,
        slant_mm: slant,
        along_mm: turned ? along + slant : along,
        alongStep_mm: turned ? -slant : slant,
      });
    along += slant;
  }
  return frusta;
}

/** The curve of a plane on a frustum; the half-space whose boundary it is lies where n · p ≤ c. */
export interface Cut {
  readonly frustum: Frustum;
  readonly space: HalfSpace;
  readonly c: number;
  readonly p: number;
  readonly q: number;
  readonly w: number;
  readonly kappa: number;
  /** The curve runs over ψ in [low, high] and mirrored over [−high, −low], 0 ≤ low ≤ high ≤ π. */
  readonly low_rad: number;
  readonly high_rad: number;
}

/** Below this distance (mm) two planes, or a plane and a circle, count as the same. */
export const SAME_MM = 1e-9;

/** The plane's curve on the frustum, or null where they do not meet along a curve that turns about the axis. */
export function cutOf(frustum: Frustum, space: HalfSpace): Cut | null {
  const c = space.c_mm - space.nz * frustum.za_mm;
  const p = space.horizontal * frustum.ra_mm;
  const w = space.horizontal * frustum.dr_mm;
  const q = space.nz * frustum.dz_mm;
  const kappa = frustum.ra_mm * q + frustum.dr_mm * c;
  if (kappa === 0) return null;
  let xLow = -1;
  let xHigh = 1;
  if (p + w === 0) {
    const t = c / q;
    if (!(t >= 0 && t <= 1)) return null;
  } else {
    const x1 = (c - q) / (p + w);
    if (p > 0) {
      const x0 = c / p;
      xLow = Math.max(-1, Math.min(x0, x1));
      xHigh = Math.min(1, Math.max(x0, x1));
    } else if (c > 0) xLow = Math.max(-1, x1);
    else if (c < 0) xHigh = Math.min(1, x1);
    else return null;
    if (!(xLow < xHigh)) return null;
  }
  return { frustum, space, c, p, q, w, kappa, low_rad: Math.acos(xHigh), high_rad: Math.acos(xLow) };
}

/**
 * Azimuths ψ (0 ≤ ψ ≤ π, each standing for ± ψ) of the generators that the plane holds when it passes through
 * the cone's apex, else null. A plane that only touches the apex holds none.
 */
export function generatorsOf(frustum: Frustum, space: HalfSpace): number[] | null {
  const c = space.c_mm - space.nz * frustum.za_mm;
  const w = space.horizontal * frustum.dr_mm;
  const q = space.nz * frustum.dz_mm;
  const kappa = frustum.ra_mm * q + frustum.dr_mm * c;
  const size =
    frustum.ra_mm * Math.abs(q) + frustum.dr_mm * (Math.abs(c) + space.horizontal * frustum.ra_mm) + w;
  if (w === 0 || Math.abs(kappa) > 1e-12 * size) return null;
  return Math.abs(q) <= w ? [Math.acos(-q / w)] : [];
}

/** Where along the generator at azimuth ψ (from a plane's normal) another half-space holds, in t from 0 to 1. */
export function alongGenerator(frustum: Frustum, space: HalfSpace, psi: number, other: HalfSpace): Intervals {
  const toward = other.nx * space.hx + other.ny * space.hy;
  const aside = other.ny * space.hx - other.nx * space.hy;
  const facing = toward * Math.cos(psi) + aside * Math.sin(psi);
  const start = facing * frustum.ra_mm + other.nz * frustum.za_mm - other.c_mm;
  const step = facing * frustum.dr_mm + other.nz * frustum.dz_mm;
  if (Math.abs(start) + Math.abs(step) <= SAME_MM) return [0, 1];
  return whereLinearNotPositive(start, step, 0, 1);
}

/** t of the curve at ψ, kept in [0, 1]; within 1e-12 of an end it is the end. */
export function cutParameter(cut: Cut, psi: number): number {
  const cosine = Math.cos(psi);
  const t = (cut.c - cut.p * cosine) / (cut.q + cut.w * cosine);
  return t < 1e-12 ? 0 : t > 1 - 1e-12 ? 1 : t;
}

/** How a half-space lies along a curve. */
export type Along =
  | { readonly kind: 'all' }
  | { readonly kind: 'none' }
  /** Its boundary is the same curve, and it lies on the same side or on the other. */
  | { readonly kind: 'same' }
  | { readonly kind: 'opposite' }
  /** It holds where ψ is within `half` of `center`. */
  | { readonly kind: 'arc'; readonly center_rad: number; readonly half_rad: number };

const ALL: Along = { kind: 'all' };
const NONE: Along = { kind: 'none' };
const SAME: Along = { kind: 'same' };
const OPPOSITE: Along = { kind: 'opposite' };

/** Where along a curve another half-space holds, in the curve's ψ. */
export function alongCut(cut: Cut, other: HalfSpace): Along {
  const { frustum, space } = cut;
  const otherC = other.c_mm - other.nz * frustum.za_mm;
  const toward = other.nx * space.hx + other.ny * space.hy;
  const aside = other.ny * space.hx - other.nx * space.hy;
  const sign = cut.kappa > 0 ? 1 : -1;
  const a = sign * (toward * cut.kappa - other.nz * frustum.dz_mm * cut.p - otherC * cut.w);
  const b = sign * aside * cut.kappa;
  const c = sign * (other.nz * frustum.dz_mm * cut.c - otherC * cut.q);
  if (Math.abs(a) + Math.abs(b) + Math.abs(c) <= SAME_MM * (Math.abs(cut.q) + cut.w)) {
    const middle = (cut.low_rad + cut.high_rad) / 2;
    const slope =
      (toward * Math.cos(middle) + aside * Math.sin(middle)) * frustum.dr_mm + other.nz * frustum.dz_mm;
    // A flat ring that lies in the other plane itself: the closed half-space holds all of it.
    if (Math.abs(slope) <= SAME_MM * frustum.slant_mm) return ALL;
    return slope * sign > 0 ? SAME : OPPOSITE;
  }
  const amplitude = Math.hypot(a, b);
  if (c <= -amplitude) return ALL;
  if (c >= amplitude) return NONE;
  return { kind: 'arc', center_rad: Math.atan2(-b, -a), half_rad: Math.acos(c / amplitude) };
}

const RULE = gaussLegendre(10);

/**
 * Arc length of the curve between two ψ of one side of it (0 ≤ from ≤ to ≤ π):
 * ∫ |κ| / D² · √((slant nh sin ψ)² + D²) dψ, by Gauss–Legendre on pieces short against the distance to the
 * integrand's singularities (D = 0, and D = ± i slant nh sin ψ).
 */
export function cutLength_mm(cut: Cut, from: number, to: number): number {
  const reach = cut.frustum.slant_mm * cut.space.horizontal;
  const integrand = (psi: number) => {
    const d = cut.q + cut.w * Math.cos(psi);
    const across = reach * Math.sin(psi);
    return Math.sqrt(across * across + d * d) / (d * d);
  };
  return Math.abs(cut.kappa) * graded(cut, integrand, reach, from, to, 0);
}

/**
 * ∫ area(t) dψ along the curve, area(t) = slant (ra t + dr t² / 2) being the area of the frustum below t per
 * radian. By Green's theorem such integrals around a region add up to its area.
 */
export function cutArea_mm2(cut: Cut, from: number, to: number): number {
  const { ra_mm, dr_mm, slant_mm } = cut.frustum;
  if (cut.w === 0 && cut.p === 0) {
    const t = cutParameter(cut, 0);
    return slant_mm * t * (ra_mm + (dr_mm * t) / 2) * (to - from);
  }
  if (dr_mm === 0)
    return ((slant_mm * ra_mm) / cut.q) * (cut.c * (to - from) - cut.p * (Math.sin(to) - Math.sin(from)));
  const integrand = (psi: number) => {
    const t = cutParameter(cut, psi);
    return t * (ra_mm + (dr_mm * t) / 2);
  };
  return slant_mm * graded(cut, integrand, 0, from, to, 0);
}

function graded(
  cut: Cut,
  integrand: (psi: number) => number,
  reach: number,
  from: number,
  to: number,
  depth: number,
): number {
  const width = to - from;
  if (!(width > 0)) return 0;
  const dFrom = Math.abs(cut.q + cut.w * Math.cos(from));
  const dTo = Math.abs(cut.q + cut.w * Math.cos(to));
  const crowded =
    Math.max(dFrom, dTo) > 2 * Math.min(dFrom, dTo) ||
    (reach > 0 && width > 0.7 * Math.min(dFrom / reach + Math.sin(from), dTo / reach + Math.sin(to), 1.2));
  if ((crowded || width > 0.9) && depth < 45) {
    const middle = (from + to) / 2;
    return (
      graded(cut, integrand, reach, from, middle, depth + 1) +
      graded(cut, integrand, reach, middle, to, depth + 1)
    );
  }
  const { nodes, weights } = RULE;
  const middle = (from + to) / 2;
  const half = width / 2;
  let sum = 0;
  for (let i = 0; i < nodes.length; i++) sum += weights[i] * integrand(middle + half * nodes[i]);
  return sum * half;
}
