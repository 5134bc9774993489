/**
 * Whether a part is a sound solid, judged from its triangles alone: every directed edge is matched by its
 * reverse (closed and oriented, no T-junction), no triangle names a vertex twice, every position is finite,
 * and the stated volume is the one that the triangles enclose.
 */
import type { Part } from '../../src/blank/parts.ts';

type Solid = Pick<Part, 'name' | 'positions_mm' | 'triangles' | 'volume_mm3'>;

/** Faults of a part in words, empty when it is sound. `scale_mm3` is the volume to which rounding is related. */
export function solidFaults(part: Solid, scale_mm3: number): string[] {
  const { name, positions_mm, triangles } = part;
  const vertices = positions_mm.length / 3;
  const faults: string[] = [];
  if (positions_mm.some((value) => !Number.isFinite(value))) faults.push(`${name}: a position is not finite`);
  if (triangles.some((vertex) => vertex >= vertices)) return [`${name}: a triangle names no vertex`];
  // Key of the directed edge a → b, and +1 for it, −1 for its reverse: a closed surface sums to 0 everywhere.
  const balance = new Map<number, number>();
  for (let t = 0; t < triangles.length; t += 3) {
    for (let corner = 0; corner < 3; corner++) {
      const a = triangles[t + corner];
      const b = triangles[t + ((corner + 1) % 3)];
      if (a === b) faults.push(`${name}: triangle ${t / 3} names vertex ${a} twice`);
      const key = Math.min(a, b) * vertices + Math.max(a, b);
      balance.set(key, (balance.get(key) ?? 0) + (a < b ? 1 : -1));
    }
  }
  const open = [...balance.values()].filter((sum) => sum !== 0).length;
  if (open > 0) faults.push(`${name}: ${open} open edges`);
  const enclosed = enclosedVolume(positions_mm, triangles);
  if (Math.abs(enclosed - part.volume_mm3) > 1e-12 * scale_mm3)
    faults.push(`${name}: says ${part.volume_mm3} mm³, encloses ${enclosed} mm³`);
  return faults;
}

/** Signed volume by the divergence theorem, about the first vertex, with compensated summation (Neumaier). */
export function enclosedVolume(positions: Float64Array, triangles: Uint32Array): number {
  const [ox, oy, oz] = positions;
  let sum = 0;
  let lost = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t], 3 * triangles[t + 1], 3 * triangles[t + 2]];
    const ax = positions[a] - ox;
    const ay = positions[a + 1] - oy;
    const az = positions[a + 2] - oz;
    const bx = positions[b] - ox;
    const by = positions[b + 1] - oy;
    const bz = positions[b + 2] - oz;
    const cx = positions[c] - ox;
    const cy = positions[c + 1] - oy;
    const cz = positions[c + 2] - oz;
    const term = (ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)) / 6;
    const next = sum + term;
    lost += Math.abs(sum) >= Math.abs(term) ? sum - next + term : term - next + sum;
    sum = next;
  }
  return sum + lost;
}
