/** Dimension lines on the workpiece: length, width or diameter, and the thickest and thinnest place of a form. Lathe frame, mm. */
import { formatLength } from '../design/lengthText.ts';
import { DEG } from '../geometry/angle.ts';
import { toDrawn } from '../meshes/mesh.ts';
import type { Overlay } from './overlay.ts';
import type { OverlayLook } from './overlayLook.ts';
import type { Shape } from './shape.ts';

/**
 * `azimuth_deg`: where the camera stands, so that the lines lie beside the piece and not in front of it. In the piece's
 * own frame.
 */
export function addDimensions(overlay: Overlay, shape: Shape, azimuth_deg: number, look: OverlayLook): void {
  const { design, section, profile } = shape;
  const { unit } = design;
  const side = (azimuth_deg + 90) * DEG;
  const [c, s] = [Math.cos(side), Math.sin(side)];
  const at = (along: number, z: number): [number, number, number] => toDrawn([c * along, s * along, z]);
  const spans: { from: [number, number, number]; to: [number, number, number]; text: string }[] = [];
  let low = 0;
  let high = design.blank.length_mm;
  let wide = section.circumscribedRadius_mm;
  if (profile) {
    low = Math.min(...profile.z_mm);
    high = Math.max(...profile.z_mm);
    wide = Math.max(...profile.r_mm);
  }
  const out = wide + 10;
  spans.push({ from: at(out, low), to: at(out, high), text: formatLength(high - low, unit) });
  if (profile) {
    for (const [z, r] of girths(profile.z_mm, profile.r_mm))
      spans.push({ from: at(-r, z), to: at(r, z), text: `⌀ ${formatLength(2 * r, unit)}` });
  } else {
    const { section: drawn } = design.blank;
    const half = drawn.width_mm / 2;
    const depth = (drawn.depth_mm ?? drawn.width_mm) / 2;
    const top = design.blank.length_mm + 8;
    spans.push({
      from: toDrawn([-half, -depth - 8, top]),
      to: toDrawn([half, -depth - 8, top]),
      text: `${drawn.shape === 'round' ? '⌀ ' : ''}${formatLength(drawn.width_mm, unit)}`,
    });
    if (drawn.shape === 'rectangle')
      spans.push({
        from: toDrawn([half + 8, -depth, top]),
        to: toDrawn([half + 8, depth, top]),
        text: formatLength(2 * depth, unit),
      });
  }
  const lines: [number, number, number][] = [];
  for (const { from, to, text } of spans) {
    lines.push(from, to);
    const vertical = from[1] !== to[1];
    for (const end of [from, to]) {
      const tick: [number, number, number] = vertical ? [2.5 * c, 0, -2.5 * s] : [0, 2.5, 0];
      lines.push(
        [end[0] - tick[0], end[1] - tick[1], end[2] - tick[2]],
        [end[0] + tick[0], end[1] + tick[1], end[2] + tick[2]],
      );
    }
    // Girths are named on the side away from the height.
    const place: [number, number, number] = vertical
      ? [from[0], (from[1] + to[1]) / 2, from[2]]
      : [from[0] - 12 * c, from[1], from[2] + 12 * s];
    overlay.label(text, profile || vertical ? place : middle(from, to), look);
  }
  overlay.lines(lines, look.ink, true);
}

function middle(a: readonly number[], b: readonly number[]): [number, number, number] {
  return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2];
}

/** Widest place, and the narrowest one between two wider ones. */
function girths(z: Float64Array, r: Float64Array): [number, number][] {
  let widest = 0;
  for (let i = 1; i < r.length; i++) if (r[i] > r[widest]) widest = i;
  const found: [number, number][] = [[z[widest], r[widest]]];
  let rim = 0;
  for (let i = 1; i < z.length; i++) if (z[i] > z[rim]) rim = i;
  let waist = -1;
  for (let i = 1; i < rim; i++)
    if (r[i] > 0 && r[i] <= r[i - 1] && r[i] < r[i + 1] && (waist < 0 || r[i] < r[waist])) waist = i;
  if (waist > 0) found.push([z[waist], r[waist]]);
  return found;
}
