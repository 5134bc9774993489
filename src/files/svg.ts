/**
 * Drawings in true size as SVG: the outline of the form, and its outside laid flat. One unit of the viewBox is
 * one millimetre of wood, and width and height say so; printed without scaling they can be laid on the work.
 *
 * Laid flat, a surface of revolution keeps its lengths in two directions: along the outline (up) and round the
 * axis (across, each level as wide as its own circumference). On a cylinder that is the sheet that wraps it.
 */
import { layersAsSlots } from '../blank/bands.ts';
import { holeCylinder, outsideRadius_mm } from '../blank/holes.ts';
import { alongOf, outsideLine } from '../blank/outsideLine.ts';
import { slotsOf } from '../blank/slots.ts';
import { timberColour } from '../design/colors.ts';
import type { Design, Form, Hole } from '../design/document.ts';
import { sectionGeometry } from '../design/section.ts';
import { flattenOutline, isSmooth, outlineSegment, segmentCount, type Profile } from '../geometry/outline.ts';
import { DARK, mouthsOf, type MouthPoint } from './drawing/holes.ts';
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
  const holes = mouthPaths(form, profile, left_rad, (azimuth_rad, r_mm, along_mm) => [
    x(azimuth_rad, r_mm),
    y(along_mm),
  ]);
  const body = [
    `<path id="body" d="${sheet}" fill="${timberColour(design, design.blank.timber)}"/>`,
    ...bands,
    ...(holes.length > 0
      ? [`<g id="holes" fill="${DARK}" stroke="${INK}" stroke-width="0.2">${holes.join('')}</g>`]
      : []),
    `<path d="${sheet}" fill="none" stroke="${INK}" stroke-width="0.2"/>`,
  ];
  const about =
    'The outside laid flat in true size: along the outline up, each level its own circumference across.';
  return document(`${design.name}: unrolled map`, about, widest_mm, length_mm, body);
}

/** Where drilled holes open the outside; of one that an edge of the sheet goes through a part is at either edge. */
function mouthPaths(
  form: Form,
  profile: Profile,
  left_rad: number,
  at: (azimuth_rad: number, r_mm: number, along_mm: number) => readonly [number, number],
): string[] {
  const line = outsideLine(profile);
  const right_rad = left_rad + TURN;
  return (form.holes ?? []).flatMap((hole, i) => {
    const loops = mouthsOf(holeCylinder(hole, form, profile), profile).flatMap((mouth) => {
      const first = mouth[0].azimuth_rad;
      // Azimuths of one mouth lie together.
      const whole = mouth.map((p) => ({
        ...p,
        azimuth_rad: p.azimuth_rad - TURN * Math.round((p.azimuth_rad - first) / TURN),
      }));
      const turns = Math.floor((first - left_rad) / TURN);
      return [turns - 1, turns, turns + 1]
        .map((turn) => whole.map((p) => ({ ...p, azimuth_rad: p.azimuth_rad - TURN * turn })))
        .map((loop) => keptSide(keptSide(loop, left_rad, 1), right_rad, -1))
        .filter((loop) => loop.length > 2);
    });
    if (loops.length === 0) return [];
    const place = ({ azimuth_rad, z_mm, r_mm }: MouthPoint) => {
      const [px, py] = at(azimuth_rad, r_mm, alongOf(line, z_mm, r_mm));
      return `${n(px)} ${n(py)}`;
    };
    return [
      `<path id="hole-${i + 1}" d="${loops.map((loop) => `M${loop.map(place).join('L')}Z`).join('')}"/>`,
    ];
  });
}

/** The part of a closed loop that lies above (`side` 1) or below (−1) an azimuth. */
function keptSide(loop: readonly MouthPoint[], edge_rad: number, side: 1 | -1): MouthPoint[] {
  return loop.flatMap((p, i): MouthPoint[] => {
    const q = loop[(i + 1) % loop.length];
    const [from, to] = [side * (p.azimuth_rad - edge_rad), side * (q.azimuth_rad - edge_rad)];
    const kept = from >= 0 ? [p] : [];
    if (from >= 0 === to >= 0) return kept;
    const t = from / (from - to);
    return [
      ...kept,
      {
        azimuth_rad: edge_rad,
        z_mm: p.z_mm + t * (q.z_mm - p.z_mm),
        r_mm: p.r_mm + t * (q.r_mm - p.r_mm),
      },
    ];
  });
}

/** The section of the form through the axis, both sides, exact curves, drilled holes dashed; null without a form. */
export function outlineSvg(design: Design): string | null {
  const { form } = design;
  if (!form) return null;
  const profile = flattenOutline(form.outline, undefined, form.loop);
  const { z_mm, r_mm } = profile;
  const low_mm = Math.min(...z_mm);
  const high_mm = Math.max(...z_mm);
  const widest_mm = Math.max(...r_mm);
  const axis = MARGIN_MM + widest_mm;
  const d = (side: 1 | -1) => curve(form, ([z, r]) => `${n(axis + side * r)} ${n(MARGIN_MM + high_mm - z)}`);
  const bottom = MARGIN_MM + high_mm - low_mm;
  const holes = (form.holes ?? []).map((hole, i) => {
    const [[left, low], [right, high]] = holeInPlane(hole, form, profile, [low_mm, high_mm]);
    return (
      `<path id="hole-${i + 1}" d="M${n(axis + left)} ${n(MARGIN_MM + high_mm - high)}H${n(axis + right)}` +
      `V${n(MARGIN_MM + high_mm - low)}H${n(axis + left)}Z" fill="none" stroke="${INK}" stroke-width="0.15" stroke-dasharray="1.6 0.8"/>`
    );
  });
  const body = [
    ...holes,
    `<path id="outline" d="${d(1)}${d(-1)}" fill="none" stroke="${INK}" stroke-width="0.2"/>`,
    `<path id="axis" d="M${n(axis)} ${n(MARGIN_MM - 3)}V${n(bottom + 3)}" fill="none" stroke="${INK}" stroke-width="0.15" stroke-dasharray="5 1 0.6 1"/>`,
  ];
  const about =
    'The section through the axis in true size, foot at the bottom.' +
    (holes.length > 0 ? ' Drilled holes are dashed, turned into the plane of the drawing.' : '');
  return document(`${design.name}: outline`, about, 2 * widest_mm, high_mm - low_mm, body);
}

/** The walls and the bottom of a hole that is turned into the plane of the section: two corners (across, height), mm. */
function holeInPlane(
  hole: Hole,
  form: Form,
  profile: Profile,
  [low_mm, high_mm]: readonly [number, number],
): [readonly [number, number], readonly [number, number]] {
  const { origin_mm, inward, radius_mm, depth_mm } = holeCylinder(hole, form, profile);
  const height_mm = origin_mm[2];
  if (hole.from === 'side') {
    const start_mm = outsideRadius_mm(profile, height_mm);
    const end_mm = start_mm - Math.min(depth_mm, 2 * start_mm);
    return [
      [end_mm, height_mm - radius_mm],
      [start_mm, height_mm + radius_mm],
    ];
  }
  const aside_mm = Math.hypot(origin_mm[0], origin_mm[1]);
  const end_mm = height_mm + inward[2] * Math.min(depth_mm, high_mm - low_mm);
  return [
    [aside_mm - radius_mm, Math.min(height_mm, end_mm)],
    [aside_mm + radius_mm, Math.max(height_mm, end_mm)],
  ];
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
