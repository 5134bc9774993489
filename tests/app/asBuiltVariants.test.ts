/** The piece as it may be sawn beside the design. Bounds: a plane turned about its mark on the fence face, by hand. */
import { expect, test } from 'vitest';
import { newDocument } from '../../src/app/openDocument.ts';
import { createAppStore } from '../../src/app/store.ts';
import { workOf } from '../../src/app/work.ts';
import { asBuiltDesign } from '../../src/app/asBuiltVariants.ts';
import { slotsOf } from '../../src/blank/slots.ts';
import { historyOf } from '../../src/app/history.ts';
import { shownVariantsOf, stageVariantsOf } from '../../src/app/stageView.ts';
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

test('the same try with its errors drawn larger: named so in the list, on the picture and in the file', () => {
  const store = createAppStore(workOf(rough()));
  store.getState().compareAsBuilt();
  store.getState().compareAsBuilt();
  const once = store.getState().work.variants[1].design;
  store.getState().compareAsBuilt(5);
  const { work } = store.getState();
  const sawn = work.variants[1];
  expect(work.variants).toHaveLength(2);
  expect(sawn.name).toBe('As sawn, try 2, errors ×5');
  expect(sawn.design.name).toContain('errors ×5');
  expect(once.name).toBe(rough().name);
  // Read back from the file: the mark on the fence face, h = 38.1, and the angle are ideal + 5 (sampled − ideal).
  const mark_mm = (set: { angle_deg: number; center_mm: number }) =>
    set.center_mm + 38.1 / Math.tan((set.angle_deg * Math.PI) / 180);
  const ideal = { angle_deg: 60, center_mm: 101.6 };
  sawn.design.sets.forEach((set, n) => {
    expect(set.angle_deg).toBeCloseTo(60 + 5 * (once.sets[n].angle_deg - 60), 9);
    expect(mark_mm(set)).toBeCloseTo(mark_mm(ideal) + 5 * (mark_mm(once.sets[n]) - mark_mm(ideal)), 9);
  });

  const [first, second] = stageVariantsOf(work, true);
  expect(first.caption).toBeUndefined();
  expect(second.label).toBe('As sawn, try 2, errors ×5');
  expect(second.caption).toBe('errors shown ×5');
  // Whatever the maker calls it, and alone on the stage or shown to a client as well.
  const renamed = { ...work, variants: [work.variants[0], { ...sawn, name: 'Mine' }], active: 1 };
  expect(stageVariantsOf(renamed, false)[0]).toMatchObject({
    label: 'Mine, errors ×5',
    caption: 'errors shown ×5',
  });
  expect(shownVariantsOf(renamed, false, null)[0].caption).toBe('errors shown ×5');

  store.getState().compareAsBuilt(1);
  const back = store.getState().work.variants[1];
  expect(back.design.sets).toEqual(once.sets);
  expect(stageVariantsOf(store.getState().work, true)[1].caption).toBeUndefined();
});

test('on the stage the slots of a sample go by the names of the ideal, and what is farthest off is marked', () => {
  const store = createAppStore(workOf(rough()));
  store.getState().compareAsBuilt();
  const { work } = store.getState();
  const [ideal, sawn] = stageVariantsOf(work, true);
  expect(ideal.slotNames).toBeUndefined();
  expect(ideal.marks).toBeUndefined();
  expect([...(sawn.slotNames ?? [])].map(([, name]) => name)).toEqual(['S1.1', 'S1.2', 'S1.3', 'S1.4']);
  expect([...(sawn.slotNames ?? [])].map(([own]) => own)).toEqual(work.variants[1].design.order);
  expect(sawn.marks?.map(({ text }) => text).filter((text) => text !== '')).toEqual([
    expect.stringMatching(/^S1\.[1-4]: 0\.\d+ in off$/),
    expect.stringMatching(/^S1\.[1-4] over S1\.[1-4]: 0\.\d+ in off$/),
  ]);
  // Changed since: no number of another design is shown.
  store.getState().edit('move', (design) => ({
    ...design,
    sets: design.sets.map((set) => ({ ...set, center_mm: set.center_mm + 5 })),
  }));
  expect(stageVariantsOf(store.getState().work, true)[1].marks).toBeUndefined();
});
