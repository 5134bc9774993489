/** Bands of the unrolled map as paths (the bands themselves: tests/blank/bands.test.ts). */
import { expect, test } from 'vitest';
import { outsideLine } from '../../src/blank/outsideLine.ts';
import { slotsOf } from '../../src/blank/slots.ts';
import { flattenOutline } from '../../src/geometry/outline.ts';
import { bandPath } from '../../src/panels/map/bandPath.ts';
import { cylinderForm, fourRings } from '../fixtures/designs.ts';

const design = fourRings({
  form: cylinderForm(203.2, 30),
  set: { angle_deg: 60, kerf_mm: 3, fence_azimuths_deg: [0, 90, 200], high_side: 'entry' },
});
const slots = slotsOf(design);
const line = outsideLine(flattenOutline(design.form?.outline ?? []));

test('a band that passes the edge of the map is drawn on both sides of it', () => {
  const scale = { left_rad: -Math.PI / 4, xPerRad: 10, yPerMm: 1, length_mm: line.length_mm };
  for (const slot of slots) {
    const xs = [...bandPath(slot, line, scale).matchAll(/[ML](-?[\d.]+)/g)].map((match) => Number(match[1]));
    expect(Math.min(...xs)).toBeLessThanOrEqual(0.5);
    expect(Math.max(...xs)).toBeGreaterThanOrEqual(2 * Math.PI * 10 - 0.5);
  }
});
