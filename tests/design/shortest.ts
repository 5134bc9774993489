/**
 * The shortest design file, and what is found wrong with it after changes: for the tests of reading.
 */
import { faultLine } from '../../src/design/faults.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { changed } from './changed.ts';

/** The example of the format's description, as literal text: every field that may be left out is left out. */
export const SHORTEST = `{
  "format": "kerfweave-design", "version": 4, "name": "Four rings", "unit": "in",
  "blank": { "section": { "shape": "square", "width_mm": 76.2 }, "length_mm": 203.2, "timber": "black-walnut" },
  "sets": [
    { "id": "S1", "angle_deg": 45, "center_mm": 101.6, "fence_azimuths_deg": [0, 90, 180, 270],
      "kerf_mm": 1.016, "web_mm": 2.54, "strip": { "layers": [ { "timber": "hard-maple", "thickness_mm": 1.016 } ] } }
  ]
}`;

/** Faults, one line each, of that design after changes to its JSON. */
export function faultsAfter(...changes: readonly (readonly [path: string, value: unknown])[]): string[] {
  const design = changes.reduce(
    (document, [path, value]) => changed(document, path, value),
    JSON.parse(SHORTEST) as unknown,
  );
  return linesOf(JSON.stringify(design));
}

export function linesOf(input: string | Uint8Array): string[] {
  const result = parseDesign(input);
  return result.ok ? [] : result.faults.map(faultLine);
}

/** A form for it that has a hole from each side. */
export const DRILLED = {
  outline: [
    { z_mm: 0, r_mm: 0 },
    { z_mm: 0, r_mm: 30 },
    { z_mm: 203.2, r_mm: 30 },
    { z_mm: 203.2, r_mm: 0 },
  ],
  holes: [
    { from: 'head', diameter_mm: 22, depth_mm: 25 },
    { from: 'side', diameter_mm: 4, depth_mm: null, azimuth_deg: 30, z_mm: 100 },
  ],
};
