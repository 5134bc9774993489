/** The face that a section opens: areas from elementary geometry (a plane through a cylinder gives an ellipse, π a b). */
import { expect, test } from 'vitest';
import { sectionGeometry } from '../../src/blank/section.ts';
import { blockMesh } from '../../src/meshes/block.ts';
import { sectionCap } from '../../src/meshes/cap.ts';
import { unitPlane } from '../../src/meshes/convex.ts';
import { turnedMesh } from '../../src/meshes/turned.ts';
import type { WorkMesh } from '../../src/meshes/mesh.ts';
import { FINISHED, shapeAt } from '../../src/stage/shape.ts';
import { starterDesigns } from '../fixtures/starters.ts';

function area_mm2({ positions: p, indices }: WorkMesh): number {
  let twice = 0;
  for (let t = 0; t < indices.length; t += 3) {
    const [a, b, c] = [3 * indices[t], 3 * indices[t + 1], 3 * indices[t + 2]];
    const u = [p[b] - p[a], p[b + 1] - p[a + 1], p[b + 2] - p[a + 2]];
    const v = [p[c] - p[a], p[c + 1] - p[a + 1], p[c + 2] - p[a + 2]];
    twice += Math.hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]);
  }
  return twice / 2;
}

const profile = (...points: [number, number][]) => ({
  z_mm: Float64Array.from(points, (p) => p[0]),
  r_mm: Float64Array.from(points, (p) => p[1]),
  corner: new Uint8Array(points.length).fill(1),
});

test.each([30, 45, 60, 90])('a cylinder cut at %s° shows an ellipse', (theta_deg) => {
  const theta = (theta_deg * Math.PI) / 180;
  const mesh = turnedMesh(profile([0, 0], [0, 25], [400, 25], [400, 0]), null, 512);
  const cap = sectionCap(mesh, unitPlane([-Math.cos(theta), 0, Math.sin(theta)], Math.sin(theta) * 200));
  expect(area_mm2(cap) / (Math.PI * 25 * (25 / Math.sin(theta)))).toBeCloseTo(1, 4);
});

test('a hollow form shows the wall alone: a ring across, two strips along', () => {
  const tube = turnedMesh(profile([0, 0], [0, 30], [80, 30], [80, 20], [10, 20], [10, 0]), null, 512);
  expect(area_mm2(sectionCap(tube, unitPlane([0, 0, 1], 50))) / (Math.PI * 500)).toBeCloseTo(1, 4);
  expect(area_mm2(sectionCap(tube, unitPlane([1, 0, 0], 0))) / (60 * 80 - 40 * 70)).toBeCloseTo(1, 4);
  expect(area_mm2(sectionCap(tube, unitPlane([0, 0, 1], 5))) / (Math.PI * 900)).toBeCloseTo(1, 4);
});

test('the cap faces the wood that is taken away, and is empty where the plane misses', () => {
  const block = blockMesh(sectionGeometry({ shape: 'square', width_mm: 40 }), 100);
  const cap = sectionCap(block, unitPlane([0, 0, 2], 60));
  expect(area_mm2(cap)).toBeCloseTo(1600, 3);
  expect([...cap.normals.subarray(0, 3)]).toEqual([0, 1, -0].map((v) => v + 0));
  expect(sectionCap(block, unitPlane([0, 0, 1], 101)).indices).toHaveLength(0);
});

/** As in the lattice column: from its last two rows only half of the loop was found, and a quarter of the section was missing. */
test('two rows that single precision cannot tell apart do not break the section', () => {
  const almost = 33 + 2 ** -40;
  const form = turnedMesh(profile([0, 0], [0, 30], [90, almost], [90, 33], [90, 0]), null, 96);
  expect(area_mm2(sectionCap(form, unitPlane([1, 0, 0], 0))) / (90 * (30 + 33))).toBeCloseTo(1, 6);
  // The triangles of such rows, were they there, are passed over.
  const { positions, normals, radii, openness, indices } = form;
  const shrunk = Uint32Array.from(
    [...indices].flatMap((v, i) => (i % 3 === 0 ? [v, v, indices[i + 1]] : [])),
  );
  const shrunkToo = { positions, normals, radii, openness, indices: Uint32Array.of(...indices, ...shrunk) };
  expect(area_mm2(sectionCap(shrunkToo, unitPlane([1, 0, 0], 0))) / (90 * (30 + 33))).toBeCloseTo(1, 6);
});

test.each(starterDesigns().map((design) => [design.name, design] as const))(
  '%s: a section through the axis shows the outline on both sides of it',
  (_name, design) => {
    const { profile: swept, section } = shapeAt(design, FINISHED);
    if (!swept) throw new Error('not turned');
    const { z_mm: z, r_mm: r } = swept;
    // The shoelace formula, twice over.
    const outline = z.reduce(
      (sum, at, i) => sum + at * r[(i + 1) % r.length] - z[(i + 1) % z.length] * r[i],
      0,
    );
    const mesh = turnedMesh(swept, section, 96);
    for (const azimuth of [0, 33.7, 122, 301]) {
      const a = (azimuth * Math.PI) / 180;
      const cap = sectionCap(mesh, unitPlane([Math.cos(a), Math.sin(a), 0], 0));
      // Between two columns the facets lie inside the round by up to 1 − cos(π / 96).
      expect(area_mm2(cap) / Math.abs(outline), `${azimuth}°`).toBeGreaterThan(0.9985);
      expect(area_mm2(cap) / Math.abs(outline), `${azimuth}°`).toBeLessThan(1.00001);
    }
  },
);
