/** Points that a picture must show: all that is drawn of a piece, or what it sweeps in a turn. World frame (y-up), mm. */
import { Mesh, Vector3, type Object3D } from 'three';

/** Heights nearer than this are taken together, mm. */
const STEP_MM = 0.5;
/** Places of a turn at which the swept circle is looked at; the polygon of these lies outside the circle. */
const PLACES = 48;

/** Every vertex of what is visible under an object: x, y, z in turn. */
export function pointsOf(root: Object3D, without: readonly Object3D[] = []): Float64Array {
  root.updateMatrixWorld(true);
  const drawn: Mesh[] = [];
  root.traverseVisible((object) => {
    if (without.includes(object)) return;
    if (object instanceof Mesh && 'position' in (object as Mesh).geometry.attributes)
      drawn.push(object as Mesh);
  });
  const count = drawn.reduce((sum, { geometry }) => sum + geometry.attributes.position.count, 0);
  const points = new Float64Array(3 * count);
  const p = new Vector3();
  let at = 0;
  for (const { geometry, matrixWorld } of drawn) {
    const { position } = geometry.attributes;
    for (let i = 0; i < position.count; i++) {
      p.fromBufferAttribute(position, i).applyMatrix4(matrixWorld).toArray(points, at);
      at += 3;
    }
  }
  return points;
}

/** The circles that points describe about the axis, as points outside them. */
export function sweptPoints(points: Float64Array): Float64Array {
  const widest = new Map<number, number>();
  for (let i = 0; i < points.length; i += 3) {
    const step = Math.round(points[i + 1] / STEP_MM);
    const r = Math.hypot(points[i], points[i + 2]);
    widest.set(step, Math.max(widest.get(step) ?? 0, r));
  }
  const swept = new Float64Array(3 * PLACES * widest.size);
  let at = 0;
  for (const [step, r] of widest)
    for (let i = 0; i < PLACES; i++) {
      const phi = (2 * Math.PI * i) / PLACES;
      const outside = r / Math.cos(Math.PI / PLACES);
      swept.set([outside * Math.cos(phi), step * STEP_MM, outside * Math.sin(phi)], at);
      at += 3;
    }
  return swept;
}
