/**
 * Drawings in true size as SVG: the outline of the form, and its outside laid flat. One unit of the viewBox is
 * one millimetre of wood, and width and height say so; printed without scaling they can be laid on the work.
 *
 * Laid flat, a surface of revolution keeps its lengths in two directions: along the outline (up) and round the
 * axis (across, each level as wide as its own circumference). On a cylinder that is the sheet that wraps it.
 */
import { layersAsSlots } from '../blank/bands.ts';
import { slotsOf } from '../blank/slots.ts';
import { timberColour } from '../design/colors.ts';
import type { Design, Form } from '../design/document.ts';
import { sectionGeometry } from '../design/section.ts';
import { flattenOutline, isSmooth, outlineSegment, segmentCount } from '../geometry/outline.ts';
import { INK } from './drawing/ink.ts';
import { bandOutlines, outsideLength_mm } from './drawing/piece.ts';

/** Around the drawing, mm. */
const MARGIN_MM = 5;
const TURN = 2 * Math.PI;

/** The turned outside laid flat, strips in cutting order so that the last cut wins; null without a form. */
export function unrolledMapSvg(design: Design): string | null {
  const { form } = design;
  if (!form) return null;
  const profile = flattenOutline(form.outline, undefined, form.loop);
  const length_mm = outsideLength_mm(profile);
  const outside = outsidePoints(profile);
  const widest_mm = TURN * Math.max(...outside.map(({ r_mm }) => r_mm));
  const faces = sectionGeometry(design.blank.section).faceAzimuths_deg.length || 4;
  const left_rad = -Math.PI / faces;
  const x = (azimuth_rad: number, r_mm: number) =>
    MARGIN_MM + widest_mm / 2 + (azimuth_rad - left_rad - Math.PI) * r_mm;
  const y = (along_mm: number) => MARGIN_MM + length_mm - along_mm;

  const edge = (azimuth_rad: number) =>
    outside.map(({ along_mm, r_mm }) => `${n(x(azimuth_rad, r_mm))} ${n(y(along_mm))}`);
  const sheet = `M${[...edge(left_rad), ...edge(left_rad + TURN).reverse()].join('L')}Z`;
  const window = { from_rad: left_rad, to_rad: left_rad + TURN };
  const bands = slotsOf(design).map((slot) => {
    const layers = layersAsSlots(slot).map((layer) => {
      const d = bandOutlines(layer, profile, window)
        .map((points) => points.map((p) => `${n(x(p.azimuth_rad, p.r_mm))} ${n(y(p.along_mm))}`).join('L'))
        .map((points) => `M${points}Z`)
        .join('');
      return `<path d="${d}" fill="${timberColour(design, layer.layers[0].timber)}"/>`;
    });
    return `<g id="${slot.id}">${layers.join('')}</g>`;
  });
  const body = [
    `<path id="body" d="${sheet}" fill="${timberColour(design, design.blank.timber)}"/>`,
    ...bands,
    `<path d="${sheet}" fill="none" stroke="${INK}" stroke-width="0.2"/>`,
  ];
  const about =
    'The outside laid flat in true size: along the outline up, each level its own circumference across.';
  return document(`${design.name}: unrolled map`, about, widest_mm, length_mm, body);
}

/** The section of the form through the axis, both sides, exact curves; null without a form. Drilled holes are left out. */
export function outlineSvg(design: Design): string | null {
  const { form } = design;
  if (!form) return null;
  const { z_mm, r_mm } = flattenOutline(form.outline, undefined, form.loop);
  const low_mm = Math.min(...z_mm);
  const high_mm = Math.max(...z_mm);
  const widest_mm = Math.max(...r_mm);
  const axis = MARGIN_MM + widest_mm;
  const d = (side: 1 | -1) => curve(form, ([z, r]) => `${n(axis + side * r)} ${n(MARGIN_MM + high_mm - z)}`);
  const bottom = MARGIN_MM + high_mm - low_mm;
  const body = [
    `<path id="outline" d="${d(1)}${d(-1)}" fill="none" stroke="${INK}" stroke-width="0.2"/>`,
    `<path id="axis" d="M${n(axis)} ${n(MARGIN_MM - 3)}V${n(bottom + 3)}" fill="none" stroke="${INK}" stroke-width="0.15" stroke-dasharray="5 1 0.6 1"/>`,
  ];
  const about = 'The section through the axis in true size, foot at the bottom.';
  return document(`${design.name}: outline`, about, 2 * widest_mm, high_mm - low_mm, body);
}

function curve({ outline, loop = false }: Form, at: (point: readonly [number, number]) => string): string {
  let d = `M${at([outline[0].z_mm, outline[0].r_mm])}`;
  for (let i = 0; i < segmentCount(outline, loop); i++) {
    const next = (i + 1) % outline.length;
    const straight = !isSmooth(outline, i, loop) && !isSmooth(outline, next, loop);
    const [, b, c, e] = outlineSegment(outline, i, loop);
    d += straight ? `L${at(e)}` : `C${at(b)} ${at(c)} ${at(e)}`;
  }
  return `${d}Z`;
}

interface OutsidePoint {
  readonly along_mm: number;
  readonly r_mm: number;
}

function outsidePoints(profile: ReturnType<typeof flattenOutline>): OutsidePoint[] {
  const points: OutsidePoint[] = [];
  let along_mm = 0;
  for (let i = profile.outsideStart; i <= profile.outsideEnd; i++) {
    if (i > profile.outsideStart)
      along_mm += Math.hypot(profile.z_mm[i] - profile.z_mm[i - 1], profile.r_mm[i] - profile.r_mm[i - 1]);
    points.push({ along_mm, r_mm: profile.r_mm[i] });
  }
  return points;
}

function document(
  title: string,
  about: string,
  inner_w: number,
  inner_h: number,
  body: readonly string[],
): string {
  const width = n(inner_w + 2 * MARGIN_MM);
  const height = n(inner_h + 2 * MARGIN_MM);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}">`,
    `<title>${escaped(title)}</title>`,
    `<desc>${escaped(about)}</desc>`,
    ...body,
    '</svg>',
    '',
  ].join('\n');
}

/** Thousandths of a millimetre. */
function n(value: number): string {
  return String(Math.round(value * 1000) / 1000 + 0);
}

function escaped(text: string): string {
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
