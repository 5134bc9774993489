/** Edits of a design: what each is for, by hand, and random sequences of them held to the file's own rules. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Design } from '../../src/design/document.ts';
import {
  addSet,
  addSlot,
  duplicateSet,
  mirrorSet,
  moveInOrder,
  nextSetId,
  removeSet,
  removeSlot,
  renameSet,
  resetOrder,
  setBlank,
  setName,
  setNotes,
  setSaw,
  setUnit,
  spaceEvenly,
  updateSet,
} from '../../src/design/edits.ts';
import { faultLine } from '../../src/design/faults.ts';
import {
  addOutlinePoint,
  moveOutlinePoint,
  removeOutlinePoint,
  setForm,
  toggleSmooth,
} from '../../src/design/formEdits.ts';
import { checkDesign, parseDesign } from '../../src/design/parse.ts';
import { serializeDesign } from '../../src/design/serialize.ts';
import { slotsOf } from '../../src/blank/slots.ts';
import { cylinderForm, fourRings, slotSet } from '../fixtures/designs.ts';
import { SEED } from '../soak/counts.ts';

/** Three sets of two slots, with an order of its own. */
const threeSets: Design = fourRings({
  sets: [10, 50, 200].map((center_mm, n) =>
    slotSet({ id: `S${n + 1}`, center_mm, fence_azimuths_deg: [0, 180] }),
  ),
  order: ['S3.1', 'S1.1', 'S2.1', 'S3.2', 'S1.2', 'S2.2'],
});

describe('the order of cutting', () => {
  it('gains new slots at its end', () => {
    expect(addSet(threeSets).order).toEqual([...threeSets.order, 'S4.1', 'S4.2']);
    expect(addSlot(threeSets, 'S2', 90).order).toEqual([...threeSets.order, 'S2.3']);
    expect(updateSet(threeSets, 'S1', { fence_azimuths_deg: [0, 90, 180, 270] }).order).toEqual([
      ...threeSets.order,
      'S1.3',
      'S1.4',
    ]);
  });

  it('loses the slots that go', () => {
    expect(removeSet(threeSets, 'S1').order).toEqual(['S3.1', 'S2.1', 'S3.2', 'S2.2']);
    expect(updateSet(threeSets, 'S3', { fence_azimuths_deg: [90] }).order).toEqual([
      'S3.1',
      'S1.1',
      'S2.1',
      'S1.2',
      'S2.2',
    ]);
  });

  it('follows a slot whose number changes because one before it goes', () => {
    const left = removeSlot(threeSets, 'S3.1');
    expect(left.sets[2].fence_azimuths_deg).toEqual([180]);
    // S3.2, the cut from azimuth 180, stays fourth among six and is now called S3.1.
    expect(left.order).toEqual(['S1.1', 'S2.1', 'S3.1', 'S1.2', 'S2.2']);
  });

  it('follows a set that is renamed', () => {
    const renamed = renameSet(threeSets, 'S3', 'rim');
    expect(renamed.sets[2].id).toBe('rim');
    expect(renamed.order).toEqual(['rim.1', 'S1.1', 'S2.1', 'rim.2', 'S1.2', 'S2.2']);
  });

  it('lets a slot move, and goes back to the default', () => {
    expect(moveInOrder(threeSets, 'S3.1', 2).order).toEqual(['S1.1', 'S2.1', 'S3.1', 'S3.2', 'S1.2', 'S2.2']);
    expect(moveInOrder(threeSets, 'S2.2', 0).order[0]).toBe('S2.2');
    expect(moveInOrder(threeSets, 'S3.1', 99).order.at(-1)).toBe('S3.1');
    expect(resetOrder(threeSets).order).toEqual(['S1.1', 'S1.2', 'S2.1', 'S2.2', 'S3.1', 'S3.2']);
  });
});

describe('sets', () => {
  it('take the first free id', () => {
    expect(nextSetId(threeSets)).toBe('S4');
    expect(nextSetId(removeSet(threeSets, 'S2'))).toBe('S2');
  });

  it('removing the last slot of a set removes the set', () => {
    const one = updateSet(threeSets, 'S2', { fence_azimuths_deg: [0] });
    expect(removeSlot(one, 'S2.1').sets.map((set) => set.id)).toEqual(['S1', 'S3']);
  });

  it('a copy stands after its original, nearer the head, with the same everything else', () => {
    const { sets } = duplicateSet(threeSets, 'S1');
    expect(sets.map((set) => set.id)).toEqual(['S1', 'S4', 'S2', 'S3']);
    // Five kerfs of 1.016 mm at 45°: 5 · 1.016 · √2 along the axis.
    expect(sets[1].center_mm).toBeCloseTo(10 + 5 * 1.016 * Math.SQRT2, 9);
    expect({ ...sets[1], id: 'S1', center_mm: 10 }).toEqual(sets[0]);
  });

  it('the mirror image is the slot seen in a mirror at the middle of the blank', () => {
    const layered = fourRings({
      set: {
        center_mm: 60,
        strip: {
          layers: [
            { timber: 'wenge', thickness_mm: 0.4 },
            { timber: 'hard-maple', thickness_mm: 0.616 },
          ],
        },
      },
    });
    const mirrored = mirrorSet(layered, 'S1');
    expect(checkDesign(mirrored).ok).toBe(true);
    expect(mirrorSet(mirrored, 'S1')).toEqual(layered);
    expect(mirrored.sets[0].strip.layers.map((layer) => layer.timber)).toEqual(['hard-maple', 'wenge']);
    // Plane by plane: n · (x, y, L − z) − c of the original is −(n′ · (x, y, z) − c′) of the image.
    const before = slotsOf(layered);
    slotsOf(mirrored).forEach((image, i) => {
      expect(image.normal[0]).toBeCloseTo(-before[i].normal[0], 12);
      expect(image.normal[1]).toBeCloseTo(-before[i].normal[1], 12);
      expect(image.normal[2]).toBeCloseTo(before[i].normal[2], 12);
      expect(image.offset_mm).toBeCloseTo(before[i].normal[2] * 203.2 - before[i].offset_mm, 9);
      expect(image.stop_mm).toBe(before[i].stop_mm);
    });
  });

  it('are spaced evenly between the outermost two, wherever they stand in the list', () => {
    const shuffled = { ...threeSets, sets: [threeSets.sets[2], threeSets.sets[0], threeSets.sets[1]] };
    const centers = spaceEvenly(shuffled, ['S1', 'S2', 'S3']).sets.map((set) => set.center_mm);
    expect(centers).toEqual([200, 10, 105]);
    expect(spaceEvenly(threeSets, ['S1', 'S2'])).toBe(threeSets);
  });

  it('lose their notes when the notes are emptied', () => {
    const noted = updateSet(threeSets, 'S1', { notes: 'slow here' });
    expect(noted.sets[0].notes).toBe('slow here');
    expect('notes' in updateSet(noted, 'S1', { notes: '' }).sets[0]).toBe(false);
    expect('notes' in setNotes(setNotes(threeSets, 'x'), '')).toBe(false);
  });
});

describe('the blank', () => {
  it('has a depth while it is a rectangle and only then', () => {
    const rectangle = setBlank(threeSets, { shape: 'rectangle' });
    expect(rectangle.blank.section).toEqual({ shape: 'rectangle', width_mm: 76.2, depth_mm: 76.2 });
    expect(setBlank(rectangle, { depth_mm: 40 }).blank.section.depth_mm).toBe(40);
    expect(setBlank(rectangle, { shape: 'octagon' }).blank.section).toEqual({
      shape: 'octagon',
      width_mm: 76.2,
    });
  });
});

describe('the outline', () => {
  const design = fourRings({ form: cylinderForm(100, 30) });
  const points = (edited: Design) => edited.form?.outline.map(({ z_mm, r_mm }) => [z_mm, r_mm]);

  it('keeps its ends on the axis and everything else off the other side of it', () => {
    expect(points(moveOutlinePoint(design, 0, 5, 12))?.[0]).toEqual([5, 0]);
    expect(points(moveOutlinePoint(design, 3, 90, 12))?.[3]).toEqual([90, 0]);
    expect(points(moveOutlinePoint(design, 1, 0, -4))?.[1]).toEqual([0, 0]);
  });

  it('takes and loses points between its ends', () => {
    const four = addOutlinePoint(design, 2, { z_mm: 50, r_mm: 20, smooth: true });
    expect(points(four)).toEqual([
      [0, 0],
      [0, 30],
      [50, 20],
      [100, 30],
      [100, 0],
    ]);
    expect(removeOutlinePoint(four, 2)).toEqual(design);
    for (const index of [0, 5, -1]) expect(addOutlinePoint(design, index, { z_mm: 1, r_mm: 1 })).toBe(design);
    for (const index of [0, 3, 9]) expect(removeOutlinePoint(design, index)).toBe(design);
    const cone = removeOutlinePoint(design, 1);
    expect(removeOutlinePoint(cone, 1)).toBe(cone);
  });

  it('turns corners smooth and back, but not its ends', () => {
    const smooth = toggleSmooth(design, 1);
    expect(smooth.form?.outline[1]).toEqual({ z_mm: 0, r_mm: 30, smooth: true });
    expect(toggleSmooth(smooth, 1)).toEqual(design);
    expect(toggleSmooth(design, 0)).toBe(design);
  });

  it('is not there to be edited when the blank is left as it is', () => {
    const plain = setForm(design, null);
    expect(moveOutlinePoint(plain, 1, 0, 0)).toBe(plain);
  });
});

describe('an edit of something that is not there', () => {
  it('changes nothing', () => {
    for (const edited of [
      removeSet(threeSets, 'S9'),
      duplicateSet(threeSets, 'S9'),
      updateSet(threeSets, 'S9', { kerf_mm: 2 }),
      renameSet(threeSets, 'S9', 'S1'),
      addSlot(threeSets, 'S9', 0),
      removeSlot(threeSets, 'S1.3'),
      removeSlot(threeSets, 'S1'),
      removeSlot(threeSets, 'S9.1'),
      moveInOrder(threeSets, 'S9.1', 0),
    ])
      expect(edited).toBe(threeSets);
    expect(mirrorSet(threeSets, 'S9')).toEqual(threeSets);
  });
});

/** An edit with values in range. Set and slot are chosen by a share in [0, 1) of those present. */
const share = fc.double({ min: 0, max: 0.999, noNaN: true });
/** Without −0, which no file keeps and no field gives. */
const within = (low: number, high: number) =>
  fc.double({ min: low, max: high, noNaN: true }).map((value) => value + 0);
const azimuths = fc.array(within(-360, 720), { minLength: 1, maxLength: 8 });
const timber = fc.constantFrom('black-walnut', 'hard-maple', 'wenge', 'teak', 'soft-maple');
const layers = fc.array(fc.record({ timber, thickness_mm: within(0.1, 5) }), { minLength: 1, maxLength: 4 });
const setFields = fc.record(
  {
    angle_deg: within(1, 90),
    center_mm: within(-50, 400),
    fence_azimuths_deg: azimuths,
    high_side: fc.constantFrom('fence' as const, 'entry' as const),
    kerf_mm: within(0.1, 10),
    web_mm: within(0, 15),
    strip: fc.record({ layers }),
    notes: fc.constantFrom('', 'from the offcut'),
  },
  { requiredKeys: [] },
);
const blankFields = fc.record(
  {
    shape: fc.constantFrom(
      'square' as const,
      'rectangle' as const,
      'hexagon' as const,
      'octagon' as const,
      'round' as const,
    ),
    width_mm: within(20, 200),
    length_mm: within(20, 400),
    depth_mm: within(20, 200),
    timber,
  },
  { requiredKeys: [] },
);

const pick = <T>(values: readonly T[], at: number): T => values[Math.floor(at * values.length)];
const setAt = (design: Design, at: number): string => pick(design.sets, at)?.id ?? 'none';

type Edit = (design: Design) => Design;

const edit: fc.Arbitrary<Edit> = fc.oneof(
  blankFields.map(
    (fields): Edit =>
      (d) =>
        setBlank(d, fields),
  ),
  setFields.map(
    (fields): Edit =>
      (d) =>
        d.order.length > 150 ? d : addSet(d, fields),
  ),
  share.map(
    (at): Edit =>
      (d) =>
        removeSet(d, setAt(d, at)),
  ),
  share.map(
    (at): Edit =>
      (d) =>
        d.order.length > 150 ? d : duplicateSet(d, setAt(d, at)),
  ),
  fc.tuple(share, setFields).map(
    ([at, fields]): Edit =>
      (d) =>
        updateSet(d, setAt(d, at), fields),
  ),
  share.map(
    (at): Edit =>
      (d) =>
        mirrorSet(d, setAt(d, at)),
  ),
  share.map(
    (at): Edit =>
      (d) =>
        renameSet(d, setAt(d, at), `${nextSetId(d)}-b`),
  ),
  fc.tuple(share, within(0, 360)).map(
    ([at, azimuth]): Edit =>
      (d) =>
        addSlot(d, setAt(d, at), azimuth),
  ),
  share.map(
    (at): Edit =>
      (d) =>
        removeSlot(d, pick(d.order, at) ?? 'none'),
  ),
  fc.tuple(share, fc.integer({ min: -2, max: 60 })).map(
    ([at, index]): Edit =>
      (d) =>
        moveInOrder(d, pick(d.order, at) ?? 'none', index),
  ),
  fc.array(share, { maxLength: 6 }).map(
    (all): Edit =>
      (d) =>
        spaceEvenly(
          d,
          all.map((at) => setAt(d, at)),
        ),
  ),
  fc.constant<Edit>(resetOrder),
  fc.constantFrom<'in' | 'mm'>('in', 'mm').map(
    (unit): Edit =>
      (d) =>
        setUnit(d, unit),
  ),
  fc.constantFrom('', 'Lantern foot').map(
    (name): Edit =>
      (d) =>
        setName(d, name),
  ),
  fc.constantFrom('', 'dry stock only').map(
    (notes): Edit =>
      (d) =>
        setNotes(d, notes),
  ),
  fc.integer({ min: 1, max: 5 }).map(
    (max_open_slots): Edit =>
      (d) =>
        setSaw(d, { max_open_slots }),
  ),
);

const point = fc.record({ z_mm: within(0, 200), r_mm: within(-5, 60) });
const formEdit: fc.Arbitrary<Edit> = fc.oneof(
  fc.constantFrom<Edit>(
    (d) => setForm(d, null),
    (d) => setForm(d, cylinderForm(100, 30)),
  ),
  fc.tuple(share, point).map(
    ([at, { z_mm, r_mm }]): Edit =>
      (d) =>
        addOutlinePoint(d, Math.floor(at * (d.form?.outline.length ?? 0)), { z_mm, r_mm: Math.abs(r_mm) }),
  ),
  fc.tuple(share, point).map(
    ([at, { z_mm, r_mm }]): Edit =>
      (d) =>
        moveOutlinePoint(d, Math.floor(at * (d.form?.outline.length ?? 0)), z_mm, r_mm),
  ),
  share.map(
    (at): Edit =>
      (d) =>
        removeOutlinePoint(d, Math.floor(at * (d.form?.outline.length ?? 0))),
  ),
  share.map(
    (at): Edit =>
      (d) =>
        toggleSmooth(d, Math.floor(at * (d.form?.outline.length ?? 0))),
  ),
);

describe('any sequence of edits', () => {
  const faultsOf = (design: Design): string[] => {
    const result = checkDesign(design);
    return result.ok ? [] : result.faults.map(faultLine);
  };

  it('with values in range leaves a document that reads back as itself', () => {
    fc.assert(
      fc.property(fc.array(edit, { minLength: 1, maxLength: 25 }), (edits) => {
        const edited = edits.reduce((design, apply) => apply(design), threeSets);
        expect(faultsOf(edited)).toEqual([]);
        expect(parseDesign(serializeDesign(edited))).toEqual({ ok: true, design: edited });
      }),
      { seed: SEED, numRuns: 300 },
    );
  });

  it('of the form can only be wrong in the course of the outline', () => {
    let sound = 0;
    fc.assert(
      fc.property(fc.array(formEdit, { minLength: 1, maxLength: 25 }), (edits) => {
        // As the app does: an edit that the check refuses is shown with its reason and not kept.
        edits.reduce((design, apply) => {
          const edited = apply(design);
          const faults = faultsOf(edited);
          for (const fault of faults) expect(fault).toMatch(/^form\.outline: /);
          if (faults.length > 0) return design;
          sound++;
          return edited;
        }, fourRings());
      }),
      { seed: SEED, numRuns: 200 },
    );
    expect(sound).toBeGreaterThan(500);
  });
});
