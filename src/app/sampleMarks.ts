/**
 * What the stage is told of a sample beside its ideal: its slots by the ideal's names, the ring and the crossing that are
 * farthest off, and how large errors are drawn where that is not their true size. Lathe frame, mm.
 */
import { formatThickness } from '../design/lengthText.ts';
import { DEG } from '../geometry/angle.ts';
import type { Vec3 } from '../geometry/vector.ts';
import type { Variant, Work } from '../panels/bench.ts';
import { pathsFor, slotsFor } from '../panels/derived.ts';
import { pictureName, sampleOf, samplePair, shiftsOf, slotNames } from '../panels/plan/sampleVariant.ts';
import type { StageMark, StageVariant } from '../stage/props.ts';

/** A variant as the stage takes it. */
export function stageVariantOf(work: Work, variant: Variant): StageVariant {
  const names = slotNames(work, variant);
  const marks = marksOf(work, variant);
  const sample = sampleOf(variant);
  return {
    key: variant.id,
    label: pictureName(variant),
    design: variant.design,
    ...(names ? { slotNames: names } : {}),
    ...(marks.length > 0 ? { marks } : {}),
    ...(sample && sample.times !== 1 ? { caption: `errors shown ×${sample.times}` } : {}),
  };
}

/** On the sample: where the ring that is farthest off was meant to be, and the crossing that is. */
function marksOf(work: Work, variant: Variant): StageMark[] {
  const pair = samplePair(work);
  if (pair?.variant !== variant) return [];
  const shifts = shiftsOf(pair);
  if (!shifts) return [];
  const { design } = pair.ideal;
  const { worstRing, worstCrossing } = shifts;
  const marks: StageMark[] = [];
  if (worstRing?.at && worstRing.shift_mm !== null) {
    const n = slotsFor(design).findIndex(({ id }) => id === worstRing.slot);
    const text = `${worstRing.slot}: ${formatThickness(worstRing.shift_mm, design.unit)} off`;
    (pathsFor(design)?.[n] ?? []).forEach(({ azimuth_rad, r_mm, z_mm }, i) => {
      const line = Array.from(azimuth_rad, (azimuth, k): Vec3 => [
        r_mm[k] * Math.cos(azimuth),
        r_mm[k] * Math.sin(azimuth),
        z_mm[k],
      ]);
      marks.push({ text: i === 0 ? text : '', at: worstRing.at ?? line[0], line });
    });
  }
  if (worstCrossing) {
    const { azimuth_deg, radius_mm, z_mm } = worstCrossing.crossing;
    const at: Vec3 = [radius_mm * Math.cos(azimuth_deg * DEG), radius_mm * Math.sin(azimuth_deg * DEG), z_mm];
    const far = formatThickness(worstCrossing.shift_mm, design.unit);
    marks.push({ text: `${worstCrossing.over} over ${worstCrossing.under}: ${far} off`, at });
  }
  return marks;
}
