/**
 * The meshes of blocks and turned forms: closed, and as large as closed forms and an independent boolean library say.
 */
import { expect, test } from 'vitest';
import { sectionGeometry } from '../../src/blank/section.ts';
import type { SectionShape } from '../../src/design/document.ts';
import { blockMesh } from '../../src/meshes/block.ts';
import { turningProfile, type SweptProfile } from '../../src/meshes/formProfile.ts';
import { checkClosed, meshVolume_mm3 } from '../../src/meshes/mesh.ts';
import { turnedMesh } from '../../src/meshes/turned.ts';
import { manifoldLibrary } from '../oracles/manifoldOracle.ts';

const SHAPES: readonly SectionShape[] = ['square', 'rectangle', 'hexagon', 'octagon', 'round'];
const LENGTH_MM = 200;

const sectionOf = (shape: SectionShape) => sectionGeometry({ shape, width_mm: 76, depth_mm: 60 });

const profileOf = (...points: [z: number, r: number][]): SweptProfile => ({
  z_mm: Float64Array.from(points, (p) => p[0]),
  r_mm: Float64Array.from(points, (p) => p[1]),
  corner: new Uint8Array(points.length).fill(1),
});

const BELLIED = [
  { z_mm: 0, r_mm: 0 },
  { z_mm: 0, r_mm: 34 },
  { z_mm: 60, r_mm: 45, smooth: true },
  { z_mm: 120, r_mm: 20, smooth: true },
  { z_mm: 200, r_mm: 36 },
  { z_mm: 198, r_mm: 32, smooth: true },
  { z_mm: 150, r_mm: 16 },
  { z_mm: 150, r_mm: 0 },
];

test.each(SHAPES)('a %s block is closed and holds area times length', (shape) => {
  const section = sectionOf(shape);
  const block = blockMesh(section, LENGTH_MM, 512);
  expect(checkClosed(block)).toMatchObject({ closed: true, openEdges: 0 });
  // Elementary: square w², rectangle w d, hexagon (√3/2) w² and octagon 2(√2 − 1) w² across the flats, circle π r².
  const area = {
    square: 76 ** 2,
    rectangle: 76 * 60,
    hexagon: (Math.sqrt(3) / 2) * 76 ** 2,
    octagon: 2 * (Math.SQRT2 - 1) * 76 ** 2,
    round: Math.PI * 38 ** 2,
  }[shape];
  expect(Math.abs(meshVolume_mm3(block) / (area * LENGTH_MM) - 1)).toBeLessThan(
    shape === 'round' ? 3e-5 : 1e-7,
  );
});

test('cone, sphere and tube hold what the elementary formulas say', () => {
  const facets = 512;
  const short = 1 - Math.sin((2 * Math.PI) / facets) / ((2 * Math.PI) / facets);
  const cone = turnedMesh(profileOf([0, 0], [0, 30], [90, 0]), null, facets);
  const tube = turnedMesh(profileOf([0, 0], [0, 30], [80, 30], [80, 20], [10, 20], [10, 0]), null, facets);
  const sphere = turnedMesh(
    profileOf(
      ...Array.from({ length: 401 }, (_, i): [number, number] => {
        const a = (Math.PI * i) / 400;
        return [30 - 30 * Math.cos(a), i === 400 ? 0 : 30 * Math.sin(a)];
      }),
    ),
    null,
    facets,
  );
  for (const [mesh, exact] of [
    [cone, (Math.PI * 30 ** 2 * 90) / 3],
    [tube, Math.PI * (30 ** 2 * 80 - 20 ** 2 * 70)],
    [sphere, (4 / 3) * Math.PI * 30 ** 3],
  ] as const) {
    expect(checkClosed(mesh).openEdges).toBe(0);
    expect(Math.abs(meshVolume_mm3(mesh) / exact - 1)).toBeLessThan(short + 5e-5);
  }
});

test('a ring off the axis is closed and obeys Pappus', () => {
  // Pappus: volume of a bangle = area of its section times the way of its centroid.
  const ring = turnedMesh(profileOf([10, 32], [10, 38], [20, 38], [20, 32], [10, 32]), null, 512);
  expect(checkClosed(ring).openEdges).toBe(0);
  expect(Math.abs(meshVolume_mm3(ring) / (60 * 2 * Math.PI * 35) - 1)).toBeLessThan(5e-5);
});

test('normals point out of the wood and are unit vectors', () => {
  const mesh = turnedMesh(profileOf([0, 0], [0, 30], [80, 24], [80, 18], [10, 15], [10, 0]), null, 64);
  for (let t = 0; t < mesh.indices.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => 3 * mesh.indices[t + k]);
    const p = mesh.positions;
    const u = [p[b] - p[a], p[b + 1] - p[a + 1], p[b + 2] - p[a + 2]];
    const v = [p[c] - p[a], p[c + 1] - p[a + 1], p[c + 2] - p[a + 2]];
    const face = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
    for (const vertex of [a, b, c]) {
      const n = mesh.normals.subarray(vertex, vertex + 3);
      expect(Math.abs(Math.hypot(...n) - 1)).toBeLessThan(1e-6);
      expect(face[0] * n[0] + face[1] * n[1] + face[2] * n[2]).toBeGreaterThan(0);
    }
  }
});

test.each(SHAPES.filter((shape) => shape !== 'round'))(
  'a form that reaches past the flats of a %s blank: as large as manifold-3d makes it, closed',
  async (shape) => {
    const library = await manifoldLibrary();
    const section = sectionOf(shape);
    for (const [outside, inside] of [
      [0.05, 0],
      [0.4, 0],
      [1, 0],
      [1, 0.5],
    ]) {
      const profile = turningProfile({
        outline: BELLIED,
        blankLength_mm: LENGTH_MM,
        blankRadius_mm: section.circumscribedRadius_mm,
        outside,
        inside,
      });
      const facets = 256;
      const mesh = turnedMesh(profile, section, facets);
      expect(checkClosed(mesh).openEdges).toBe(0);
      const outline = library.CrossSection.ofPolygons([
        Array.from(profile.z_mm, (z, i): [number, number] => [profile.r_mm[i], z]),
      ]);
      const swung = library.Manifold.revolve(outline, facets);
      const prism = library.Manifold.extrude(
        section.corners_mm.map(([x, y]): [number, number] => [x, y]),
        LENGTH_MM,
      );
      const both = library.Manifold.intersection(swung, prism);
      const oracle = both.volume();
      for (const made of [outline, swung, prism, both]) made.delete();
      // The two facet the circle at different azimuths; what is left is that difference.
      expect(Math.abs(meshVolume_mm3(mesh) / oracle - 1)).toBeLessThan(2e-4);
    }
  },
);

test('roughing out ends in the form, and begins with the block', () => {
  const section = sectionOf('square');
  const at = (outside: number) =>
    meshVolume_mm3(
      turnedMesh(
        turningProfile({
          outline: BELLIED.slice(0, 5).concat({ z_mm: 200, r_mm: 0 }),
          blankLength_mm: LENGTH_MM,
          blankRadius_mm: section.circumscribedRadius_mm,
          outside,
          inside: 0,
        }),
        section,
      ),
    );
  const steps = [0, 0.2, 0.4, 0.6, 0.8, 0.999, 1].map(at);
  expect(Math.abs(steps[0] / (76 * 76 * LENGTH_MM) - 1)).toBeLessThan(1e-4);
  for (let i = 1; i < steps.length; i++) expect(steps[i]).toBeLessThan(steps[i - 1] + 1);
  expect(Math.abs(steps[6] / steps[5] - 1)).toBeLessThan(2e-3);
});
