/**
 * The turning template: half the outline at 1 : 1, the axis upright, foot below, with the heights between which
 * each ring runs and the diameters to size to. The piece lies left of the line; the card to hold against it, right.
 */
import { AXIS, EDGE, FAINT, HIDDEN, INK, INK_SOFT, MARK } from '../../drawing/ink.ts';
import type { Pen, Point } from '../../drawing/pen.ts';
import type { FormMeasures } from '../../../plan/measures.ts';
import type { SheetPages } from '../frame.ts';
import { length } from '../numbers.ts';
import type { SheetSource } from '../source.ts';
import { addFullSize } from './tiles.ts';

/** Room left of the axis for diameters and right of the outline for the rings. */
const LEFT_MM = 30;
const RIGHT_MM = 52;
const ENDS_MM = 3.5;

export function addTurningTemplate(pages: SheetPages, source: SheetSource): void {
  const { form } = source.measures;
  if (!form) return;
  const { z_mm, r_mm } = form.profile;
  const low = z_mm.reduce((a, b) => Math.min(a, b), Infinity);
  const high = z_mm.reduce((a, b) => Math.max(a, b), -Infinity);
  const radius = r_mm.reduce((a, b) => Math.max(a, b), 0);
  addFullSize(pages, {
    section: 'Turning template, 1 : 1',
    use:
      'Glue to card and cut along the outline: the part on the right is the gauge. Diameters on the left are at ' +
      'the corners and turns of the outline; blue lines show between which heights each ring runs.',
    width_mm: LEFT_MM + radius + RIGHT_MM,
    height_mm: high - low + 2 * ENDS_MM,
    draw: (pen) => drawTemplate(pen.within([LEFT_MM, ENDS_MM - low]), source, form, { low, high, radius }),
  });
}

interface Bounds {
  readonly low: number;
  readonly high: number;
  readonly radius: number;
}

function drawTemplate(pen: Pen, source: SheetSource, form: FormMeasures, bounds: Bounds): void {
  const { profile } = form;
  const { low, high, radius } = bounds;
  pen.line([0, low - 3], [0, high + 3], AXIS);
  pen.line([radius + RIGHT_MM - 4, low - 3], [radius + RIGHT_MM - 4, high + 3], FAINT);
  const point = (i: number): Point => [profile.r_mm[i], profile.z_mm[i]];
  const run = (from: number, to: number) =>
    Array.from({ length: to - from + 1 }, (_, i): Point => point(from + i));
  drawRings(pen, source, form, bounds);
  pen.polyline(run(0, profile.outsideStart), EDGE);
  pen.polyline(run(profile.outsideStart, profile.outsideEnd), { ...EDGE, width_mm: 0.5 });
  const inside = run(profile.outsideEnd, profile.z_mm.length - 1);
  const hollow = inside.some(([, z]) => z < high - 1e-9);
  pen.polyline(inside, hollow ? HIDDEN : EDGE);
  drawDiameters(pen, source, form);
  pen.text([radius + RIGHT_MM - 6, low - 5], 'foot', { size_pt: 8, align: 'right', colour: INK_SOFT });
  pen.text([radius + RIGHT_MM - 6, high + 3], 'head', { size_pt: 8, align: 'right', colour: INK_SOFT });
}

/** Height between two labels at least, so that they can be read. */
const LABEL_MM = 4.2;

/** The labels moved apart, in order, each as near to its height as the others let it. */
export function spread(heights: readonly number[], least_mm: number): number[] {
  const placed = [...heights];
  for (let pass = 0; pass < 200; pass++) {
    let moved = false;
    for (let i = 1; i < placed.length; i++) {
      const lack = least_mm - (placed[i] - placed[i - 1]);
      if (lack <= 1e-6) continue;
      placed[i] += lack / 2;
      placed[i - 1] -= lack / 2;
      moved = true;
    }
    if (!moved) break;
  }
  return placed;
}

function drawRings(pen: Pen, { design }: SheetSource, form: FormMeasures, { radius }: Bounds): void {
  const runs = new Map<string, { low: number; high: number; names: string[] }>();
  for (const ring of form.rings) {
    if (ring.zLow_mm === null || ring.zHigh_mm === null) continue;
    const key = `${ring.zLow_mm.toFixed(2)} ${ring.zHigh_mm.toFixed(2)}`;
    const entry = runs.get(key) ?? { low: ring.zLow_mm, high: ring.zHigh_mm, names: [] };
    entry.names.push(ring.slot);
    runs.set(key, entry);
  }
  const ends = [...runs.values()].flatMap(({ low, high, names }) => {
    const name = names.length > 2 ? `${names[0]} … ${names[names.length - 1]}` : names.join(' ');
    return [
      { z: low, text: `${length(low, design.unit)}  ${name} low` },
      { z: high, text: `${length(high, design.unit)}  ${name} high` },
    ];
  });
  ends.sort((a, b) => a.z - b.z);
  const places = spread(
    ends.map(({ z }) => z),
    LABEL_MM,
  );
  const x = radius + 6;
  ends.forEach(({ z, text }, i) => {
    const blue = { colour: MARK, width_mm: 0.15 };
    pen.line([0, z], [x, z], blue);
    pen.line([x, z], [x + 4, places[i]], blue);
    pen.text([x + 4.6, places[i] - 0.9], text, { size_pt: 7, colour: MARK });
  });
}

function drawDiameters(pen: Pen, { design }: SheetSource, form: FormMeasures): void {
  const { profile } = form;
  const seen = new Set<string>();
  const shown: { z: number; r: number }[] = [];
  for (let i = profile.outsideStart; i <= profile.outsideEnd; i++) {
    const z = profile.z_mm[i];
    const r = profile.r_mm[i];
    const before = i > profile.outsideStart ? r - profile.r_mm[i - 1] : 0;
    const after = i < profile.outsideEnd ? profile.r_mm[i + 1] - r : 0;
    const key = `${z.toFixed(1)} ${r.toFixed(1)}`;
    const ofNote = profile.corner[i] === 1 || before * after < 0;
    if (!ofNote || r < 0.5 || seen.has(key)) continue;
    seen.add(key);
    shown.push({ z, r });
  }
  shown.sort((a, b) => a.z - b.z);
  const places = spread(
    shown.map(({ z }) => z),
    LABEL_MM,
  );
  shown.forEach(({ z, r }, i) => {
    pen.line([-4, places[i]], [0, z], FAINT);
    pen.line([0, z], [r, z], FAINT);
    pen.text([-4.6, places[i] - 0.9], `Ø ${length(2 * r, design.unit)}`, {
      size_pt: 7,
      align: 'right',
      colour: INK,
    });
  });
}
