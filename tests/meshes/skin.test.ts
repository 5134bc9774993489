/**
 * The skin that the wood is drawn on: closed, as large as the kernel's own solid, and laid out so that no two of its points
 * share a place in the picture. Places are compared by painting the triangles into a grid here, not by the layout's own words.
 */
import { describe, expect, it } from 'vitest';
import { wholePart } from '../../src/blank/solids.ts';
import type { Design } from '../../src/design/document.ts';
import { checkClosed, meshVolume_mm3 } from '../../src/meshes/mesh.ts';
import { ROOM_PX, skinOf, type Skin } from '../../src/meshes/skin/skin.ts';
import { shapeAt } from '../../src/stage/shape.ts';
import { decorated } from '../fixtures/decorated.ts';
import { randomDesign } from '../fixtures/designs.ts';
import { starterDesigns } from '../fixtures/starters.ts';
import { countFor, SEED } from '../soak/counts.ts';

const SIZE_PX = 512;
/** Points nearer than this are one: ends that meet a flat at a tangent are folded by as much in their own plane. */
const APART_MM = 0.05;
/** Room between islands in a picture of this size. */
const ROOM = (ROOM_PX * SIZE_PX) / 2048;

function skinned(design: Design, size_px = SIZE_PX): Skin {
  const { section, profile, holes } = shapeAt(design, 1e6);
  return skinOf({ section, length_mm: design.blank.length_mm, profile, holes }, size_px);
}

/** The island of each triangle: triangles that share a corner of the picture to a hundredth of a pixel. */
function islandsOf({ mesh: { indices }, places, size_px }: Skin): number[] {
  const parent = new Map<string, string>();
  const rootOf = (key: string): string => {
    const up = parent.get(key) ?? key;
    if (up === key) return key;
    const root = rootOf(up);
    parent.set(key, root);
    return root;
  };
  const keyOf = (v: number) =>
    [places[2 * v], places[2 * v + 1]].map((value) => Math.round(value * size_px * 100)).join();
  for (let t = 0; t < indices.length; t += 3)
    for (const k of [1, 2]) parent.set(rootOf(keyOf(indices[t])), rootOf(keyOf(indices[t + k])));
  const numbers = new Map<string, number>();
  return Array.from({ length: indices.length / 3 }, (_, t) => {
    const root = rootOf(keyOf(indices[3 * t]));
    if (!numbers.has(root)) numbers.set(root, numbers.size);
    return numbers.get(root)!;
  });
}

/**
 * Paints the triangles: the island at the middle of each pixel, −1 where none is; and how many pixels are painted twice,
 * with points of the wood that lie apart.
 */
function painted(skin: Skin): { grid: Int32Array; twice: number; outside: number; islands: number } {
  const { mesh, places, size_px } = skin;
  const islands = islandsOf(skin);
  const grid = new Int32Array(size_px * size_px).fill(-1);
  const points = new Float32Array(3 * size_px * size_px);
  let twice = 0;
  let outside = 0;
  for (let t = 0; t < mesh.indices.length; t += 3) {
    const [ax, ay, bx, by, cx, cy] = [0, 1, 2].flatMap((k) => {
      const v = mesh.indices[t + k];
      return [places[2 * v] * size_px, places[2 * v + 1] * size_px];
    });
    const doubled = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay);
    if (Math.min(ax, bx, cx, ay, by, cy) < 0 || Math.max(ax, bx, cx, ay, by, cy) > size_px) outside++;
    if (Math.abs(doubled) < 1e-9) continue;
    for (let y = Math.floor(Math.min(ay, by, cy)); y <= Math.max(ay, by, cy); y++)
      for (let x = Math.floor(Math.min(ax, bx, cx)); x <= Math.max(ax, bx, cx); x++) {
        const [px, py] = [x + 0.5, y + 0.5];
        const b = ((px - ax) * (cy - ay) - (cx - ax) * (py - ay)) / doubled;
        const c = ((bx - ax) * (py - ay) - (px - ax) * (by - ay)) / doubled;
        // Well inside: the middle of a pixel on an edge belongs to both.
        if (Math.min(b, c, 1 - b - c) < 1e-3) continue;
        const at = y * size_px + x;
        const point = [0, 1, 2].map((axis) => {
          const [pa, pb, pc] = [0, 1, 2].map((k) => mesh.positions[3 * mesh.indices[t + k] + axis]);
          return pa + b * (pb - pa) + c * (pc - pa);
        });
        if (
          grid[at] >= 0 &&
          Math.hypot(...point.map((value, axis) => value - points[3 * at + axis])) > APART_MM
        )
          twice++;
        points.set(point, 3 * at);
        grid[at] = islands[t / 3];
      }
  }
  return { grid, twice, outside, islands: new Set(islands).size };
}

/** Pixels from which another island is nearer than the room that was promised, less a pixel for each border. */
function crowded(grid: Int32Array): number {
  const reach = ROOM - 2;
  let found = 0;
  for (let y = 0; y < SIZE_PX; y++)
    for (let x = 0; x < SIZE_PX; x++) {
      const own = grid[y * SIZE_PX + x];
      if (own < 0) continue;
      for (let k = 1; k <= reach; k++) {
        const right = x + k < SIZE_PX ? grid[y * SIZE_PX + x + k] : -1;
        const below = y + k < SIZE_PX ? grid[(y + k) * SIZE_PX + x] : -1;
        if ((right >= 0 && right !== own) || (below >= 0 && below !== own)) found++;
      }
    }
  return found;
}

/** Pixels to the millimetre of each triangle, by its areas, over what the skin says; smallest and largest. */
function densities({
  mesh: { positions: p, indices },
  places,
  size_px,
  texelsPerMm,
}: Skin): [number, number] {
  let [low, high] = [Infinity, 0];
  for (let t = 0; t < indices.length; t += 3) {
    const [a, b, c] = indices.subarray(t, t + 3);
    const u = [0, 1, 2].map((k) => p[3 * b + k] - p[3 * a + k]);
    const v = [0, 1, 2].map((k) => p[3 * c + k] - p[3 * a + k]);
    const area_mm2 =
      Math.hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]) / 2;
    if (area_mm2 < 0.01) continue;
    const at = (vertex: number, k: number) => places[2 * vertex + k] * size_px;
    const area_px =
      Math.abs(
        (at(b, 0) - at(a, 0)) * (at(c, 1) - at(a, 1)) - (at(c, 0) - at(a, 0)) * (at(b, 1) - at(a, 1)),
      ) / 2;
    const density = Math.sqrt(area_px / area_mm2) / texelsPerMm;
    [low, high] = [Math.min(low, density), Math.max(high, density)];
  }
  return [low, high];
}

function expectSound(design: Design): Skin {
  const skin = skinned(design);
  expect(checkClosed(skin.mesh)).toMatchObject({ closed: true });
  const whole = wholePart(design, design.form !== null, { facets: 512 });
  // 192 facets to the turn take 1.8e-4 of a solid of revolution; the rest is the outline's own tolerance.
  expect(Math.abs(meshVolume_mm3(skin.mesh) / whole.volume_mm3 - 1)).toBeLessThan(4e-3);
  const { grid, twice, outside } = painted(skin);
  expect({ twice, outside, crowded: crowded(grid) }).toEqual({ twice: 0, outside: 0, crowded: 0 });
  for (let v = 0; v < skin.mesh.radii.length; v++) {
    const [x, y, z] = skin.mesh.normals.subarray(3 * v, 3 * v + 3);
    if (Math.abs(Math.hypot(x, y, z) - 1) > 1e-5) throw new Error(`vertex ${v} has no unit normal`);
  }
  return skin;
}

describe('the skin of a starter', () => {
  it.each(starterDesigns().map((design) => [design.name, design] as const))('%s', (_name, design) => {
    const [low, high] = densities(expectSound(design));
    expect(low).toBeGreaterThan(0.97);
    expect(high).toBeLessThan(1.5);
  });

  it.each(starterDesigns().map((design) => [design.name, design] as const))(
    '%s, as a block',
    (_name, design) => {
      expectSound({ ...design, form: null });
    },
  );
});

it('random pieces with holes, hollows, flats and loops', () => {
  const rounds = countFor('skin-layout', 4, 300);
  for (let i = 0; i < rounds; i++) {
    const seed = SEED + i;
    const design = decorated(seed, randomDesign(seed, { form: i % 2 === 0 ? 'any' : 'solid' }));
    try {
      expectSound(design);
    } catch (error) {
      throw new Error(`seed ${seed}`, { cause: error });
    }
  }
});
