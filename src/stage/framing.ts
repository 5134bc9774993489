/**
 * Where a camera stands so that every point is in the picture and the picture is as full as can be. World frame: y-up, mm.
 *
 * A point with coordinates (a up, b right, c toward the eye) about the axis appears at height (a − h) / (D − c) for a camera
 * raised by h at distance D. It is inside ±t when a + tc − tD ≤ h ≤ a − tc + tD. Both hold for all points exactly when
 * D ≥ (max(a + tc) − min(a − tc)) / 2t; likewise across. The least such D, and the h in the middle, are taken. In a
 * parallel projection depth plays no part.
 */
import { Vector3 } from 'three';

export interface Framing {
  readonly target: Vector3;
  /** From the target to the eye; for a parallel projection only as far as depth needs. */
  readonly distance_mm: number;
  /** Half of what a parallel projection shows upward. */
  readonly halfHeight_mm: number;
  /** No point is farther from the target. */
  readonly reach_mm: number;
}

export interface Lens {
  /** A parallel projection. */
  readonly parallel: boolean;
  /** Tangent of half the angle of view upward. */
  readonly tangent: number;
  /** Width over height of the picture. */
  readonly aspect: number;
  /** Room around the points: 1 none, 1.1 a tenth. */
  readonly margin: number;
}

/** `points`: x, y, z of each in turn. `toward`: from the piece to the eye, length one. `upright`: what is up in the picture. */
export function framingOf(
  points: Float64Array,
  toward: Vector3,
  upright: Vector3,
  { parallel, tangent, aspect, margin }: Lens,
): Framing {
  const side = new Vector3().crossVectors(upright, toward).normalize();
  const up = new Vector3().crossVectors(toward, side);
  const t = tangent / margin;
  const tall = new Extent(t, parallel);
  const wide = new Extent(t * aspect, parallel);
  const [low, high] = [
    new Vector3(Infinity, Infinity, Infinity),
    new Vector3(-Infinity, -Infinity, -Infinity),
  ];
  const p = new Vector3();
  let nearest = -Infinity;
  for (let i = 0; i < points.length; i += 3) {
    p.set(points[i], points[i + 1], points[i + 2]);
    low.min(p);
    high.max(p);
    const c = p.dot(toward);
    nearest = Math.max(nearest, c);
    tall.add(p.dot(up), c);
    wide.add(p.dot(side), c);
  }
  const distanceFromOrigin = Math.max(tall.distance, wide.distance, nearest + 1);
  const middle = low.add(high).multiplyScalar(0.5);
  // Turned about where the middle of the piece lies in depth; the distance is taken from there.
  const depth = middle.dot(toward);
  const target = new Vector3()
    .addScaledVector(up, tall.shift)
    .addScaledVector(side, wide.shift)
    .addScaledVector(toward, depth);
  let reach = 0;
  for (let i = 0; i < points.length; i += 3)
    reach = Math.max(reach, p.set(points[i], points[i + 1], points[i + 2]).distanceTo(target));
  return {
    target,
    distance_mm: distanceFromOrigin - depth,
    halfHeight_mm: Math.max(tall.half, wide.half / aspect) * margin,
    reach_mm: reach,
  };
}

/** One direction of the picture. */
class Extent {
  private readonly t: number;
  private readonly parallel: boolean;
  private most = -Infinity;
  private least = Infinity;
  private high = -Infinity;
  private low = Infinity;

  constructor(t: number, parallel: boolean) {
    this.t = t;
    this.parallel = parallel;
  }

  add(a: number, c: number): void {
    this.most = Math.max(this.most, a + this.t * c);
    this.least = Math.min(this.least, a - this.t * c);
    this.high = Math.max(this.high, a);
    this.low = Math.min(this.low, a);
  }

  get distance(): number {
    return (this.most - this.least) / (2 * this.t);
  }

  get shift(): number {
    return this.parallel ? (this.high + this.low) / 2 : (this.most + this.least) / 2;
  }

  get half(): number {
    return (this.high - this.low) / 2;
  }
}
