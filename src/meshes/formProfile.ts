/**
 * The half-section of the workpiece while it is turned: the polyline (z, r) that is swung about the axis, at any
 * point of the work from the glued block to the hollowed piece. Lathe frame, mm.
 */
import type { OutlinePoint } from '../design/document.ts';
import { clipProfile } from '../blank/lathe.ts';
import { flattenOutline, type Profile } from '../geometry/outline.ts';

export interface SweptProfile {
  readonly z_mm: Float64Array;
  readonly r_mm: Float64Array;
  /** 1 where the surface has a crease. */
  readonly corner: Uint8Array;
}

/** Distance of the drawn polyline from the exact outline, mm: a seventh of a pixel at five pixels to the millimetre. */
export const DRAWING_TOLERANCE_MM = 0.03;

interface Turning {
  readonly outline: readonly OutlinePoint[];
  /** The outline closes on itself off the axis. */
  readonly loop?: boolean;
  readonly blankLength_mm: number;
  /** Radius that the sawn block needs to turn freely. */
  readonly blankRadius_mm: number;
  /** A round blank has no more wood than this from the axis. */
  readonly roundRadius_mm?: number;
  /** 0: still square; 1: the outside is finished. */
  readonly outside: number;
  /** 0: solid; 1: hollowed to the outline. */
  readonly inside: number;
}

/** Half-section at a point of the turning, from the axis at the foot around to the axis. */
export function turningProfile(turning: Turning): SweptProfile {
  const profile = flattenOutline(turning.outline, DRAWING_TOLERANCE_MM, turning.loop);
  return insideBlank(turnedSoFar(profile, turning), turning);
}

function turnedSoFar(profile: Profile, turning: Turning): SweptProfile {
  if (turning.outside < 1) return roughedOut(profile, turning);
  if (turning.inside >= 1) return profile;
  return hollowedTo(profile, turning.inside, turning.loop === true);
}

/** What lies outside the blank is not there: the half-section is cut to the blank's length and, if round, its radius. */
function insideBlank(profile: SweptProfile, turning: Turning): SweptProfile {
  const limit_mm = turning.roundRadius_mm ?? Infinity;
  const { z_mm, r_mm, corner } = profile;
  if (z_mm.every((z) => z >= 0 && z <= turning.blankLength_mm) && r_mm.every((r) => r <= limit_mm))
    return profile;
  const known = new Map(Array.from(z_mm, (z, i) => [`${z},${r_mm[i]}`, corner[i]]));
  const clipped = clipProfile({ z_mm, r_mm }, turning.blankLength_mm, limit_mm);
  return {
    z_mm: clipped.z_mm,
    r_mm: clipped.r_mm,
    // Where the blank's border cuts the curve there is a crease.
    corner: Uint8Array.from(clipped.z_mm, (z, i) => known.get(`${z},${clipped.r_mm[i]}`) ?? 1),
  };
}

/** The tool has come down to one radius everywhere; where the form is thicker it is already there. */
function roughedOut(profile: Profile, turning: Turning): SweptProfile {
  const { outsideStart: start, outsideEnd: end } = profile;
  let thinnest = Infinity;
  for (let i = start; i <= end; i++) thinnest = Math.min(thinnest, profile.r_mm[i]);
  const tool_mm = turning.blankRadius_mm + (thinnest - turning.blankRadius_mm) * turning.outside;
  const out = new ProfileBuilder();
  out.add(0, 0, 1);
  out.add(0, tool_mm, 1);
  out.add(profile.z_mm[start], tool_mm, 1);
  for (let i = start; i <= end; i++)
    out.add(
      profile.z_mm[i],
      Math.max(profile.r_mm[i], tool_mm),
      profile.r_mm[i] > tool_mm ? profile.corner[i] : 1,
    );
  out.add(profile.z_mm[end], tool_mm, 1);
  out.add(turning.blankLength_mm, tool_mm, 1);
  out.add(turning.blankLength_mm, 0, 1);
  return out.build();
}

/** The hollow reaches from the rim down to a flat bottom that goes deeper with the work. */
function hollowedTo(profile: Profile, inside: number, loop: boolean): SweptProfile {
  const { z_mm, r_mm, corner, outsideEnd: rim } = profile;
  const out = new ProfileBuilder();
  if (loop) out.add(z_mm[profile.outsideStart], 0, 1);
  for (let i = loop ? profile.outsideStart : 0; i <= rim; i++)
    out.add(z_mm[i], r_mm[i], i === rim || (loop && i === profile.outsideStart) ? 1 : corner[i]);
  let lowest = z_mm[rim];
  for (let i = rim; i < z_mm.length; i++) lowest = Math.min(lowest, z_mm[i]);
  const bottom = z_mm[rim] + (lowest - z_mm[rim]) * inside;
  if (bottom < z_mm[rim]) {
    for (let i = rim + 1; i < z_mm.length; i++) {
      if (z_mm[i] >= bottom) {
        out.add(z_mm[i], r_mm[i], corner[i]);
        continue;
      }
      const t = (bottom - z_mm[i - 1]) / (z_mm[i] - z_mm[i - 1]);
      out.add(bottom, r_mm[i - 1] + t * (r_mm[i] - r_mm[i - 1]), 1);
      break;
    }
    out.add(bottom, 0, 1);
  } else out.add(z_mm[rim], 0, 1);
  return out.build();
}

/** The half-section with every other smooth vertex left out; creases stay. For frames while something moves. */
export function coarser(profile: SweptProfile): SweptProfile {
  const out = new ProfileBuilder();
  const last = profile.z_mm.length - 1;
  let skipped = false;
  for (let i = 0; i <= last; i++) {
    const smooth =
      i > 0 && i < last && !profile.corner[i] && !profile.corner[i - 1] && !profile.corner[i + 1];
    skipped = smooth && !skipped;
    if (!skipped) out.add(profile.z_mm[i], profile.r_mm[i], profile.corner[i]);
  }
  return out.build();
}

class ProfileBuilder {
  private readonly z: number[] = [];
  private readonly r: number[] = [];
  private readonly corner: number[] = [];

  add(z_mm: number, r_mm: number, corner: number): void {
    const last = this.z.length - 1;
    if (last >= 0 && this.z[last] === z_mm && this.r[last] === r_mm) {
      this.corner[last] = 1;
      return;
    }
    this.z.push(z_mm);
    this.r.push(r_mm);
    this.corner.push(corner);
  }

  build(): SweptProfile {
    return {
      z_mm: Float64Array.from(this.z),
      r_mm: Float64Array.from(this.r),
      corner: Uint8Array.from(this.corner),
    };
  }
}
