/** One entry per cut in working order: how the blank lies at the saw, the three settings, marks, strip, checks. */
import type { CutKind, DisplayUnit } from '../../design/document.ts';
import { CUT_WORDS } from '../../plan/cutWords.ts';
import type { AsMade } from '../../plan/made.ts';
import type { Passes } from '../../plan/passes.ts';
import type { Setup } from '../../plan/setups.ts';
import { drawSetup } from '../drawing/setup.ts';
import { INK, INK_FAINT, INK_SOFT, MARK, PAPER, RULE, THIN, TINT } from '../drawing/ink.ts';
import type { Pen, Point, Weight } from '../drawing/pen.ts';
import { entryOf, type CutEntry, type Row } from './cutEntry.ts';
import type { SheetPages } from './frame.ts';
import { angle, length, thickness } from './numbers.ts';
import type { Cut, SheetSource } from './source.ts';
import type { Typeface } from './typeface.ts';
import { timberName } from '../../timber/names.ts';

const PER_PAGE = 3;
const DRAWING_MM = 84;

export function addCutPages(pages: SheetPages, source: SheetSource): void {
  const { area } = pages;
  const height = (area.top - area.bottom) / PER_PAGE;
  const count = Math.ceil(source.cuts.length / PER_PAGE);
  for (let page = 0; page < count; page++) {
    const shown = source.cuts.slice(page * PER_PAGE, (page + 1) * PER_PAGE);
    const pen = pages.add(
      shown.length === 1
        ? `Cut ${shown[0].number}`
        : `Cuts ${shown[0].number} to ${shown[shown.length - 1].number}`,
      'The cuts one by one',
    );
    shown.forEach((cut, i) => {
      const top = area.top - i * height;
      if (i > 0) pen.line([area.left, top], [area.right, top], { colour: RULE, width_mm: 0.25 });
      drawEntry(pen, pages.typeface, source, cut, {
        left: area.left,
        right: area.right,
        top: top - 2,
        bottom: top - height + 3,
      });
    });
  }
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

function drawEntry(pen: Pen, typeface: Typeface, source: SheetSource, cut: Cut, box: Box): void {
  const { unit, saw } = source.design;
  const { setup } = cut;
  const entry = entryOf(cut, source);
  drawTitle(pen, typeface, source, cut, entry.lies.join(' · '), box);
  const below = box.top - 10;
  const drawing = pen.within([box.left, box.bottom + 4]);
  const scale = drawSetup(drawing, DRAWING_MM, below - box.bottom - 5, {
    design: source.design,
    setup,
    slot: cut.slot,
    filled: cut.filled,
    colours: source.colours,
    labels: {
      angle: angle(setup.fence_angle_deg),
      stop: entry.stop,
      web: `web ${thickness(setup.blade_stop_mm, unit)}`,
    },
  });
  pen.text([box.left, box.bottom], `${entry.seen}, 1 : ${scale}. Blue: the blade.`, {
    size_pt: 7,
    colour: INK_FAINT,
  });

  const left = box.left + DRAWING_MM + 6;
  const width = box.right - left;
  const third = width / 3;
  // What stands from the cut before is not set again.
  const before = source.cuts.find(({ number }) => number === cut.number - 1);
  const kept = before ? entryOf(before, source).settings : [];
  entry.settings.forEach((setting, i) => {
    const stays = kept.some(([label, value]) => label === setting[0] && value === setting[1]);
    drawSetting(pen, typeface, [left + i * third, below - 17], third - (i < 2 ? 1.6 : 0), setting, stays);
  });
  const check = typeface.wrap(checksOf(cut, saw.clamp_minutes, unit), width, 7.6);
  const rows = [...entry.rows, ...stripRows(source, cut)];
  let y = below - 22.5;
  // Rows stand closer where there are many, so that the check below keeps its place.
  const step = Math.min(4.5, (y - box.bottom - check.length * 3.4) / rows.length);
  for (const [label, value] of rows) {
    drawRow(pen, typeface, left, y, width, label, value);
    y -= step;
  }
  y -= 0.6;
  pen.line([left, y + 2.6], [box.right, y + 2.6], { colour: RULE, width_mm: 0.2 });
  for (const line of check) {
    pen.text([left, y - 0.8], line, { size_pt: 7.6, colour: INK_SOFT });
    y -= 3.4;
  }
}

function drawTitle(
  pen: Pen,
  typeface: Typeface,
  source: SheetSource,
  cut: Cut,
  lies: string,
  box: Box,
): void {
  const middle: Point = [box.left + 4, box.top - 4];
  pen.circle(middle, 4, { fill: INK });
  pen.text([middle[0], middle[1] - 1.6], `${cut.number}`, {
    size_pt: 12,
    weight: 'semibold',
    align: 'center',
    colour: PAPER,
  });
  const title = cut.slot.id;
  pen.text([box.left + 11, box.top - 5.4], title, { size_pt: 12, weight: 'semibold', colour: INK });
  const after = box.left + 11 + typeface.width_mm(title, 12, 'semibold') + 4;
  const glueUp = `Glue-up ${cut.session + 1} of ${source.measures.plan.sessions.length}`;
  const boxes = ['cut', 'strip in', 'trimmed'];
  let x = box.right;
  for (const label of boxes.toReversed()) {
    x -= typeface.width_mm(label, 8);
    pen.text([x, box.top - 5.2], label, { size_pt: 8, colour: INK_SOFT });
    x -= 4.4;
    pen.rectangle([x, box.top - 5.6], 3.2, 3.2, { stroke: THIN });
    x -= 4;
  }
  pen.text([after, box.top - 5.2], typeface.fit(lies, x - after, 9.5), {
    size_pt: 9.5,
    colour: INK,
  });
  const used = after + typeface.width_mm(lies, 9.5) + 4;
  if (used + typeface.width_mm(glueUp, 8.5) < x)
    pen.text([used, box.top - 5.2], glueUp, { size_pt: 8.5, colour: INK_FAINT });
}

/** One of the three numbers that are set at the saw, big enough to read from a step away; its bar is blue where it is to be set. */
function drawSetting(
  pen: Pen,
  typeface: Typeface,
  [x, y]: Point,
  width: number,
  [label, value, note]: CutEntry['settings'][number],
  stays: boolean,
): void {
  pen.rectangle([x, y], width, 17, { fill: TINT });
  pen.rectangle([x, y], 0.7, 17, { fill: stays ? RULE : MARK });
  const largest = (text: string, most: number, least: number, weight: Weight) => {
    let size = most;
    while (size > least && typeface.width_mm(text, size, weight) > width - 4) size -= 0.5;
    return size;
  };
  const head = stays ? `${label}, stays` : label;
  pen.text([x + 2.6, y + 12.9], head, { size_pt: largest(head, 7.5, 5.5, 'regular'), colour: INK_SOFT });
  const size_pt = largest(value, 16, 9, 'semibold');
  pen.text([x + 2.6, y + 6.1], value, { size_pt, weight: 'semibold', colour: INK });
  const small = largest(note, 9, 7, 'regular');
  pen.text([x + 2.6, y + 2], typeface.fit(note, width - 3.4, small), { size_pt: small, colour: INK_SOFT });
}

/** Below what is the cut's own: passes, and the strip that goes in. */
function stripRows({ design }: SheetSource, { setup, slot, made }: Cut): Row[] {
  const { unit } = design;
  const strip = slot.layers.map(({ timber }) => timberName(timber)).join(' + ');
  return [
    ...(setup.passes ? [passesRow(setup.passes, setup, unit)] : []),
    [slot.layers.length > 1 ? 'Strip, foot first' : 'Strip', strip],
    [
      'thick × deep × long',
      `${thickness(made.strip_mm, unit)} × ${length(made.strip_depth_mm, unit)} × ${length(made.strip_length_mm, unit)}`,
    ],
    ['Fit', fitText(made.fit_mm, unit)],
    ...madeRow(made, setup.kerf_mm, unit),
  ];
}

/** From stop or ledge to the middle of the blade, pass by pass; the first, the step and the last where they are many. */
function passesRow({ passes, step_along_fence_mm }: Passes, setup: Setup, unit: DisplayUnit): Row {
  const places = passes.map(({ stop_to_blade_center_mm }) => length(stop_to_blade_center_mm, unit));
  const shown =
    places.length > 4
      ? `${places[0]} to ${places[places.length - 1]} by ${length(step_along_fence_mm, unit)}`
      : places.join(', ');
  return [`${passes.length} passes, ${CUT_WORDS[setup.cut].stop} to mid-blade`, shown];
}

/** What was measured, or is counted on from the test cut where that is not the design's. */
function madeRow(made: AsMade, planned_mm: number, unit: DisplayUnit): Row[] {
  const ownKerf = made.kerfFrom === 'slot';
  const measured = [
    ...(ownKerf ? [`kerf ${thickness(made.kerf_mm, unit)}`] : []),
    ...(made.webMeasured ? [`web ${thickness(made.web_mm, unit)}`] : []),
    ...(made.stripMeasured ? [`strip ${thickness(made.strip_mm, unit)}`] : []),
  ];
  if (measured.length > 0) return [['As measured', measured.join(', ')]];
  const byTest = made.kerfFrom === 'test cut' && Math.abs(made.kerf_mm - planned_mm) >= 5e-4;
  return byTest ? [['By the test cut', `kerf ${thickness(made.kerf_mm, unit)}`]] : [];
}

function fitText(fit_mm: number, unit: DisplayUnit): string {
  if (Math.abs(fit_mm) < 5e-4) return 'as thick as the kerf';
  return `${thickness(Math.abs(fit_mm), unit)} ${fit_mm > 0 ? 'thicker' : 'thinner'} than the kerf`;
}

function drawRow(
  pen: Pen,
  typeface: Typeface,
  left: number,
  y: number,
  width: number,
  label: string,
  value: string,
): void {
  pen.text([left, y], label, { size_pt: 8, colour: INK_SOFT });
  const room = width - typeface.width_mm(label, 8) - 3;
  pen.text([left + width, y], typeface.fit(value, room, 8.5), { size_pt: 8.5, align: 'right', colour: INK });
}

function checksOf({ setup, made }: Cut, clamp_minutes: number, unit: DisplayUnit): string {
  const web = made.webMeasured
    ? `the web came out at ${thickness(made.web_mm, unit)}`
    : `the web measures ${thickness(setup.blade_stop_mm, unit)}${WHERE_MEASURED[setup.cut]}`;
  return (
    `Before the next cut: ${web}; the strip sits on the end of ` +
    `the slot and glue shows all round; clamped ${clamp_minutes} min; trimmed flush on every face that will lie on ` +
    `fence or table.`
  );
}

/** Where on the kerf’s end the web is what it is called: at the fence it is thicker on one side than on the other. */
const WHERE_MEASURED: Readonly<Record<CutKind, string>> = { fence: ' in mid-kerf', table: '' };
