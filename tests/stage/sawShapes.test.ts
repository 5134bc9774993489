/** The saw's solids: every face is wound counter-clockwise seen from outside, whichever hand its axes have (right-hand rule). */
import { Vector3 } from 'three';
import { expect, test } from 'vitest';
import { box } from '../../src/stage/sawShapes.ts';
import type { Vec3 } from '../../src/geometry/vector.ts';

const A: Vec3 = [0.6, 0.8, 0];
const B: Vec3 = [-0.8, 0.6, 0];
const UP: Vec3 = [0, 0, 1];
const DOWN: Vec3 = [0, 0, -1];

test.each([
  ['right', A, B, UP],
  ['left', A, B, DOWN],
  ['left', B, A, UP],
] as const)('a box on %s-handed axes looks outward on all sides', (_hand, a, b, c) => {
  const { positions, normals, indices } = box([10, -4, 7], a, b, c, [3, 5, 2]);
  const corner = (i: number) => new Vector3().fromArray(positions, 3 * i);
  const middle = Array.from({ length: positions.length / 3 }, (_, i) => corner(i))
    .reduce((sum, at) => sum.add(at), new Vector3())
    .divideScalar(positions.length / 3);
  for (let t = 0; t < indices.length; t += 3) {
    const [p, q, r] = [0, 1, 2].map((k) => corner(indices[t + k]));
    const wound = q.clone().sub(p).cross(r.clone().sub(p)).normalize();
    expect(wound.dot(p.clone().sub(middle))).toBeGreaterThan(1);
    expect(wound.dot(new Vector3().fromArray(normals, 3 * indices[t]))).toBeCloseTo(1, 6);
  }
});
