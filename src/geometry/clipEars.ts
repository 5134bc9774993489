/**
 * Plain ear clipping that drops no vertex; holes are bridged first. Slow, for the few faces with sides so
 * close together that earcut skips one. Corner coordinates flat; triples of corner indices.
 */
export function clipEars(flat: number[], holeStarts: number[]): number[] {
  const total = flat.length / 2;
  const starts = [0, ...holeStarts, total];
  let ring = Array.from({ length: starts[1] }, (_, i) => i);
  const holes = holeStarts.map((start, h) =>
    Array.from({ length: starts[h + 2] - start }, (_, i) => start + i),
  );
  holes.sort((a, b) => Math.max(...b.map((i) => flat[2 * i])) - Math.max(...a.map((i) => flat[2 * i])));
  for (const hole of holes) ring = bridged(flat, ring, hole);
  const out: number[] = [];
  while (ring.length > 3) {
    let best = -1;
    let bestScore = -Infinity;
    for (let i = 0; i < ring.length; i++) {
      const score = earScore(flat, ring, i);
      if (score > bestScore) {
        bestScore = score;
        best = i;
      }
    }
    const n = ring.length;
    out.push(ring[(best + n - 1) % n], ring[best], ring[(best + 1) % n]);
    ring.splice(best, 1);
  }
  out.push(ring[0], ring[1], ring[2]);
  return out;
}

/** Quality of the ear at i: its area over its longest side squared, −1 − overlap when it is none. */
function earScore(flat: number[], ring: number[], i: number): number {
  const n = ring.length;
  const a = ring[(i + n - 1) % n];
  const b = ring[i];
  const c = ring[(i + 1) % n];
  const area = turnOf(flat, a, b, c);
  const longest = Math.max(lengthSquared(flat, a, b), lengthSquared(flat, b, c), lengthSquared(flat, c, a));
  const quality = longest > 0 ? area / longest : 0;
  if (quality <= 0) return quality - 1;
  for (const v of ring) {
    if (v === a || v === b || v === c) continue;
    if (turnOf(flat, a, b, v) > 0 && turnOf(flat, b, c, v) > 0 && turnOf(flat, c, a, v) > 0) return -0.5;
  }
  return quality;
}

function turnOf(flat: number[], a: number, b: number, c: number): number {
  return (
    (flat[2 * b] - flat[2 * a]) * (flat[2 * c + 1] - flat[2 * b + 1]) -
    (flat[2 * b + 1] - flat[2 * a + 1]) * (flat[2 * c] - flat[2 * b])
  );
}

function lengthSquared(flat: number[], a: number, b: number): number {
  return (flat[2 * a] - flat[2 * b]) ** 2 + (flat[2 * a + 1] - flat[2 * b + 1]) ** 2;
}

/** The ring with a hole joined to it by the shortest bridge that crosses nothing. */
function bridged(flat: number[], ring: number[], hole: number[]): number[] {
  let best = { distance: Infinity, i: 0, j: 0 };
  for (let i = 0; i < ring.length; i++)
    for (let j = 0; j < hole.length; j++) {
      const distance = lengthSquared(flat, ring[i], hole[j]);
      if (distance >= best.distance) continue;
      if (!crossesAny(flat, ring[i], hole[j], ring) && !crossesAny(flat, ring[i], hole[j], hole))
        best = { distance, i, j };
    }
  const turned = [...hole.slice(best.j), ...hole.slice(0, best.j + 1)];
  return [...ring.slice(0, best.i + 1), ...turned, ...ring.slice(best.i)];
}

function crossesAny(flat: number[], a: number, b: number, loop: number[]): boolean {
  for (let i = 0; i < loop.length; i++) {
    const c = loop[i];
    const d = loop[(i + 1) % loop.length];
    if (c === a || c === b || d === a || d === b) continue;
    if (
      turnOf(flat, a, b, c) * turnOf(flat, a, b, d) < 0 &&
      turnOf(flat, c, d, a) * turnOf(flat, c, d, b) < 0
    )
      return true;
  }
  return false;
}
