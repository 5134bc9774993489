/**
 * What a piece is sized to on the turning template: the diameters at the corners and turns of the outline and between them,
 * and how wide and deep a hollow is, each with its height from the foot line of the blank. Millimetres.
 */
import { outsideRadius_mm } from '../../../blank/holes.ts';
import type { DisplayUnit } from '../../../design/document.ts';
import { MM_PER_INCH } from '../../../design/units.ts';
import type { Profile } from '../../../geometry/outline.ts';
import type { FormMeasures } from '../../../plan/measures.ts';
import { length } from '../numbers.ts';
import type { SheetSource } from '../source.ts';

/** A diameter or a depth to size to, and the height at which it is measured. */
export interface Size {
  readonly z: number;
  readonly r: number;
  readonly text: string;
  readonly height: string;
}

export function sizesOf({ design }: SheetSource, form: FormMeasures): Size[] {
  const { profile } = form;
  const { unit } = design;
  const seen = new Set<string>();
  const sizes: Omit<Size, 'height'>[] = [];
  const loop = design.form?.loop === true;
  for (const { i, ofBore } of measuredVertices(profile, loop)) {
    const z = profile.z_mm[i];
    const r = profile.r_mm[i];
    const before = i > profile.outsideStart ? r - profile.r_mm[i - 1] : 0;
    const after = i + 1 < profile.r_mm.length ? profile.r_mm[i + 1] - r : 0;
    const key = ofBore ? `bore ${r.toFixed(1)}` : `${z.toFixed(1)} ${r.toFixed(1)}`;
    const ofNote = profile.corner[i] === 1 || before * after < 0;
    if (!ofNote || r < 0.5 || seen.has(key)) continue;
    seen.add(key);
    const text = loop ? `${ofBore ? 'bore ' : ''}Ø ${length(2 * r, unit)}` : sizeText(profile, z, r, unit);
    sizes.push({ z, r, text });
  }
  if (!loop) sizes.push(...hollowSizes(form, unit));
  if (!loop) sizes.push(...sizesBetween(profile, sizes, unit));
  return sizes.sort((a, b) => a.z - b.z).map((size) => ({ ...size, height: `at ${length(size.z, unit)}` }));
}

/** The outside from foot to rim; round a ring the bore too, without the vertex that closes the outline on its first. */
function measuredVertices(
  { z_mm, r_mm, outsideStart, outsideEnd }: Profile,
  loop: boolean,
): { readonly i: number; readonly ofBore: boolean }[] {
  const closes = z_mm[z_mm.length - 1] === z_mm[0] && r_mm[r_mm.length - 1] === r_mm[0];
  return Array.from({ length: z_mm.length - (closes ? 1 : 0) }, (_, i) => ({
    i,
    ofBore: i < outsideStart || i > outsideEnd,
  })).filter(({ ofBore }) => loop || !ofBore);
}

/** Round heights at which a long curve is sized between its corners and turns, and how far these must be from them. */
const EVERY_MM = { in: MM_PER_INCH, mm: 25 } as const;
const CLEAR_OF_MM = 8;

function sizesBetween(
  profile: Profile,
  noted: readonly { readonly z: number }[],
  unit: DisplayUnit,
): Omit<Size, 'height'>[] {
  const [low, high] = [profile.z_mm[profile.outsideStart], profile.z_mm[profile.outsideEnd]];
  const step = EVERY_MM[unit];
  const heights = Array.from({ length: Math.floor(high / step) + 1 }, (_, i) => i * step);
  return heights
    .filter((z) => z > low && z < high && noted.every((one) => Math.abs(one.z - z) >= CLEAR_OF_MM))
    .map((z) => {
      const r = outsideRadius_mm(profile, z);
      return { z, r, text: sizeText(profile, z, r, unit) };
    });
}

/** A diameter of the outside, with that of the hollow at the same height. */
function sizeText(profile: Profile, z: number, r: number, unit: DisplayUnit): string {
  const inside = insideRadius_mm(profile, z);
  const hollow = inside === null ? '' : `, inside ${length(2 * inside, unit)}`;
  return `Ø ${length(2 * r, unit)}${hollow}`;
}

/** How wide the hollow is from the axis at a height, where it is first met from the rim down; null where the piece is solid. */
function insideRadius_mm({ z_mm, r_mm, outsideEnd }: Profile, z: number): number | null {
  for (let i = outsideEnd; i + 1 < z_mm.length; i++) {
    const [above, below] = [z_mm[i], z_mm[i + 1]];
    if (above <= z || below > z) continue;
    return r_mm[i] + ((r_mm[i + 1] - r_mm[i]) * (above - z)) / (above - below);
  }
  return null;
}

/** How wide a hollow is at its mouth and how deep below the highest place of the rim; nothing of a solid piece. */
function hollowSizes({ profile }: FormMeasures, unit: DisplayUnit): Omit<Size, 'height'>[] {
  const { z_mm, r_mm, outsideEnd } = profile;
  const high = z_mm.reduce((a, b) => Math.max(a, b), -Infinity);
  const places = Array.from(z_mm, (z, i) => ({ z, r: r_mm[i] })).slice(outsideEnd);
  const floor = places.reduce((least, { z }) => Math.min(least, z), Infinity);
  if (high - floor < 1e-6) return [];
  // The land of the rim is level; where it has none, the mouth is the rim itself.
  const mouth = places.filter(({ z }) => z > places[0].z - 1e-6).at(-1) ?? places[0];
  return [
    { ...mouth, text: `inside Ø ${length(2 * mouth.r, unit)}` },
    { z: floor, r: 0, text: `inside ${length(high - floor, unit)} deep` },
  ];
}
