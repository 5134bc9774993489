/** Messages about drilled holes: those that come out where they should end in the wood, and those that meet none. */
import { drillLines } from '../blank/drilling.ts';
import { holeCylinder, outsideRadius_mm, type HoleCylinder } from '../blank/holes.ts';
import { sectionGeometry } from '../blank/section.ts';
import type { Blank, Design } from '../design/document.ts';
import { cosDeg, sinDeg } from '../geometry/angle.ts';
import type { Profile } from '../geometry/outline.ts';
import type { Message } from './messages.ts';
import type { Measures } from './measures.ts';
import { ROUNDING_MM } from './thresholds.ts';
import { mm, said, type Wording } from './wording.ts';

export function holeMessages({ blank, form }: Design, measures: Measures): Message[] {
  const profile = measures.form?.profile;
  if (!form?.holes || !profile) return [];
  return form.holes.flatMap((hole, n): Message[] => {
    const cylinder = holeCylinder(hole, form, profile);
    const { depth_mm } = cylinder;
    const lines = drillLines(cylinder, profile, blank);
    const name = `Hole ${n + 1}, from the ${hole.from},`;
    const says = (code: Message['code'], words: Wording): Message[] => [
      { level: 'warning', code, slot: null, words },
    ];
    if (lines.every(({ wood_mm }) => wood_mm.length === 0 || wood_mm[0] >= depth_mm))
      return says('hole-misses', said`${name} meets no wood.`);
    if (!Number.isFinite(depth_mm)) return [];
    // Depth at which each line first comes out of wood that it has gone into.
    const out_mm = lines.flatMap(({ wood_mm }) =>
      wood_mm.length > 0 && wood_mm[1] < depth_mm - ROUNDING_MM ? [wood_mm[1]] : [],
    );
    if (out_mm.length === 0 || (out_mm.length === lines.length && opensInside(cylinder, profile, blank)))
      return [];
    return says(
      'hole-breaks-out',
      said`${name} is to be ${mm(depth_mm)} deep and comes out of the wood after ${mm(Math.min(...out_mm), 2, { beside_mm: depth_mm })}.`,
    );
  });
}

/** Whether a hole ends in the hollow of the piece, which is how a wall is meant to be drilled. */
function opensInside({ origin_mm, inward, depth_mm }: HoleCylinder, profile: Profile, blank: Blank): boolean {
  const [x, y, z] = origin_mm.map((value, i) => value + depth_mm * inward[i]);
  const { faceAzimuths_deg, faceDistances_mm, circumscribedRadius_mm } = sectionGeometry(blank.section);
  const radius_mm = Math.hypot(x, y);
  return (
    radius_mm < Math.min(outsideRadius_mm(profile, z), circumscribedRadius_mm) &&
    z > 0 &&
    z < blank.length_mm &&
    faceAzimuths_deg.every((azimuth, i) => x * cosDeg(azimuth) + y * sinDeg(azimuth) < faceDistances_mm[i])
  );
}
