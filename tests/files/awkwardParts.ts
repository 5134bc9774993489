/**
 * Parts that try an exporter: a block with crossing slots as the boolean library makes it, a round with thin
 * facets, a body that touches itself along an edge, slivers, and parts so thin that rounding eats them.
 */
import type { Part } from '../../src/blank/parts.ts';
import { box, fromManifold, joined, manifoldLibrary, part } from './solids.ts';

export const LOOKS = (timber: string) => ({
  name: { 'black-walnut': 'Black walnut', 'sugar-maple': 'Hard (sugar) maple' }[timber] ?? timber,
  srgb: timber === 'black-walnut' ? '#826854' : '#dabc9c',
});

/** A turned cylinder of radius 30, 120 long, with two crossing slabs at ±50° as layered strips. */
export async function turnedCylinder(): Promise<Part[]> {
  const { Manifold } = await manifoldLibrary();
  const whole = Manifold.cylinder(120, 30, 30, 96);
  const slab = (turn: number, offset: number, thickness: number) =>
    Manifold.cube([200, 200, thickness], true)
      .translate([0, 0, offset])
      .rotate([turn, 0, 0])
      .translate([0, 0, 60]);
  const second = [slab(-50, -0.5, 1), slab(-50, 0.5, 1)].map((layer) => whole.intersect(layer));
  const first = whole.intersect(slab(50, 0, 2)).subtract(slab(-50, 0, 2));
  const body = whole.subtract(slab(50, 0, 2)).subtract(slab(-50, 0, 2));
  return [
    fromManifold('body', body),
    fromManifold('S1.1', first),
    fromManifold('S1.2/1', second[0]),
    fromManifold('S1.2/2', second[1]),
  ];
}

/** Two cubes of 10 mm that touch along an edge, as one body. */
export function touchingBody(): Part {
  const { positions, triangles } = joined(box([0, 0, 0], [10, 10, 10]), box([10, 10, 0], [20, 20, 10]));
  return part('body', positions, triangles);
}

/**
 * A cube of 100 mm whose top is cut into slivers: corners on the edge of a face that single precision cannot
 * tell from the straight line, and one vertex pair 1e-9 mm apart.
 */
export function sliverCube(): Part {
  const { positions, triangles } = box([0, 0, 0], [100, 100, 100]);
  // Edge 4–5 (y = 0, z = 100) takes four more vertices; the faces on both sides are fanned out to them.
  const onEdge = [100 / 3, 100 / 3 + 1e-9, 200 / 3, 99.9999999];
  const first = positions.length / 3;
  for (const x of onEdge) positions.push(x, 0, 100);
  const chain = [4, first, first + 1, first + 2, first + 3, 5];
  const fanned: number[] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const corners = triangles.slice(t, t + 3);
    const side = corners.findIndex((from, k) => {
      const to = corners[(k + 1) % 3];
      return (from === 4 && to === 5) || (from === 5 && to === 4);
    });
    if (side < 0) {
      fanned.push(...corners);
      continue;
    }
    const from = corners[side];
    const apex = corners[(side + 2) % 3];
    const along = from === 4 ? chain : chain.toReversed();
    if (from === 4)
      // One side: slivers of three corners on the edge, then the plain triangle.
      for (let k = 1; k + 1 < along.length; k++) fanned.push(along[0], along[k], along[k + 1]);
    if (from === 4) fanned.push(along[0], along[along.length - 1], apex);
    else for (let k = 0; k + 1 < along.length; k++) fanned.push(along[k], along[k + 1], apex);
  }
  return part('body', positions, fanned);
}

/** A shaving one ten-millionth of a millimetre thick: nothing is left of it in single precision. */
export function shaving(): Part {
  const { positions, triangles } = box([50, 50, 50], [60, 60, 50.0000001]);
  return part('S1.1', positions, triangles);
}
