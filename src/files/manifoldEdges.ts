/**
 * Makes every edge of a closed mesh belong to exactly two triangles, as the 3MF core rules ask of an object.
 *
 * A part may touch itself along an edge (two wedges of the body that meet where two slots cross): four
 * triangles share that edge. Going round such an edge the triangles alternately open and close a wedge of
 * wood; the two that bound one wedge are made neighbours, and the vertices are doubled so that each wedge has
 * its own. Positions stay what they were; frame and unit are the caller's.
 */

export interface IndexedMesh {
  /** x, y, z of each vertex. */
  readonly positions: Float64Array;
  /** Three vertex indices per triangle, counter-clockwise seen from outside. */
  readonly triangles: Uint32Array;
}

/**
 * The same closed surface with every edge shared by exactly two triangles that run through it in opposite
 * directions. Throws when the mesh is not closed or not consistently oriented.
 */
export function splitNonManifold(mesh: IndexedMesh): IndexedMesh {
  const shared = crowdedEdges(mesh);
  if (shared.length === 0) return mesh;
  const split = separateFans(mesh, shared);
  const still = crowdedEdges(split);
  return still.length === 0 ? split : separateAtMidpoints(split, still);
}

/** Half-edge i runs from triangles[i] to the next corner of its triangle. */
function nextCorner(halfEdge: number): number {
  return halfEdge % 3 === 2 ? halfEdge - 2 : halfEdge + 1;
}

/** Half-edges of each edge that more than two triangles share; checks that the mesh is closed on the way. */
function crowdedEdges(mesh: IndexedMesh): number[][] {
  const { triangles } = mesh;
  const size = mesh.positions.length / 3;
  const byEdge = new Map<number, number | number[]>();
  for (let half = 0; half < triangles.length; half++) {
    const from = triangles[half];
    const to = triangles[nextCorner(half)];
    const key = from < to ? from * size + to : to * size + from;
    const known = byEdge.get(key);
    if (known === undefined) byEdge.set(key, half);
    else if (typeof known === 'number') byEdge.set(key, [known, half]);
    else known.push(half);
  }
  const crowded: number[][] = [];
  for (const halves of byEdge.values()) {
    if (typeof halves === 'number') throw new Error('the mesh has an open edge');
    let balance = 0;
    for (const half of halves) balance += triangles[half] < triangles[nextCorner(half)] ? 1 : -1;
    if (balance !== 0) throw new Error('the triangles at an edge of the mesh do not agree which side is out');
    if (halves.length > 2) crowded.push(halves);
  }
  return crowded;
}

/** Pairs of half-edges that bound the same wedge of material, by their order round the edge. */
function wedgesAround(mesh: IndexedMesh, halves: readonly number[]): [number, number][] {
  const { positions, triangles } = mesh;
  const a = Math.min(triangles[halves[0]], triangles[nextCorner(halves[0])]) * 3;
  const b = Math.max(triangles[halves[0]], triangles[nextCorner(halves[0])]) * 3;
  const [dx, dy, dz] = unit(
    positions[b] - positions[a],
    positions[b + 1] - positions[a + 1],
    positions[b + 2] - positions[a + 2],
  );
  // Any two directions that make a right-handed frame with the edge.
  const [ex, ey, ez] = Math.abs(dz) < 0.7 ? unit(dy, -dx, 0) : unit(0, dz, -dy);
  const [fx, fy, fz] = [dy * ez - dz * ey, dz * ex - dx * ez, dx * ey - dy * ex];
  const turned = halves
    .map((half) => {
      const apex = triangles[nextCorner(nextCorner(half))] * 3;
      const px = positions[apex] - positions[a];
      const py = positions[apex + 1] - positions[a + 1];
      const pz = positions[apex + 2] - positions[a + 2];
      return {
        half,
        // Along the edge from its lower vertex the outside lies ahead, so the triangle closes a wedge.
        closes: triangles[half] * 3 === a,
        angle: Math.atan2(px * fx + py * fy + pz * fz, px * ex + py * ey + pz * ez),
      };
    })
    .sort((p, q) => p.angle - q.angle || p.half - q.half);
  const open: number[] = [];
  const pairs: [number, number][] = [];
  // Twice round: what is left open at the end of the first lap is closed at the start of the second.
  const paired = new Set<number>();
  for (const { half, closes } of [...turned, ...turned]) {
    if (paired.has(half)) continue;
    if (!closes) {
      if (!open.includes(half)) open.push(half);
      continue;
    }
    const opener = open.pop();
    if (opener === undefined) continue;
    paired.add(opener).add(half);
    pairs.push([opener, half]);
  }
  return pairs;
}

function unit(x: number, y: number, z: number): [number, number, number] {
  const length = Math.hypot(x, y, z);
  return length === 0 ? [1, 0, 0] : [x / length, y / length, z / length];
}

/** Doubles the ends of the crowded edges: one vertex per fan of triangles that are neighbours. */
function separateFans(mesh: IndexedMesh, crowded: readonly number[][]): IndexedMesh {
  const { triangles } = mesh;
  const size = mesh.positions.length / 3;
  const touched = new Uint8Array(size);
  for (const halves of crowded) touched[triangles[halves[0]]] = touched[triangles[nextCorner(halves[0])]] = 1;

  const fan = new Int32Array(triangles.length).map((_, corner) => corner);
  const find = (corner: number): number => {
    let root = corner;
    while (fan[root] !== root) root = fan[root] = fan[fan[root]];
    return root;
  };
  const join = (a: number, b: number) => {
    const [low, high] = [find(a), find(b)].sort((p, q) => p - q);
    fan[high] = low;
  };
  /** Two half-edges in opposite directions become the two sides of one edge. */
  const makeNeighbours = (one: number, other: number) => {
    join(one, nextCorner(other));
    join(nextCorner(one), other);
  };

  const inCrowd = new Set(crowded.flat());
  const waiting = new Map<number, number>();
  for (let half = 0; half < triangles.length; half++) {
    const from = triangles[half];
    const to = triangles[nextCorner(half)];
    if ((!touched[from] && !touched[to]) || inCrowd.has(half)) continue;
    const other = waiting.get(to * size + from);
    if (other === undefined) waiting.set(from * size + to, half);
    else makeNeighbours(half, other);
  }
  for (const halves of crowded)
    for (const [one, other] of wedgesAround(mesh, halves)) makeNeighbours(one, other);

  const positions = Array.from(mesh.positions);
  const split = triangles.slice();
  const firstFan = new Int32Array(size).fill(-1);
  const copyOf = new Map<number, number>();
  for (let corner = 0; corner < triangles.length; corner++) {
    const vertex = triangles[corner];
    if (!touched[vertex]) continue;
    const root = find(corner);
    if (firstFan[vertex] === -1) firstFan[vertex] = root;
    if (firstFan[vertex] === root) continue;
    let copy = copyOf.get(root);
    if (copy === undefined) {
      copy = positions.length / 3;
      copyOf.set(root, copy);
      positions.push(...mesh.positions.subarray(vertex * 3, vertex * 3 + 3));
    }
    split[corner] = copy;
  }
  return { positions: Float64Array.from(positions), triangles: split };
}

/**
 * Where both ends of a crowded edge belong to one fan each (a slit that is pinched shut between them), the
 * wedges are told apart by a vertex of their own in the middle of the edge.
 */
function separateAtMidpoints(mesh: IndexedMesh, crowded: readonly number[][]): IndexedMesh {
  const positions = Array.from(mesh.positions);
  const middleOf = new Map<number, number>();
  for (const halves of crowded) {
    const from = mesh.triangles[halves[0]] * 3;
    const to = mesh.triangles[nextCorner(halves[0])] * 3;
    for (const [one, other] of wedgesAround(mesh, halves)) {
      middleOf.set(one, positions.length / 3).set(other, positions.length / 3);
      for (let axis = 0; axis < 3; axis++)
        positions.push((mesh.positions[from + axis] + mesh.positions[to + axis]) / 2);
    }
  }
  const triangles: number[] = [];
  for (let first = 0; first < mesh.triangles.length; first += 3) {
    const polygon: number[] = [];
    for (let half = first; half < first + 3; half++) {
      polygon.push(mesh.triangles[half]);
      const middle = middleOf.get(half);
      if (middle !== undefined) polygon.push(middle);
    }
    // From a middle vertex, no triangle has its three corners on one edge.
    const apex = polygon.findIndex((vertex) => vertex >= mesh.positions.length / 3);
    const ring = apex > 0 ? [...polygon.slice(apex), ...polygon.slice(0, apex)] : polygon;
    for (let i = 1; i + 1 < ring.length; i++) triangles.push(ring[0], ring[i], ring[i + 1]);
  }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}
