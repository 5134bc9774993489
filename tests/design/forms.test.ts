/**
 * Starter forms and hollowing: every form is a valid document on every blank, stays clear of the webs, and a
 * hollowed wall has the thickness asked for. The wall is measured point by point against the outside polyline.
 */
import { describe, expect, test } from 'vitest';
import type { Blank, OutlinePoint } from '../../src/design/document.ts';
import { FORM_KINDS, formFor } from '../../src/design/forms.ts';
import { filled, hollowed, isHollow, rimIndex } from '../../src/design/hollowing.ts';
import { checkDesign } from '../../src/design/parse.ts';
import { sectionGeometry } from '../../src/design/section.ts';
import { flattenOutline } from '../../src/geometry/outline.ts';
import { fourRings } from '../fixtures/designs.ts';

const BLANKS: readonly Blank[] = [
  { section: { shape: 'square', width_mm: 76.2 }, length_mm: 203.2, timber: 'black-walnut' },
  { section: { shape: 'square', width_mm: 19 }, length_mm: 130, timber: 'black-walnut' },
  { section: { shape: 'round', width_mm: 200 }, length_mm: 70, timber: 'black-walnut' },
  { section: { shape: 'hexagon', width_mm: 90 }, length_mm: 90, timber: 'black-walnut' },
  { section: { shape: 'rectangle', width_mm: 60, depth_mm: 40 }, length_mm: 300, timber: 'black-walnut' },
];
const WEB = 2.54;

describe.each(FORM_KINDS)('%s', (kind) => {
  test.each(BLANKS.map((blank) => [blank.section.shape, blank.section.width_mm, blank] as const))(
    'on a %s blank of %d mm',
    (_shape, _width, blank) => {
      const form = formFor(kind, blank, WEB);
      const result = checkDesign({ ...fourRings(), blank, form, sets: [], order: [] });
      expect(result.ok ? [] : result.faults).toEqual([]);
      const { z_mm, r_mm } = flattenOutline(form.outline, undefined, form.loop);
      const room = sectionGeometry(blank.section).inscribedRadius_mm;
      expect(Math.max(...r_mm)).toBeLessThanOrEqual(room - WEB);
      expect(Math.max(...r_mm)).toBeGreaterThan(kind === 'sphere' ? 0 : 0.9 * (room - WEB) - 1);
      expect(Math.min(...z_mm)).toBeGreaterThanOrEqual(0);
      expect(Math.max(...z_mm)).toBeLessThanOrEqual(blank.length_mm + 1e-9);
    },
  );
});

test('hollow and solid kinds', () => {
  expect(FORM_KINDS).toHaveLength(12);
  const forms = FORM_KINDS.map((kind) => ({ kind, form: formFor(kind, BLANKS[0], WEB) }));
  expect(forms.filter(({ form }) => form.loop).map(({ kind }) => kind)).toEqual(['bangle']);
  const hollow = forms.filter(({ form }) => !form.loop && isHollow(form.outline)).map(({ kind }) => kind);
  expect(hollow).toEqual(['vase', 'goblet', 'box', 'bowl', 'platter']);
});

test('the sphere is round to a thousandth of its radius', () => {
  const { z_mm, r_mm } = flattenOutline(formFor('sphere', BLANKS[0], WEB).outline, 1e-3);
  const radius = Math.max(...r_mm);
  for (let i = 0; i < z_mm.length; i++)
    expect(Math.abs(Math.hypot(z_mm[i] - 101.6, r_mm[i]) - radius)).toBeLessThan(1e-3 * radius);
});

function wallRange(outline: readonly OutlinePoint[], floor_mm: number): [number, number] {
  const { z_mm, r_mm, outsideStart, outsideEnd } = flattenOutline(outline, 1e-3);
  let least = Infinity;
  let most = 0;
  for (let i = outsideEnd + 1; i < z_mm.length; i++) {
    // Off the rim and above the floor, where the wall alone decides.
    if (z_mm[i] > z_mm[outsideEnd] - 8 || z_mm[i] < floor_mm + 14) continue;
    let nearest = Infinity;
    for (let k = outsideStart; k < outsideEnd; k++) {
      const dz = z_mm[k + 1] - z_mm[k];
      const dr = r_mm[k + 1] - r_mm[k];
      const t = Math.min(
        Math.max(((z_mm[i] - z_mm[k]) * dz + (r_mm[i] - r_mm[k]) * dr) / (dz * dz + dr * dr || 1), 0),
        1,
      );
      nearest = Math.min(nearest, Math.hypot(z_mm[k] + t * dz - z_mm[i], r_mm[k] + t * dr - r_mm[i]));
    }
    least = Math.min(least, nearest);
    most = Math.max(most, nearest);
  }
  return [least, most];
}

test.each(['vase', 'candle-stick', 'handle', 'bowl'] as const)('the wall of a hollowed %s', (kind) => {
  const blank = BLANKS[0];
  const outline = hollowed(filled(formFor(kind, blank, WEB).outline), 4, 20);
  const result = checkDesign({ ...fourRings(), form: { outline } });
  expect(result.ok ? [] : result.faults).toEqual([]);
  const [least, most] = wallRange(outline, 20);
  expect(least).toBeGreaterThan(4 * 0.97);
  expect(most).toBeLessThan(4 * 1.2);
});

test('filling a hollowed outline gives back the solid one', () => {
  const solid = formFor('candle-stick', BLANKS[0], WEB).outline;
  const hollow = hollowed(solid, 4, 20);
  expect(isHollow(hollow)).toBe(true);
  expect(hollow.slice(0, rimIndex(hollow) + 1)).toEqual(solid.slice(0, rimIndex(solid) + 1));
  expect(filled(hollow)).toEqual(solid);
});
