/** Edits of the form: the outline, a loop, holes. */
import { describe, expect, it } from 'vitest';
import type { Blank, Design, Hole } from '../../src/design/document.ts';
import {
  addOutlinePoint,
  moveOutlinePoint,
  removeOutlinePoint,
  scaledForm,
  setForm,
  setLoop,
  toggleSmooth,
} from '../../src/design/formEdits.ts';
import { FORM_KINDS, formFor } from '../../src/design/forms.ts';
import { addHole, removeHole, updateHole } from '../../src/design/holeEdits.ts';
import { checkDesign } from '../../src/design/parse.ts';
import { cylinderForm, fourRings } from '../fixtures/designs.ts';

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

describe('a loop', () => {
  const sleeve = setLoop(fourRings({ form: { ...cylinderForm(100, 30), finish: 'gloss' } }), true);
  const points = (edited: Design) => edited.form?.outline.map(({ z_mm, r_mm }) => [z_mm, r_mm]);

  it('is the form bored right through, and back is the form itself', () => {
    expect(points(sleeve)).toEqual([
      [0, 30],
      [100, 30],
      [100, 21],
      [0, 21],
    ]);
    expect(sleeve.form).toMatchObject({ loop: true, finish: 'gloss' });
    expect(setLoop(sleeve, true)).toBe(sleeve);
    expect(setLoop(sleeve, false)).toEqual(
      fourRings({ form: { ...cylinderForm(100, 30), finish: 'gloss' } }),
    );
  });

  it('can be made of every starter form and made solid again', () => {
    const blanks: Blank[] = [
      { section: { shape: 'square', width_mm: 60 }, length_mm: 200, timber: 'teak' },
      { section: { shape: 'octagon', width_mm: 120 }, length_mm: 70, timber: 'teak' },
    ];
    for (const blank of blanks)
      for (const kind of FORM_KINDS) {
        const design: Design = { ...fourRings(), blank, form: formFor(kind, blank, 2) };
        const solid = design.form?.loop ? setLoop(design, false) : design;
        const loop = setLoop(solid, true);
        expect(loop.form?.loop, kind).toBe(true);
        for (const edited of [solid, loop, setLoop(loop, false)])
          expect(checkDesign(edited).ok, `${kind} on ${blank.length_mm}`).toBe(true);
      }
  });

  it('has no ends: every point can move, off the axis, and be smooth', () => {
    expect(points(moveOutlinePoint(sleeve, 0, 2, 28))?.[0]).toEqual([2, 28]);
    expect(points(moveOutlinePoint(sleeve, 3, 2, -5))?.[3][1]).toBeGreaterThan(0);
    expect(points(removeOutlinePoint(sleeve, 0))).toHaveLength(3);
    expect(toggleSmooth(sleeve, 3).form?.outline[3].smooth).toBe(true);
    expect(points(addOutlinePoint(sleeve, 4, { z_mm: 0, r_mm: 25 }))?.[4]).toEqual([0, 25]);
    expect(addOutlinePoint(sleeve, 5, { z_mm: 0, r_mm: 25 })).toBe(sleeve);
  });

  it('cannot be made of an outside of one point', () => {
    const spike = fourRings({
      form: {
        outline: [
          { z_mm: 0, r_mm: 0 },
          { z_mm: 50, r_mm: 20 },
          { z_mm: 100, r_mm: 0 },
        ],
      },
    });
    expect(setLoop(spike, true)).toBe(spike);
  });
});

describe('holes', () => {
  const cup: Hole = { from: 'head', diameter_mm: 22, depth_mm: 25 };
  const design = addHole(fourRings(), cup);

  it('come, change and go; the list goes with the last', () => {
    expect(design.form?.holes).toEqual([cup]);
    const two = addHole(design, { ...cup, from: 'foot', offset_mm: 0, azimuth_deg: 0 });
    expect(two.form?.holes?.[1]).toEqual({ ...cup, from: 'foot' });
    expect(updateHole(two, 1, { offset_mm: 5 }).form?.holes?.[1].offset_mm).toBe(5);
    expect(removeHole(two, 0).form?.holes).toEqual([{ ...cup, from: 'foot' }]);
    expect(removeHole(design, 0)).toEqual(fourRings());
  });

  it('have a height from the side and only then', () => {
    const side = updateHole(design, 0, { from: 'side' });
    expect(side.form?.holes?.[0].z_mm).toBe(101.6);
    expect(updateHole(updateHole(side, 0, { z_mm: 30 }), 0, { from: 'foot' }).form?.holes?.[0]).toEqual({
      ...cup,
      from: 'foot',
    });
  });

  it('are at most 20, and none without a form', () => {
    let full = fourRings();
    for (let n = 0; n < 25; n++) full = addHole(full, cup);
    expect(full.form?.holes).toHaveLength(20);
    const square = setForm(fourRings(), null);
    for (const edited of [addHole(square, cup), updateHole(square, 0, cup), removeHole(square, 0)])
      expect(edited).toBe(square);
    expect(updateHole(design, 3, cup)).toBe(design);
    expect(removeHole(design, 3)).toBe(design);
  });

  it('keep their size when the form is scaled', () => {
    const form = {
      ...cylinderForm(100, 30),
      loop: true,
      holes: [{ from: 'side' as const, diameter_mm: 4, depth_mm: 9, offset_mm: 5, z_mm: 40 }],
    };
    const scaled = scaledForm(form, 2, 0.5);
    expect(scaled.outline[2]).toEqual({ z_mm: 200, r_mm: 15 });
    expect(scaled.holes).toEqual([{ from: 'side', diameter_mm: 4, depth_mm: 9, offset_mm: 2.5, z_mm: 80 }]);
    expect(scaled.loop).toBe(true);
  });
});
