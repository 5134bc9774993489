/** The view of a cut with the table tilted: right angles and sides worked out from the contract's own formulas. */
import { expect, test } from 'vitest';
import { kerfDistance_mm, slotsOf } from '../../src/blank/slots.ts';
import { sawViewOf, upright } from '../../src/stage/sawView.ts';
import { shapeAt } from '../../src/stage/shape.ts';
import { fourRings, slotSet } from '../fixtures/designs.ts';

const designs = ([30, 42] as const).flatMap((angle_deg) =>
  (['fence', 'entry'] as const).flatMap((high_side) =>
    ([undefined, 'behind'] as const).map((web_side) =>
      fourRings({ sets: [slotSet({ cut: 'table', angle_deg, high_side, web_side })] }),
    ),
  ),
);

test.each(designs)('upright is in the plane of the blade, leaning from the axis by the tilt', (design) => {
  for (const slot of slotsOf(design)) {
    const up = upright(slot);
    const start = [0, 0, slot.center_mm] as const;
    const along = start.map((x, k) => x + 10 * up[k]) as unknown as readonly [number, number, number];
    expect(kerfDistance_mm(slot, along)).toBeCloseTo(0, 9);
    expect(Math.hypot(...up)).toBeCloseTo(1, 12);
    // The axis stands square on the table, so blade and axis make the angle of the tilt.
    expect(Math.abs(up[2])).toBeCloseTo(Math.cos((slot.angle_deg * Math.PI) / 180), 12);
    // The ledge is on the low side: going up leads away from it.
    expect(up[0] * slot.fenceDirection[0] + up[1] * slot.fenceDirection[1]).toBeLessThan(0);
    // The end nearer to the slot at the ledge lies on the table: the head where the high side is at the ledge.
    expect(Math.sign(up[2])).toBe(slot.slope === 1 ? -1 : 1);
  }
});

test.each(designs)('the eye is above the table, on the side where the blade enters', (design) => {
  // Moments: block, then quarter-turn (from the second slot on), cut and strip of each slot.
  for (const position of [1, 4, 7, 10]) {
    const shape = shapeAt(design, position);
    const view = sawViewOf(shape);
    expect(view).not.toBeNull();
    if (!view || shape.atSaw === null) continue;
    expect(view.toward.dot(view.up)).toBeGreaterThan(0.2);
    expect(view.toward.dot(view.entry)).toBeGreaterThan(0.7);
    expect(view.toward.length()).toBeCloseTo(1, 12);
    // Every cut of the set is seen from the same place: the blank is turned, not the eye.
    expect(view.key).toBe(sawViewOf(shapeAt(design, 1))?.key);
    const slot = shape.slots[shape.atSaw];
    const turn = shape.spin_rad;
    const [x, y] = [-slot.stopNormal[0], -slot.stopNormal[1]];
    const world = [x * Math.cos(turn) - y * Math.sin(turn), 0, -(x * Math.sin(turn) + y * Math.cos(turn))];
    view.entry.toArray().forEach((value, k) => expect(value).toBeCloseTo(world[k], 9));
  }
});

test('cuts at the fence have none', () => {
  expect(sawViewOf(shapeAt(fourRings(), 1))).toBeNull();
});
