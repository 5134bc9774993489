/**
 * Waste for holding: the piece and its rings stay what they are, the stop of the fence counts the wood that is really
 * there. What must come out follows from moving a body along the axis and from the end that meets the stop.
 */
import { expect, test } from 'vitest';
import { holdingOf, setHolding } from '../../src/design/holding.ts';
import { checkDesign } from '../../src/design/parse.ts';
import { measuresOf } from '../../src/plan/measures.ts';
import { decorated } from '../fixtures/decorated.ts';
import { fourRings, randomDesign } from '../fixtures/designs.ts';

const SEED = 20251130;

test('rings, crossings and the turned volume move with the form; stops grow by the wood at their end', () => {
  const before = fourRings();
  const free = holdingOf(before) ?? { foot_mm: NaN, head_mm: NaN };
  const after = setHolding(before, { foot_mm: free.foot_mm + 12.7, head_mm: free.head_mm + 30 });
  expect(after.blank.length_mm).toBeCloseTo(before.blank.length_mm + 42.7, 6);
  const [old, now] = [before, after].map(measuresOf);
  expect(now.form?.turned.volume_mm3).toBeCloseTo(old.form?.turned.volume_mm3 ?? NaN, 3);
  expect(now.form?.crossings.length).toBe(old.form?.crossings.length);
  old.form?.crossings.forEach((crossing, i) =>
    expect(now.form?.crossings[i].z_mm).toBeCloseTo(crossing.z_mm + 12.7, 6),
  );
  old.setups.forEach((setup, i) => {
    const grown_mm = setup.stop_end === 'foot' ? 12.7 : 30;
    expect(now.setups[i].stop_to_kerf_center_mm).toBeCloseTo(setup.stop_to_kerf_center_mm + grown_mm, 6);
    expect(now.setups[i].mark_fence_mm).toBeCloseTo(setup.mark_fence_mm + 12.7, 6);
    expect(now.setups[i].slot_depth_mm).toBeCloseTo(setup.slot_depth_mm, 6);
  });
});

test('what was asked for is free, and asking for what was free before gives the design back', () => {
  let asked = 0;
  for (let n = 0; n < 60; n++) {
    const design = decorated(SEED + n, randomDesign(SEED + n));
    const free = holdingOf(design);
    if (!free) {
      expect(setHolding(design, { foot_mm: 5, head_mm: 5 })).toBe(design);
      continue;
    }
    asked++;
    const wanted = { foot_mm: 10 + n, head_mm: 3.125 };
    const there = setHolding(design, wanted);
    const found = holdingOf(there);
    expect(found?.foot_mm).toBeCloseTo(wanted.foot_mm, 5);
    expect(found?.head_mm).toBeCloseTo(wanted.head_mm, 5);
    expect(checkDesign(there).ok).toBe(true);
    const back = setHolding(there, free);
    expect(back.blank.length_mm).toBeCloseTo(design.blank.length_mm, 5);
    back.sets.forEach((set, i) => expect(set.center_mm).toBeCloseTo(design.sets[i].center_mm, 5));
    back.form?.outline.forEach((point, i) =>
      expect(point.z_mm).toBeCloseTo(design.form?.outline[i].z_mm ?? NaN, 5),
    );
    const pith = back.blank.grain?.pith_mm ?? [];
    pith.forEach((value, i) => expect(value).toBeCloseTo(design.blank.grain?.pith_mm?.[i] ?? NaN, 5));
  }
  expect(asked).toBeGreaterThan(20);
});
