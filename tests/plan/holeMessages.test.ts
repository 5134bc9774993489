/** Messages about holes: each on a piece made to earn it and silent beside the threshold; numbers by hand. */
import { describe, expect, it } from 'vitest';
import type { Form, Hole } from '../../src/design/document.ts';
import { messagesOf, type MessageCode } from '../../src/plan/messages.ts';
import { worded } from '../../src/plan/wording.ts';
import { cylinderForm, fourRings, hollowForm, slotSet } from '../fixtures/designs.ts';

const CYLINDER = cylinderForm(203.2, 30);
const CUP: Form = {
  outline: [
    { z_mm: 0, r_mm: 0 },
    { z_mm: 0, r_mm: 30 },
    { z_mm: 203.2, r_mm: 30 },
    { z_mm: 203.2, r_mm: 25 },
    { z_mm: 20, r_mm: 25 },
    { z_mm: 20, r_mm: 0 },
  ],
};

function texts(code: MessageCode, form: Form, ...holes: Hole[]): string[] {
  const design = fourRings({ sets: [slotSet({ center_mm: 120, angle_deg: 60 })], form: { ...form, holes } });
  return messagesOf(design)
    .filter((message) => message.code === code)
    .map(({ words }) => worded(words, 'mm'));
}
const out = (form: Form, ...holes: Hole[]) => texts('hole-breaks-out', form, ...holes);

describe('hole-breaks-out', () => {
  it('along the axis: deeper than the piece is long', () => {
    const hole: Hole = { from: 'head', diameter_mm: 10, depth_mm: 203.3 };
    expect(out(CYLINDER, hole)).toEqual([
      'Hole 1, from the head, is to be 203.3 mm deep and comes out of the wood after 203.2 mm.',
    ]);
    expect(out(CYLINDER, { ...hole, depth_mm: 203.2 })).toEqual([]);
    expect(out(CYLINDER, { ...hole, depth_mm: 203 }, { ...hole, from: 'foot', depth_mm: 204 })[0]).toMatch(
      /^Hole 2, from the foot, is to be 204 mm/,
    );
    expect(out(CYLINDER, { ...hole, depth_mm: null })).toEqual([]);
  });

  it('from the side: the wall of the hole comes out before its middle', () => {
    // Radius 6 on the cylinder of 30: the wall comes out at 30 + √(30² − 6²) = 59.394 from the surface.
    const hole: Hole = { from: 'side', diameter_mm: 12, depth_mm: 59.5, z_mm: 60, azimuth_deg: 33 };
    expect(out(CYLINDER, hole)[0]).toMatch(/comes out of the wood after 59\.39 mm\.$/);
    expect(out(CYLINDER, { ...hole, depth_mm: 59.3 })).toEqual([]);
    // So shallow that its bottom does not all reach the wood: 30 − √(30² − 6²) = 0.606.
    expect(out(CYLINDER, { ...hole, depth_mm: 0.3 })).toEqual([]);
  });

  it('beside the axis: through the skin of a form that narrows', () => {
    const cone: Form = {
      outline: [
        { z_mm: 0, r_mm: 0 },
        { z_mm: 0, r_mm: 10 },
        { z_mm: 100, r_mm: 30 },
        { z_mm: 100, r_mm: 0 },
      ],
    };
    // At 14 + 4 mm from the axis the cone ends at z = 40, 60 below the head.
    const hole: Hole = { from: 'head', diameter_mm: 8, depth_mm: 61, offset_mm: 14 };
    expect(out(cone, hole)[0]).toMatch(/after 60 mm\.$/);
    expect(out(cone, { ...hole, depth_mm: 59.9 })).toEqual([]);
  });

  it('through the floor of a hollow piece, but not into its hollow', () => {
    const drain: Hole = { from: 'head', diameter_mm: 6, depth_mm: 204 };
    expect(out(CUP, drain)).toHaveLength(1);
    expect(out(CUP, { ...drain, depth_mm: 203 })).toEqual([]);
    const inlet: Hole = { from: 'side', diameter_mm: 6, depth_mm: 20, z_mm: 100 };
    expect(out(CUP, inlet)).toEqual([]);
    // As deep as the wall in its middle (5 mm), it opens where the hollow is nearest only in part.
    expect(out(CUP, { ...inlet, depth_mm: 5.05 })).toHaveLength(1);
    expect(out(CUP, { ...inlet, depth_mm: 4.9 })).toEqual([]);
    expect(out(CUP, { ...inlet, depth_mm: 57 })).toEqual([]);
    expect(out(CUP, { ...inlet, depth_mm: 61 })).toHaveLength(1);
  });

  it('at the flats and the ends of the blank, where the form reaches past them', () => {
    const wide = cylinderForm(230, 45);
    const hole: Hole = { from: 'side', diameter_mm: 2, depth_mm: 82, z_mm: 60 };
    // The blank is 76.2 wide: the drill, counted from the outline at 45, comes out at 45 + 38.1.
    expect(out(wide, hole)).toEqual([]);
    expect(out(wide, { ...hole, depth_mm: 84 })[0]).toMatch(/after 83\.1 mm\.$/);
    // From the head of the outline at 230 to the foot of the blank.
    expect(out(wide, { from: 'head', diameter_mm: 2, depth_mm: 229 })).toEqual([]);
  });
});

describe('hole-misses', () => {
  it('past the side, or not as far as the wood', () => {
    const past: Hole = { from: 'side', diameter_mm: 4, depth_mm: null, z_mm: 60, offset_mm: 33 };
    expect(texts('hole-misses', CYLINDER, past)).toEqual(['Hole 1, from the side, meets no wood.']);
    expect(texts('hole-misses', CYLINDER, { ...past, offset_mm: 31 })).toEqual([]);
    expect(texts('hole-misses', CUP, { from: 'head', diameter_mm: 6, depth_mm: 180 })).toHaveLength(1);
    expect(texts('hole-misses', CUP, { from: 'head', diameter_mm: 6, depth_mm: 184 })).toEqual([]);
    expect(texts('hole-misses', CYLINDER, { ...past, offset_mm: 0, z_mm: 210 })).toHaveLength(1);
  });
});

it('a hollow form with sound holes has nothing to say of them', () => {
  const form = hollowForm(203.2, 30, 6, 8);
  const holes: Hole[] = [
    { from: 'side', diameter_mm: 5, depth_mm: 15, z_mm: 150 },
    { from: 'foot', diameter_mm: 4, depth_mm: 5, offset_mm: 8 },
  ];
  for (const code of ['hole-misses', 'hole-breaks-out'] as const)
    expect(texts(code, form, ...holes)).toEqual([]);
});
