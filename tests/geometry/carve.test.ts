/**
 * Carving bounded regions out of plain solids, against volumes that follow from elementary geometry and
 * against closedness. (Slots of a design: tests/blank/solids*.test.ts.)
 */
import { expect, test } from 'vitest';
import { carve } from '../../src/geometry/carve.ts';
import { extractSolids } from '../../src/geometry/extract.ts';
import { latheComplex, prismComplex, VOID } from '../../src/geometry/faceComplex.ts';
import type { Plane } from '../../src/geometry/plane.ts';
import { solidFaults } from '../oracles/closed.ts';

const SQUARE = [
  [10, 10],
  [-10, 10],
  [-10, -10],
  [10, -10],
] as const;
const CUBE_MM3 = 8000;
const TOLERANCE_MM = 1e-8;

function half(normal: readonly [number, number, number], offset_mm: number): Plane {
  const length = Math.hypot(...normal);
  return {
    normal: [normal[0] / length, normal[1] / length, normal[2] / length],
    offset_mm: offset_mm / length,
  };
}

/** Volumes of what is left of the cube (first) and of the carved regions; all must be closed. */
function carvedCube(...regions: Plane[][]): number[] {
  const complex = prismComplex(SQUARE, 0, 20, 0);
  regions.forEach((planes, i) => carve(complex, planes, i + 1, TOLERANCE_MM));
  const solids = extractSolids(complex, regions.length + 1, (owner) => owner);
  for (const { positions, triangles, volume } of solids)
    expect(
      solidFaults({ name: '', positions_mm: positions, triangles, volume_mm3: volume }, CUBE_MM3),
    ).toEqual([]);
  expect(solids.reduce((sum, { volume }) => sum + volume, 0)).toBeCloseTo(CUBE_MM3, 9);
  return solids.map(({ volume }) => volume);
}

test('an octant', () => {
  const octant = [half([-1, 0, 0], 0), half([0, -1, 0], 0), half([0, 0, -1], -10)];
  expect(carvedCube(octant)[1]).toBeCloseTo(1000, 9);
});

test('eight tilted octants fill the cube, opposite ones alike (central symmetry)', () => {
  const octant = [half([-1, -2, -2], -20), half([-2, -1, 2], 20), half([-2, 2, -1], -10)];
  const all = [0, 1, 2, 3, 4, 5, 6, 7].map((k) =>
    octant.map(({ normal, offset_mm }, i) =>
      k & (1 << i) ? half([-normal[0], -normal[1], -normal[2]], -offset_mm) : { normal, offset_mm },
    ),
  );
  const volumes = carvedCube(...all);
  expect(volumes[0]).toBeCloseTo(0, 9);
  for (let k = 0; k < 4; k++) expect(volumes[1 + k]).toBeCloseTo(volumes[8 - k], 9);
});

test('a pocket from one face, and a blind hole with many sides', () => {
  const pocket = [
    half([1, 0, 0], 4),
    half([-1, 0, 0], 2),
    half([0, 1, 0], 3),
    half([0, -1, 0], 3),
    half([0, 0, -1], -15),
  ];
  expect(carvedCube(pocket)[1]).toBeCloseTo(6 * 6 * 5, 9);
  const sides = 24;
  const hole = [
    ...Array.from({ length: sides }, (_, i) => {
      const azimuth = ((i + 0.5) * 2 * Math.PI) / sides;
      return half([Math.cos(azimuth), Math.sin(azimuth), 0], 3 + Math.cos(azimuth));
    }),
    half([0, 0, -1], -8),
  ];
  // Regular polygon about a circle of radius 3: area n r² tan(π/n).
  expect(carvedCube(hole)[1]).toBeCloseTo(sides * 9 * Math.tan(Math.PI / sides) * 12, 8);
});

test('a pocket through two materials takes from both', () => {
  const lower = [half([0, 0, 1], 16)];
  const pocket = [
    half([1, 0, 0], 2),
    half([-1, 0, 0], 2),
    half([0, 1, 0], 2),
    half([0, -1, 0], 2),
    half([0, 0, -1], -11),
  ];
  const [upper, below, taken] = carvedCube(lower, pocket);
  expect(taken).toBeCloseTo(4 * 4 * 9, 9);
  expect(upper).toBeCloseTo(20 * 20 * 4 - 4 * 4 * 4, 9);
  expect(below).toBeCloseTo(20 * 20 * 16 - 4 * 4 * 5, 9);
});

// Wedge of a cylinder (base depth b from the rim, plane rising to height h there): MathWorld "Cylindrical
// Wedge", form re-derived and checked by quadrature; R = 30, b = 45, h = 20 gives 20360.5992484.
test('a wedge of a cylinder approaches the closed form as facets grow finer', () => {
  const wedge = (columns: number) => {
    const complex = latheComplex([0, 0, 40, 40], [0, 30, 30, 0], columns, 0, false);
    const slope = 20 / 45;
    carve(complex, [half([slope, 0, -1], slope * (30 - 45))], VOID, TOLERANCE_MM);
    carve(complex, [half([1, 0, 0], 30 - 45)], VOID, TOLERANCE_MM);
    return extractSolids(complex, 1, () => 0)[0].volume;
  };
  const off = (columns: number) => Math.abs(wedge(columns) / 20360.5992484 - 1);
  expect(off(512)).toBeLessThan(1e-4);
  expect(off(1024)).toBeLessThan(off(256) / 8);
});

test('a region that touches a face from outside takes nothing', () => {
  expect(carvedCube([half([-1, 0, 0], -10)])[1]).toBeCloseTo(0, 12);
  expect(carvedCube([half([-1, 0, -1], -30)])[1]).toBeCloseTo(0, 12);
});
