/**
 * Where the camera of a picture stands, and its tiles. Checked by three's own cameras: they project every point, and the
 * picture must hold all of them and be as full as its margin lets it.
 */
import { OrthographicCamera, PerspectiveCamera, Vector3 } from 'three';
import { expect, test } from 'vitest';
import { framingOf } from '../../src/stage/framing.ts';
import { tilesOf, uprightStraight } from '../../src/stage/pixels.ts';
import { sweptPoints } from '../../src/stage/reach.ts';
import { seededRandom } from '../fixtures/random.ts';
import { SEED } from '../soak/counts.ts';

const UP = new Vector3(0, 1, 0);

function cloud(random: ReturnType<typeof seededRandom>): Float64Array {
  const [w, h, d] = [random.between(5, 200), random.between(5, 400), random.between(5, 200)];
  return Float64Array.from({ length: 3 * 40 }, (_, i) => random.between(-0.5, 1) * [w, h, d][i % 3]);
}

function extentOf(points: Float64Array, project: (point: Vector3) => Vector3): [wide: number, tall: number] {
  let [wide, tall] = [0, 0];
  for (let i = 0; i < points.length; i += 3) {
    const { x, y, z } = project(new Vector3(points[i], points[i + 1], points[i + 2]));
    expect(z).toBeLessThan(1);
    wide = Math.max(wide, Math.abs(x));
    tall = Math.max(tall, Math.abs(y));
  }
  return [wide, tall];
}

test('every point is in the picture, and the picture is full but for its margin', () => {
  console.log(`framing: seed ${SEED}`);
  const random = seededRandom(SEED);
  for (let round = 0; round < 200; round++) {
    const points = cloud(random);
    const aspect = random.between(0.3, 3);
    const margin = random.between(1, 1.5);
    const elevation = random.between(-1.5, 1.5);
    const toward = new Vector3().setFromSphericalCoords(1, Math.PI / 2 - elevation, random.between(0, 6.28));
    const tangent = Math.tan(random.between(0.1, 0.5));
    const lensOf = { tangent, aspect, margin };
    const framing = framingOf(points, toward, UP, { parallel: false, ...lensOf });

    const lens = new PerspectiveCamera((2 * Math.atan(tangent) * 180) / Math.PI, aspect, 0.01, 1e6);
    lens.position.copy(framing.target).addScaledVector(toward, framing.distance_mm);
    lens.lookAt(framing.target);
    lens.updateMatrixWorld();
    const [wide, tall] = extentOf(points, (point) => point.project(lens));
    expect(Math.max(wide, tall)).toBeLessThanOrEqual(1 / margin + 1e-9);
    expect(Math.max(wide, tall)).toBeGreaterThan(1 / margin - 1e-6);

    const flat = framingOf(points, toward, UP, { parallel: true, ...lensOf });
    const half = flat.halfHeight_mm;
    const parallel = new OrthographicCamera(-half * aspect, half * aspect, half, -half, 0.01, 1e6);
    parallel.position.copy(flat.target).addScaledVector(toward, 4 * flat.reach_mm);
    parallel.lookAt(flat.target);
    parallel.updateMatrixWorld();
    const most = Math.max(...extentOf(points, (point) => point.project(parallel)));
    expect(most).toBeLessThanOrEqual(1 / margin + 1e-9);
    expect(most).toBeGreaterThan(1 / margin - 1e-6);
  }
});

test('what a piece sweeps in a turn holds it at every angle', () => {
  const random = seededRandom(SEED + 1);
  const points = cloud(random);
  const toward = new Vector3(1, 0.4, 0.2).normalize();
  const framing = framingOf(sweptPoints(points), toward, UP, {
    parallel: false,
    tangent: 0.2,
    aspect: 1,
    margin: 1,
  });
  for (let turn = 0; turn < 6.28; turn += 0.05) {
    const lens = new PerspectiveCamera((2 * Math.atan(0.2) * 180) / Math.PI, 1, 0.01, 1e6);
    const middle = framing.target.clone().applyAxisAngle(UP, turn);
    lens.position.copy(middle).addScaledVector(toward.clone().applyAxisAngle(UP, turn), framing.distance_mm);
    lens.lookAt(middle);
    lens.updateMatrixWorld();
    // Heights are taken together in steps of half a millimetre.
    expect(Math.max(...extentOf(points, (point) => point.project(lens)))).toBeLessThan(1.01);
  }
});

test('tiles cover a picture once', () => {
  for (const [width, height, side] of [
    [1, 1, 2],
    [64, 64, 64],
    [65, 63, 64],
    [4096, 2304, 512],
    [419, 387, 62],
  ]) {
    const covered = new Uint8Array(width * height);
    for (const tile of tilesOf(width, height, side)) {
      expect((tile.x % 2) + (tile.y % 2)).toBe(0);
      expect(Math.max(tile.width, tile.height)).toBeLessThanOrEqual(side);
      for (let y = tile.y; y < tile.y + tile.height; y++)
        for (let x = tile.x; x < tile.x + tile.width; x++) covered[y * width + x]++;
    }
    expect(covered.every((times) => times === 1)).toBe(true);
  }
  expect(() => tilesOf(10, 10, 3)).toThrow('a tile of 3 px');
});

test('a covered share of a pixel keeps its colour, and composes as it was drawn', () => {
  // Drawn on empty ground: colour times cover, as blending with (one, one minus alpha) leaves it (Porter and Duff 1984,
  // "Compositing digital images": premultiplied colour).
  const colours = [
    [220, 180, 120],
    [40, 30, 20],
    [255, 255, 255],
  ];
  for (const colour of colours)
    for (const alpha of [0, 64, 128, 191, 255]) {
      const drawn = colour.map((value) => Math.round((value * alpha) / 255));
      const { data } = uprightStraight(Uint8Array.of(...drawn, alpha, 1, 2, 3, 255), 1, 2);
      // Rows from the top now.
      expect(Array.from(data.slice(0, 4))).toEqual([1, 2, 3, 255]);
      const straight = Array.from(data.slice(4));
      expect(straight[3]).toBe(alpha);
      if (alpha === 0) continue;
      for (let j = 0; j < 3; j++) {
        expect(Math.abs(straight[j] - colour[j])).toBeLessThanOrEqual(255 / alpha);
        // Over white: the same as adding what the ground shows through.
        const over = (straight[j] * alpha) / 255 + 255 - alpha;
        expect(Math.abs(over - (drawn[j] + 255 - alpha))).toBeLessThanOrEqual(0.51);
      }
    }
});
