/**
 * The turning template: half the outline at 1 : 1, the axis upright, foot below, with the heights between which each ring
 * runs and the diameters to size to, each with its height. The piece lies left of the line; the card to hold against it,
 * right. All heights count from the foot line of the blank, as the marks do.
 */
import { holeCylinder, outsideRadius_mm } from '../../../blank/holes.ts';
import type { Hole } from '../../../design/document.ts';
import { AXIS, EDGE, FAINT, HIDDEN, INK, INK_SOFT, MARK } from '../../drawing/ink.ts';
import type { Colour, Pen, Point } from '../../drawing/pen.ts';
import { spread } from '../../drawing/spread.ts';
import type { FormMeasures } from '../../../plan/measures.ts';
import { slotRuns } from '../../../plan/wording.ts';
import type { SheetPages } from '../frame.ts';
import { length } from '../numbers.ts';
import type { SheetSource } from '../source.ts';
import { addDrillingTemplate, holeText } from './drilling.ts';
import { sizesOf, type Size } from './outlineSizes.ts';
import { addFullSize } from './tiles.ts';

/** Room right of the outline for the rings, more where their names are long. */
const RIGHT_MM = 52;
/** From the axis to the heights on its left, from those to the diameters, and beyond these. */
const TO_HEIGHTS_MM = 4.6;
const TO_DIAMETERS_MM = 2.5;
const BEYOND_MM = 1.5;
/** From the outline to the names, and from the names to the end of the drawing. */
const TO_NAMES_MM = 10.6;
const AFTER_NAMES_MM = 5.5;
const NAMES_PT = 7;
const ENDS_MM = 3.5;
/** A piece whose foot is no higher than this begins on the foot line. */
const ON_THE_LINE_MM = 0.005;

export function addTurningTemplate(pages: SheetPages, source: SheetSource): void {
  const { form } = source.measures;
  if (!form) return;
  const { z_mm, r_mm } = form.profile;
  const low = z_mm.reduce((a, b) => Math.min(a, b), Infinity);
  const high = z_mm.reduce((a, b) => Math.max(a, b), -Infinity);
  const radius = r_mm.reduce((a, b) => Math.max(a, b), 0);
  const { typeface, fullSizeArea } = pages;
  const levels = [...ringLevels(source, form), ...holeLevels(source, form, low, high)];
  const sizes = sizesOf(source, form);
  const widest = (texts: readonly string[]) =>
    texts.reduce((most, text) => Math.max(most, typeface.width_mm(text, NAMES_PT)), 0);
  const heightsWide = widest(sizes.map(({ height }) => height));
  const left =
    TO_HEIGHTS_MM + heightsWide + TO_DIAMETERS_MM + widest(sizes.map(({ text }) => text)) + BEYOND_MM;
  // No wider than a page for the sake of names.
  const room = fullSizeArea.right - fullSizeArea.left - left - radius;
  const names = widest(levels.map(({ text }) => text));
  const right = Math.max(RIGHT_MM, Math.min(TO_NAMES_MM + names + AFTER_NAMES_MM, room));
  const fitted = levels.map((level) => ({
    ...level,
    text: typeface.fit(level.text, right - TO_NAMES_MM - AFTER_NAMES_MM, NAMES_PT),
  }));
  const bounds = { low, high, radius, right };
  addFullSize(pages, {
    section: 'Turning template, 1 : 1',
    use:
      'Glue to card and cut along the outline: the part on the right is the gauge. Left: diameters and their heights from the ' +
      `foot line of the blank${low > ON_THE_LINE_MM ? `, ${length(low, source.design.unit)} below the foot of the piece` : ''}; ` +
      'blue: where each ring begins and ends.' +
      (source.design.form?.holes?.length
        ? ' Drilled holes are dashed, turned into the plane of the drawing.'
        : ''),
    width_mm: left + radius + right,
    height_mm: high - low + 2 * ENDS_MM,
    draw: (pen) =>
      drawTemplate(pen.within([left, ENDS_MM - low]), source, form, bounds, fitted, {
        sizes,
        heightsWide,
      }),
  });
  addDrillingTemplate(pages, source);
}

interface Bounds {
  readonly low: number;
  readonly high: number;
  readonly radius: number;
  /** From the largest radius to the end of the drawing. */
  readonly right: number;
}

function drawTemplate(
  pen: Pen,
  source: SheetSource,
  form: FormMeasures,
  bounds: Bounds,
  levels: readonly Level[],
  { sizes, heightsWide }: { readonly sizes: readonly Size[]; readonly heightsWide: number },
): void {
  const { profile } = form;
  const { low, high, radius, right } = bounds;
  pen.line([0, low - 3], [0, high + 3], AXIS);
  pen.line([radius + right - 4, low - 3], [radius + right - 4, high + 3], FAINT);
  const point = (i: number): Point => [profile.r_mm[i], profile.z_mm[i]];
  const run = (from: number, to: number) =>
    Array.from({ length: to - from + 1 }, (_, i): Point => point(from + i));
  drawLevels(pen, levels, bounds);
  pen.polyline(run(0, profile.outsideStart), EDGE);
  pen.polyline(run(profile.outsideStart, profile.outsideEnd), { ...EDGE, width_mm: 0.5 });
  const inside = run(profile.outsideEnd, profile.z_mm.length - 1);
  const hollow = inside.some(([, z]) => z < high - 1e-9);
  // The bore of a ring is turned to the gauge as its outside is; a hollow is behind the wall.
  pen.polyline(inside, hollow && source.design.form?.loop !== true ? HIDDEN : EDGE);
  drawHolesInHalf(pen, source, form, bounds);
  drawSizes(pen, sizes, heightsWide, { low, high });
  // Beside the edge of the gauge, clear of the names of rings and holes.
  for (const [y, word] of [
    [low + 5, 'foot'],
    [high - 5, 'head'],
  ] as const)
    pen.text([radius + right - 1.2, y], word, {
      size_pt: 8,
      align: 'center',
      colour: INK_SOFT,
      angle_deg: 90,
    });
}

/** Height between two labels at least, so that they can be read. */
const LABEL_MM = 4.2;

/** Something named on the right: a height of a ring, or a hole. */
interface Level {
  readonly z: number;
  /** Where its line begins. */
  readonly from: number;
  readonly text: string;
  readonly colour: Colour;
}

function drawLevels(pen: Pen, named: readonly Level[], bounds: Bounds): void {
  const { radius } = bounds;
  const levels = named.toSorted((a, b) => a.z - b.z);
  const places = spread(
    levels.map(({ z }) => z),
    LABEL_MM,
    bounds,
  );
  const x = radius + 6;
  levels.forEach(({ z, from, text, colour }, i) => {
    const line = { colour, width_mm: 0.15 };
    pen.line([from, z], [x, z], line);
    pen.line([x, z], [x + 4, places[i]], line);
    pen.text([radius + TO_NAMES_MM, places[i] - 0.9], text, { size_pt: NAMES_PT, colour });
  });
}

function ringLevels({ design }: SheetSource, form: FormMeasures): Level[] {
  const runs = new Map<string, { low: number; high: number; names: string[] }>();
  for (const ring of form.rings) {
    if (ring.zLow_mm === null || ring.zHigh_mm === null) continue;
    const key = `${ring.zLow_mm.toFixed(2)} ${ring.zHigh_mm.toFixed(2)}`;
    const entry = runs.get(key) ?? { low: ring.zLow_mm, high: ring.zHigh_mm, names: [] };
    entry.names.push(ring.slot);
    runs.set(key, entry);
  }
  return [...runs.values()].flatMap(({ low, high, names }) => {
    const name = slotRuns(names).join(', ');
    return [
      { z: low, from: 0, text: `${length(low, design.unit)} bottom of ${name}`, colour: MARK },
      { z: high, from: 0, text: `${length(high, design.unit)} top of ${name}`, colour: MARK },
    ];
  });
}

/** What a hole takes of the half that is drawn, the hole turned into its plane: distance from the axis and height. */
interface HoleInHalf {
  readonly hole: Hole;
  readonly from: Point;
  readonly to: Point;
}

function holesInHalf(
  { design }: SheetSource,
  { profile }: FormMeasures,
  low: number,
  high: number,
): HoleInHalf[] {
  const { form } = design;
  if (!form) return [];
  return (form.holes ?? []).map((hole): HoleInHalf => {
    const { origin_mm, inward, radius_mm, depth_mm } = holeCylinder(hole, form, profile);
    if (hole.from !== 'side') {
      const offset = Math.hypot(origin_mm[0], origin_mm[1]);
      const end = origin_mm[2] + inward[2] * Math.min(depth_mm, high - low);
      return {
        hole,
        from: [Math.max(0, offset - radius_mm), Math.min(origin_mm[2], end)],
        to: [offset + radius_mm, Math.max(origin_mm[2], end)],
      };
    }
    const start = outsideRadius_mm(profile, origin_mm[2]);
    return {
      hole,
      from: [Math.max(0, start - depth_mm), origin_mm[2] - radius_mm],
      to: [start, origin_mm[2] + radius_mm],
    };
  });
}

function drawHolesInHalf(pen: Pen, source: SheetSource, form: FormMeasures, { low, high }: Bounds): void {
  for (const { hole, from, to } of holesInHalf(source, form, low, high)) {
    const [[x0, z0], [x1, z1]] = [from, to];
    const middle = (z0 + z1) / 2;
    const walls: Point[] =
      hole.from === 'side'
        ? [
            [x1, z0],
            [x0, z0],
            [x0, z1],
            [x1, z1],
          ]
        : [
            [x0, z0],
            [x1, z0],
            [x1, z1],
            [x0, z1],
            [x0, z0],
          ];
    pen.polyline(walls, HIDDEN);
    if (hole.from === 'side') pen.line([x0, middle], [x1 + 3, middle], AXIS);
    else if (x0 > 0) pen.line([(x0 + x1) / 2, z0 - 2], [(x0 + x1) / 2, z1 + 2], AXIS);
  }
}

function holeLevels(source: SheetSource, form: FormMeasures, low: number, high: number): Level[] {
  return holesInHalf(source, form, low, high).map(({ hole, from, to }, n) => ({
    z: hole.from === 'side' ? (from[1] + to[1]) / 2 : hole.from === 'head' ? to[1] - 2 : from[1] + 2,
    from: to[0],
    text: holeText(hole, n, source.design.unit),
    colour: INK,
  }));
}

function drawSizes(
  pen: Pen,
  sizes: readonly Size[],
  heightsWide: number,
  { low, high }: { readonly low: number; readonly high: number },
): void {
  const places = spread(
    sizes.map(({ z }) => z),
    LABEL_MM,
    { low, high },
  );
  const style = { size_pt: NAMES_PT, align: 'right' } as const;
  sizes.forEach(({ z, r, text, height }, i) => {
    pen.line([-4, places[i]], [0, z], FAINT);
    pen.line([0, z], [r, z], FAINT);
    const y = places[i] - 0.9;
    pen.text([-TO_HEIGHTS_MM, y], height, { ...style, colour: INK_SOFT });
    pen.text([-TO_HEIGHTS_MM - heightsWide - TO_DIAMETERS_MM, y], text, { ...style, colour: INK });
  });
}
