/** Places that are pointed out on the turned piece: a line on its surface, a ring about a point, words. Lathe frame, mm. */
import { cross, norm, scale, add, type Vec3 } from '../geometry/vector.ts';
import { toDrawn } from '../meshes/mesh.ts';
import type { Overlay } from './overlay.ts';
import type { StageMark } from './props.ts';
import type { OverlayColours } from './sawShapes.ts';

/** Off the surface, so that the line does not sink between the facets. */
const OFF_MM = 0.4;
const RING_MM = 2.2;
const RING_POINTS = 24;
/** Between the piece and the words beside or below it. */
const WORDS_MM = 6;

/** `wide_mm`: largest radius of the piece; words stand beyond it. */
export function addMarks(
  overlay: Overlay,
  marks: readonly StageMark[],
  wide_mm: number,
  colours: OverlayColours,
): void {
  for (const { text, at, line } of marks) {
    const out = outward(at);
    const points = line ?? ringAbout(at, out);
    const raised = points.map((point) => toDrawn(add(point, scale(outward(point), OFF_MM))));
    const pairs = raised.slice(1).flatMap((point, i) => [raised[i], point]);
    overlay.lines(pairs, colours.accent);
    const to = toDrawn(at);
    if (text !== '') overlay.label(text, to, colours, { to, beside_mm: wide_mm + WORDS_MM });
  }
}

/** Words below the foot end. */
export function addCaption(overlay: Overlay, text: string, below_mm: number, colours: OverlayColours): void {
  overlay.label(text, toDrawn([0, 0, -below_mm]), colours);
}

function outward([x, y]: Vec3): Vec3 {
  const r = Math.hypot(x, y);
  return r > 0 ? [x / r, y / r, 0] : [1, 0, 0];
}

function ringAbout(at: Vec3, out: Vec3): Vec3[] {
  const side = cross(out, [0, 0, 1]);
  const wide = norm(side);
  return Array.from({ length: RING_POINTS + 1 }, (_, i) => {
    const turn = (2 * Math.PI * i) / RING_POINTS;
    const across = scale(side, (RING_MM * Math.cos(turn)) / wide);
    return add(add(at, across), [0, 0, RING_MM * Math.sin(turn)]);
  });
}
