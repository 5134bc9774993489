/** The outside of a turned piece by the distance along it, from its beginning at the foot. Lathe frame, mm. */
import type { Profile } from '../geometry/outline.ts';

/** The outside as a polyline over the distance along it. */
export interface OutsideLine {
  readonly along_mm: readonly number[];
  readonly z_mm: readonly number[];
  readonly r_mm: readonly number[];
  readonly length_mm: number;
}

export function outsideLine(profile: Profile): OutsideLine {
  const along_mm = [0];
  const z_mm = [profile.z_mm[profile.outsideStart]];
  const r_mm = [profile.r_mm[profile.outsideStart]];
  for (let i = profile.outsideStart + 1; i <= profile.outsideEnd; i++) {
    const dz = profile.z_mm[i] - profile.z_mm[i - 1];
    const dr = profile.r_mm[i] - profile.r_mm[i - 1];
    const step = Math.hypot(dz, dr);
    if (step === 0) continue;
    along_mm.push(along_mm[along_mm.length - 1] + step);
    z_mm.push(profile.z_mm[i]);
    r_mm.push(profile.r_mm[i]);
  }
  return { along_mm, z_mm, r_mm, length_mm: along_mm[along_mm.length - 1] };
}

/** Point of the outside at a distance along it, (z, r) in mm. */
export function outsideAt(line: OutsideLine, along_mm: number): { z_mm: number; r_mm: number } {
  let low = 0;
  let high = line.along_mm.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (line.along_mm[middle] <= along_mm) low = middle;
    else high = middle;
  }
  const span = line.along_mm[high] - line.along_mm[low];
  const t = span === 0 ? 0 : Math.min(Math.max((along_mm - line.along_mm[low]) / span, 0), 1);
  return {
    z_mm: line.z_mm[low] + t * (line.z_mm[high] - line.z_mm[low]),
    r_mm: line.r_mm[low] + t * (line.r_mm[high] - line.r_mm[low]),
  };
}

/** Distance along the outside of a place on it that has the height z and the radius r, mm. */
export function alongOf(line: OutsideLine, z_mm: number, r_mm: number): number {
  let best = 0;
  let bestDistance = Infinity;
  for (let i = 0; i + 1 < line.along_mm.length; i++) {
    const dz = line.z_mm[i + 1] - line.z_mm[i];
    const dr = line.r_mm[i + 1] - line.r_mm[i];
    const length = Math.hypot(dz, dr);
    const t = Math.min(
      Math.max(((z_mm - line.z_mm[i]) * dz + (r_mm - line.r_mm[i]) * dr) / (length * length), 0),
      1,
    );
    const distance = Math.hypot(line.z_mm[i] + t * dz - z_mm, line.r_mm[i] + t * dr - r_mm);
    if (distance < bestDistance) {
      bestDistance = distance;
      best = line.along_mm[i] + t * length;
    }
  }
  return best;
}
