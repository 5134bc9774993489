/**
 * Gathers triangles that lie side by side on the paper into islands and lays the islands out in a square picture, as
 * large as they will go, with room between them.
 */
import { MaxRectsPacker } from 'maxrects-packer';
import type { Placed } from './surfaces.ts';

/** Corners on the paper that are nearer than this are one, mm. */
const SAME_MM = 2e-3;

export interface Atlas {
  /** For each corner of each triangle its number on the paper: one number, one place of one island. */
  readonly places: Uint32Array;
  /** x, y of each place in the picture, pixels from the upper left. */
  readonly place_px: Float64Array;
  readonly texelsPerMm: number;
  readonly islands: number;
}

interface Island {
  readonly places: number[];
  readonly low: readonly [number, number];
  readonly size: readonly [number, number];
}

/** `room_px`: at least so much between an island and the next, and half of it to the picture's border. */
export function layOut(triangles: readonly Placed[], size_px: number, room_px: number): Atlas {
  const { places, paper_mm } = placesOf(triangles);
  const islands = islandsOf(places, paper_mm);
  const area = islands.reduce((sum, { size }) => sum + size[0] * size[1], 0);
  const longest = islands.reduce((most, { size }) => Math.max(most, ...size), 0);
  let scale = 0;
  let boxes: readonly Box[] = [];
  let low = 0;
  let high = Math.min(size_px / Math.sqrt(area), size_px / longest);
  // Halving: after 14 rounds the scale is within a thousandth of the largest that this packing allows.
  for (let round = 0; round < 14; round++) {
    const tried = round === 0 ? high : (low + high) / 2;
    const packed = pack(islands, tried, size_px, room_px);
    if (packed) {
      [low, scale, boxes] = [tried, tried, packed];
      if (round === 0) break;
    } else high = tried;
  }
  if (boxes.length === 0) throw new Error(`${islands.length} pieces of skin find no room in ${size_px} px`);
  const place_px = new Float64Array(paper_mm.length);
  boxes.forEach((box, i) => {
    const { places: own, low: from, size } = islands[i];
    const turned = box.rot;
    for (const place of own) {
      const u = (paper_mm[2 * place] - from[0]) * scale;
      const v = (paper_mm[2 * place + 1] - from[1]) * scale;
      place_px[2 * place] = box.x + room_px / 2 + (turned ? size[1] * scale - v : u);
      place_px[2 * place + 1] = box.y + room_px / 2 + (turned ? u : v);
    }
  });
  return { places, place_px, texelsPerMm: scale, islands: islands.length };
}

function placesOf(triangles: readonly Placed[]): { places: Uint32Array; paper_mm: number[] } {
  const places = new Uint32Array(3 * triangles.length);
  const paper_mm: number[] = [];
  const known = new Map<string, number>();
  triangles.forEach(({ chart, laid }, t) => {
    for (let k = 0; k < 3; k++) {
      const u = laid[2 * k];
      const v = laid[2 * k + 1];
      const key = `${chart},${Math.round(u / SAME_MM)},${Math.round(v / SAME_MM)}`;
      let place = known.get(key);
      if (place === undefined) {
        place = paper_mm.length / 2;
        paper_mm.push(u, v);
        known.set(key, place);
      }
      places[3 * t + k] = place;
    }
  });
  return { places, paper_mm };
}

function islandsOf(places: Uint32Array, paper_mm: readonly number[]): Island[] {
  const parent = Uint32Array.from({ length: paper_mm.length / 2 }, (_, i) => i);
  const rootOf = (place: number): number => {
    let root = place;
    while (parent[root] !== root) root = parent[root] = parent[parent[root]];
    return root;
  };
  for (let t = 0; t < places.length; t += 3) {
    parent[rootOf(places[t])] = rootOf(places[t + 1]);
    parent[rootOf(places[t + 1])] = rootOf(places[t + 2]);
  }
  const members = new Map<number, number[]>();
  for (let place = 0; place < parent.length; place++) {
    const root = rootOf(place);
    const list = members.get(root);
    if (list) list.push(place);
    else members.set(root, [place]);
  }
  return [...members.values()].map((own) => {
    let [u0, v0, u1, v1] = [Infinity, Infinity, -Infinity, -Infinity];
    for (const place of own) {
      u0 = Math.min(u0, paper_mm[2 * place]);
      u1 = Math.max(u1, paper_mm[2 * place]);
      v0 = Math.min(v0, paper_mm[2 * place + 1]);
      v1 = Math.max(v1, paper_mm[2 * place + 1]);
    }
    return { places: own, low: [u0, v0], size: [u1 - u0, v1 - v0] };
  });
}

interface Box {
  readonly width: number;
  readonly height: number;
  readonly x: number;
  readonly y: number;
  /** The packer has turned it by a quarter; width and height stay as they were given. */
  readonly rot: boolean;
}

/** The islands' boxes in one square, or null when they do not fit at this scale. */
function pack(
  islands: readonly Island[],
  scale: number,
  size_px: number,
  room_px: number,
): readonly Box[] | null {
  const boxes = islands.map(({ size }): Box => ({
    width: Math.ceil(size[0] * scale) + room_px,
    height: Math.ceil(size[1] * scale) + room_px,
    x: 0,
    y: 0,
    rot: false,
  }));
  if (boxes.some(({ width, height }) => width > size_px || height > size_px)) return null;
  const packer = new MaxRectsPacker<Box>(size_px, size_px, 0, {
    smart: false,
    pot: false,
    square: false,
    allowRotation: true,
  });
  packer.addArray([...boxes]);
  return packer.bins.length === 1 ? boxes : null;
}
