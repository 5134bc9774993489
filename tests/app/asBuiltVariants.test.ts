/** The piece as it may be sawn beside the design. Bounds: a plane turned about its mark on the fence face, by hand. */
import { expect, test } from 'vitest';
import { newDocument } from '../../src/app/openDocument.ts';
import { createAppStore } from '../../src/app/store.ts';
import { workOf } from '../../src/app/work.ts';
import { asBuiltDesign } from '../../src/app/asBuiltVariants.ts';
import { slotsOf } from '../../src/blank/slots.ts';
import { historyOf } from '../../src/app/history.ts';
import { checkDesign } from '../../src/design/parse.ts';
import { asBuiltSlots } from '../../src/plan/asBuilt.ts';
import { fourRings, randomDesign, slotSet } from '../fixtures/designs.ts';

const ANGLE_deg = 0.4;
const STOP_mm = 0.3;
const rough = () =>
  fourRings({
    set: { angle_deg: 60 },
    saw: { ...fourRings().saw, angle_tolerance_deg: ANGLE_deg, stop_tolerance_mm: STOP_mm },
  });

test('a sample stands beside the design, off within the tolerances, and the design is as it was', () => {
  const design = rough();
  const asItWas = structuredClone(design);
  const store = createAppStore(workOf(design));
  store.getState().compareAsBuilt();
  const { work, view, design: edited } = store.getState();
  expect(work.variants.map(({ name }) => name)).toEqual(['Ideal', 'As sawn, try 1']);
  expect(work.active).toBe(0);
  expect(view.compare).toBe(true);
  expect(edited).toBe(design);
  expect(design).toEqual(asItWas);
  const sawn = work.variants[1].design;
  expect(sawn.sets.map((set) => set.fence_azimuths_deg)).toEqual([[0], [90], [180], [270]]);
  // The mark lies on the fence face, h = 38.1 from the axis: z = z₀ + h cot α.
  const mark_mm = (angle_deg: number, center_mm: number) =>
    center_mm + 38.1 / Math.tan((angle_deg * Math.PI) / 180);
  const angles = sawn.sets.map(({ angle_deg }) => angle_deg - 60);
  const marks = sawn.sets.map((set) => mark_mm(set.angle_deg, set.center_mm) - mark_mm(60, 101.6));
  for (const off_deg of angles) {
    expect(Math.abs(off_deg)).toBeGreaterThan(0);
    expect(Math.abs(off_deg)).toBeLessThanOrEqual(ANGLE_deg);
  }
  for (const off_mm of marks) {
    expect(Math.abs(off_mm)).toBeGreaterThan(1e-9);
    expect(Math.abs(off_mm)).toBeLessThanOrEqual(STOP_mm);
  }
  expect(new Set(angles).size).toBe(4);
  store.getState().undo();
  expect(store.getState().work.variants).toHaveLength(1);
  expect(store.getState().design).toBe(design);
});

test('again: the next sample of the ideal, even when the sample before is being edited', () => {
  const design = rough();
  const store = createAppStore(workOf(design));
  store.getState().compareAsBuilt();
  const first = store.getState().work.variants[1].design;
  store.getState().chooseVariant(1);
  store.getState().compareAsBuilt();
  const { work } = store.getState();
  expect(work.variants.map(({ name }) => name)).toEqual(['Ideal', 'As sawn, try 2']);
  expect(work.active).toBe(0);
  expect(work.variants[0].design).toBe(design);
  expect(work.variants[1].design.sets).not.toEqual(first.sets);
  store.getState().undo();
  expect(store.getState().work.variants[1].design).toBe(first);
});

test('four variants without a sample leave no room for one, and none of them is dropped', () => {
  const store = createAppStore(workOf(rough()));
  store.getState().compareAsBuilt();
  for (let n = 0; n < 2; n++) store.getState().addVariant();
  store.getState().compareAsBuilt();
  expect(store.getState().work.variants).toHaveLength(4);
  store.getState().editWork('remove', ({ variants }) => ({
    variants: variants.filter((_, k) => k !== 1),
    active: 0,
  }));
  store.getState().addVariant();
  const before = store.getState().work;
  store.getState().compareAsBuilt();
  expect(store.getState().work).toBe(before);
  expect(store.getState().said).toMatch(/no room/);
});

test('where there can be no sample the reason is said and nothing changes', () => {
  const newer = { version: 99, raw: {}, design: rough(), unknown: [] };
  const store = createAppStore(workOf(rough()));
  store.getState().openDocument(newDocument('file', { newer }), historyOf(workOf(rough())));
  store.getState().compareAsBuilt();
  expect(store.getState().said).toMatch(/newer Kerfweave/);
  expect(store.getState().work.variants).toHaveLength(1);
  expect(store.getState().view.compare).toBe(false);
});

test('the sample is a valid design whose slots are the sampled ones, in the order of cutting', () => {
  const longId = fourRings({ sets: [slotSet({ id: 'ABCDEFGHIJKLMNOP' })] });
  const designs = [longId, ...Array.from({ length: 20 }, (_, seed) => randomDesign(seed + 1))];
  for (const design of designs) {
    const sawn = asBuiltDesign(design, 3);
    const checked = checkDesign(sawn);
    expect(checked.ok ? [] : checked.faults).toEqual([]);
    const wanted = asBuiltSlots(slotsOf(design), design.saw, 3, design.made);
    slotsOf(sawn).forEach((slot, n) => {
      expect(slot.fenceAzimuth_deg).toBe(wanted[n].fenceAzimuth_deg);
      expect(slot.offset_mm).toBeCloseTo(wanted[n].offset_mm, 9);
      expect(slot.stop_mm).toBeCloseTo(wanted[n].stop_mm, 9);
      for (const k of [0, 1, 2]) expect(slot.normal[k]).toBeCloseTo(wanted[n].normal[k], 12);
    });
  }
});
