/**
 * The edges of a region inside the owners that it cuts, and with them the region's new faces (carve.ts, step 3).
 *
 * An edge of the region is the line of two of its planes between its other planes. Inside an owner it runs
 * from where a new face's border ends (an "exit") to where it begins again (an "entry"); where it is cut short
 * by a third plane, it ends at a corner of the region. Whether a corner lies inside an owner follows from the
 * edges that leave it: along each, exits and entries alternate.
 */
import type { Carving } from './carving.ts';
import { separateLoops, withoutOpposites } from './loops.ts';
import type { Plane } from './plane.ts';
import { cross, dot, norm, scale, type Vec3 } from './vector.ts';

/** An edge of the region: planes p and q, direction, and the planes that cut it short (−1: none does). */
interface RegionEdge {
  readonly p: number;
  readonly q: number;
  readonly along: Vec3;
  readonly fromPlane: number;
  readonly toPlane: number;
}

/** Crossings of a region edge with the faces of one owner. */
interface Crossings {
  readonly edge: RegionEdge;
  readonly exits: number[];
  readonly entries: number[];
  /** Vertices on both planes, which an edge along the line must pass through. */
  readonly on: ReadonlySet<number>;
}

/** Makes the new faces on the region's planes. */
export function closeRegion(carving: Carving): void {
  const { complex, planes } = carving;
  const edges = regionEdges(carving);
  for (const [owner, caps] of carving.caps) {
    if (owner === carving.owner) continue;
    joinEdges(carving, owner, edges);
    for (let p = 0; p < planes.length; p++) {
      if (caps[p].length === 0) continue;
      const { normal } = planes[p];
      for (const loop of separateLoops(complex, withoutOpposites(complex.expand(caps[p])), normal))
        if (loop.length > 2) complex.addFace(loop, carving.owner, owner, normal);
    }
  }
}

function regionEdges(carving: Carving): RegionEdge[] {
  const { planes } = carving;
  const edges: RegionEdge[] = [];
  for (let p = 0; p < planes.length; p++)
    for (let q = p + 1; q < planes.length; q++) {
      const edge = regionEdge(planes, p, q, carving.tolerance_mm);
      if (edge) edges.push(edge);
    }
  return edges;
}

function regionEdge(planes: readonly Plane[], p: number, q: number, tolerance_mm: number): RegionEdge | null {
  const direction = cross(planes[p].normal, planes[q].normal);
  const length = norm(direction);
  if (length < 1e-12) return null;
  const along = scale(direction, 1 / length);
  const origin = meetingPoint(planes[p], planes[q], { normal: along, offset_mm: 0 });
  if (!origin) return null;
  let from = -Infinity;
  let to = Infinity;
  let fromPlane = -1;
  let toPlane = -1;
  for (let r = 0; r < planes.length; r++) {
    if (r === p || r === q) continue;
    const slope = dot(planes[r].normal, along);
    const height = dot(planes[r].normal, origin) - planes[r].offset_mm;
    if (Math.abs(slope) < 1e-12) {
      if (height > tolerance_mm) return null;
      continue;
    }
    const t = -height / slope;
    if (slope > 0 && t < to) {
      to = t;
      toPlane = r;
    } else if (slope < 0 && t > from) {
      from = t;
      fromPlane = r;
    }
  }
  return to - from > tolerance_mm ? { p, q, along, fromPlane, toPlane } : null;
}

function joinEdges(carving: Carving, owner: number, edges: readonly RegionEdge[]): void {
  const crossings = edges.map((edge) => crossingsOf(carving, owner, edge));
  const corners = new Map<string, number>();
  const corner = (edge: RegionEdge, third: number): number => {
    const key = cornerKey(edge, third);
    const found = corners.get(key);
    if (found !== undefined) return found;
    const { complex, planes } = carving;
    const point = meetingPoint(planes[edge.p], planes[edge.q], planes[third]);
    if (!point) throw new Error('carve: a corner of the region is nowhere');
    const v = complex.addVertex(point[0], point[1], point[2]);
    carving.placeOn(v, [edge.p, edge.q, third]);
    corners.set(key, v);
    return v;
  };
  for (const { edge, exits, entries } of crossings) {
    if (exits.length === 0 && entries.length === 0) continue;
    const position = (v: number) => carving.positionAlong(v, edge.along);
    carving.sortAlong(exits, edge.along);
    carving.sortAlong(entries, edge.along);
    const startsInside =
      exits.length === 0 || (entries.length > 0 && position(entries[0]) < position(exits[0]));
    const lacking = exits.length - entries.length;
    if (lacking < 0 || (lacking === 0 && startsInside && edge.fromPlane >= 0 && edge.toPlane >= 0))
      exits.unshift(corner(edge, needed(edge.fromPlane)));
    if (exits.length > entries.length) entries.push(corner(edge, needed(edge.toPlane)));
  }
  // Edges that no face crosses lie inside from corner to corner when one of their corners does.
  for (let changed = true; changed;) {
    changed = false;
    for (const { edge, exits, entries } of crossings) {
      if (exits.length > 0 || edge.fromPlane < 0 || edge.toPlane < 0) continue;
      if (!corners.has(cornerKey(edge, edge.fromPlane)) && !corners.has(cornerKey(edge, edge.toPlane)))
        continue;
      exits.push(corner(edge, edge.fromPlane));
      entries.push(corner(edge, edge.toPlane));
      changed = true;
    }
  }
  for (const crossing of crossings) layEdges(carving, owner, crossing);
}

function needed(plane: number): number {
  if (plane < 0) throw new Error('carve: an edge of the region has an open end and no corner there');
  return plane;
}

function cornerKey(edge: RegionEdge, third: number): string {
  return [edge.p, edge.q, third].sort((a, b) => a - b).join();
}

function crossingsOf(carving: Carving, owner: number, edge: RegionEdge): Crossings {
  const { complex } = carving;
  const { p, q } = edge;
  const exits: number[] = [];
  const entries: number[] = [];
  const on = new Set<number>();
  const both = (1 << p) | (1 << q);
  // Vertices on both planes, and how many more edges of the border end than begin there.
  const vertices: number[] = [];
  const excess: number[] = [];
  const count = (v: number, by: number) => {
    if ((carving.on(v) & both) !== both) return;
    let i = vertices.indexOf(v);
    if (i < 0) {
      i = vertices.push(v) - 1;
      excess.push(0);
    }
    excess[i] += by;
  };
  for (const half of complex.expand(carving.capEdges(owner, p))) {
    count(complex.halfFrom(half), -1);
    count(complex.halfTo(half), 1);
  }
  for (const half of complex.expand(carving.capEdges(owner, q))) {
    const a = complex.halfFrom(half);
    if ((carving.on(a) & both) === both) on.add(a);
  }
  vertices.forEach((v, i) => {
    on.add(v);
    for (let k = 0; k < excess[i]; k++) exits.push(v);
    for (let k = 0; k < -excess[i]; k++) entries.push(v);
  });
  return { edge, exits, entries, on };
}

/** Lays the edges between exits and entries into the new faces on both planes. */
function layEdges(carving: Carving, owner: number, crossings: Crossings): void {
  const { edge, exits, entries, on } = crossings;
  const position = (v: number) => carving.positionAlong(v, edge.along);
  const capP = carving.capEdges(owner, edge.p);
  const capQ = carving.capEdges(owner, edge.q);
  for (let i = 0; i < exits.length; i++) {
    const from = position(exits[i]);
    const to = position(entries[i]);
    const between: number[] = [];
    for (const v of on)
      if (v !== exits[i] && v !== entries[i] && position(v) > from && position(v) < to) between.push(v);
    carving.sortAlong(between, edge.along);
    const chain = [exits[i], ...between, entries[i]];
    for (let k = 0; k + 1 < chain.length; k++) {
      if (chain[k] === chain[k + 1]) continue;
      const half = carving.halfBetween(chain[k], chain[k + 1], -1);
      capP.push(half);
      capQ.push(half ^ 1);
    }
  }
}

/** Point on three planes, or null where they have none in common. */
function meetingPoint(a: Plane, b: Plane, c: Plane): Vec3 | null {
  const bc = cross(b.normal, c.normal);
  const determinant = dot(a.normal, bc);
  if (Math.abs(determinant) < 1e-12) return null;
  const ca = cross(c.normal, a.normal);
  const ab = cross(a.normal, b.normal);
  return [0, 1, 2].map(
    (i) => (a.offset_mm * bc[i] + b.offset_mm * ca[i] + c.offset_mm * ab[i]) / determinant,
  ) as unknown as Vec3;
}
