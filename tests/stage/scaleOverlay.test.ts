/** References beside the piece: of true size, standing on the level of its foot, and clear of it. Sizes: common practice. */
import { expect, it } from 'vitest';
import type { ScaleReference } from '../../src/stage/props.ts';
import type { Overlay } from '../../src/stage/overlay.ts';
import { addReference, referenceReach_mm } from '../../src/stage/scaleOverlay.ts';
import { shapeAt } from '../../src/stage/shape.ts';
import { lastPosition } from '../../src/app/position.ts';
import { fourRings } from '../fixtures/designs.ts';

const SIZES: readonly [ScaleReference, wide_mm: number, high_mm: number][] = [
  ['pencil', 7.5, 175],
  ['coin', 24, 24],
  // From the outside of a spread thumb to the little finger; 190 from the wrist to the tip of the middle finger.
  ['hand', 124, 190],
];

function pointsOf(kind: ScaleReference, foot_mm = 0): (readonly [number, number, number])[] {
  const outline = [
    { z_mm: foot_mm, r_mm: 0 },
    { z_mm: foot_mm, r_mm: 30 },
    { z_mm: 203.2, r_mm: 22 },
    { z_mm: 203.2, r_mm: 0 },
  ];
  const design = fourRings({ form: { outline } });
  const drawn: (readonly [number, number, number])[] = [];
  const overlay = { facing: (points: typeof drawn) => drawn.push(...points) } as unknown as Overlay;
  const look = { ink: '#000000', paper: '#ffffff' };
  addReference(overlay, shapeAt(design, lastPosition(design)), kind, look);
  return drawn;
}

it.each(SIZES)('a %s is %f by %f mm', (kind, wide_mm, high_mm) => {
  for (const foot_mm of [0, 25]) {
    const points = pointsOf(kind, foot_mm);
    const xs = points.map(([x]) => x);
    const ys = points.map(([, y]) => y);
    // Smooth lines may swing a little beyond their corners.
    expect(Math.abs(Math.max(...xs) - Math.min(...xs) - wide_mm)).toBeLessThan(1.5);
    expect(Math.abs(Math.max(...ys) - Math.min(...ys) - high_mm)).toBeLessThan(0.5);
    expect(Math.min(...ys)).toBeCloseTo(foot_mm, 9);
    // Beside the widest place of the piece, in the plane through its axis: it hides nothing from any side.
    expect(Math.min(...xs)).toBeGreaterThan(30 + 10);
    expect(points.every(([, , z]) => z === 0)).toBe(true);
    const reach = referenceReach_mm(kind, 30, foot_mm);
    expect(reach.out_mm).toBeCloseTo(Math.max(...xs), 9);
    expect(reach.top_mm).toBeCloseTo(Math.max(...ys), 9);
  }
});
