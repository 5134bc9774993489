/** One entry per cut in working order: how the blank lies at the saw, the three settings, marks, strip, checks. */
import { drawSetup, faceUp } from '../drawing/setup.ts';
import { INK, INK_FAINT, INK_SOFT, MARK, PAPER, RULE, THIN, TINT } from '../drawing/ink.ts';
import type { Pen, Point } from '../drawing/pen.ts';
import { nameOfTimber } from '../look.ts';
import type { SheetPages } from './frame.ts';
import { angle, length, onRule, thickness } from './numbers.ts';
import type { Cut, SheetSource } from './source.ts';
import type { Typeface } from './typeface.ts';

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
  drawTitle(pen, typeface, source, cut, box);
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
      stop: length(setup.stop_to_kerf_center_mm, unit),
      web: `web ${thickness(setup.blade_stop_mm, unit)}`,
    },
  });
  pen.text([box.left, box.bottom], `Seen from above, 1 : ${scale}. Blue: the blade.`, {
    size_pt: 7,
    colour: INK_FAINT,
  });

  const left = box.left + DRAWING_MM + 6;
  const width = box.right - left;
  const third = width / 3;
  const heroes: [string, string, string][] = [
    ['Fence', angle(setup.fence_angle_deg), `${angle(setup.protractor_deg)} from square`],
    [
      'Stop to mid-kerf',
      length(setup.stop_to_kerf_center_mm, unit),
      onRule(setup.stop_to_kerf_center_mm, unit) ?? 'along the fence',
    ],
    ['Blade stop', thickness(setup.blade_stop_mm, unit), 'web left at the fence'],
  ];
  heroes.forEach(([label, value, note], i) => {
    drawSetting(pen, typeface, [left + i * third, below - 17], third - (i < 2 ? 1.6 : 0), label, value, note);
  });
  let y = below - 22.5;
  for (const [label, value] of rowsOf(source, cut)) {
    y = drawRow(pen, typeface, left, y, width, label, value);
  }
  y -= 0.6;
  pen.line([left, y + 2.6], [box.right, y + 2.6], { colour: RULE, width_mm: 0.2 });
  const check = checksOf(cut, saw.clamp_minutes, unit);
  for (const line of typeface.wrap(check, width, 7.6)) {
    pen.text([left, y - 0.8], line, { size_pt: 7.6, colour: INK_SOFT });
    y -= 3.4;
  }
}

function drawTitle(pen: Pen, typeface: Typeface, source: SheetSource, cut: Cut, box: Box): void {
  const { setup } = cut;
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
  const up = faceUp(source.design, setup).letter;
  const lies = [
    setup.face ? `${setup.face} against the fence` : `azimuth ${angle(setup.fence_azimuth_deg)} at the fence`,
    up ? `${up} up` : null,
    `${setup.stop_end} to the stop`,
  ].filter((part) => part !== null);
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
  pen.text([after, box.top - 5.2], typeface.fit(lies.join(' · '), x - after, 9.5), {
    size_pt: 9.5,
    colour: INK,
  });
  const used = after + typeface.width_mm(lies.join(' · '), 9.5) + 4;
  if (used + typeface.width_mm(glueUp, 8.5) < x)
    pen.text([used, box.top - 5.2], glueUp, { size_pt: 8.5, colour: INK_FAINT });
}

/** One of the three numbers that are set at the saw, big enough to read from a step away. */
function drawSetting(
  pen: Pen,
  typeface: Typeface,
  [x, y]: Point,
  width: number,
  label: string,
  value: string,
  note: string,
): void {
  pen.rectangle([x, y], width, 17, { fill: TINT });
  pen.rectangle([x, y], 0.7, 17, { fill: MARK });
  pen.text([x + 2.6, y + 12.9], label, { size_pt: 7.5, colour: INK_SOFT });
  let size = 16;
  while (size > 9 && typeface.width_mm(value, size, 'semibold') > width - 4) size -= 0.5;
  pen.text([x + 2.6, y + 6.1], value, { size_pt: size, weight: 'semibold', colour: INK });
  pen.text([x + 2.6, y + 2], typeface.fit(note, width - 3.4, 7.5), { size_pt: 7.5, colour: INK_SOFT });
}

function rowsOf({ design }: SheetSource, { setup, slot }: Cut): [string, string][] {
  const { unit } = design;
  const place = (mm: number) => {
    const rule = onRule(mm, unit);
    return rule === null ? length(mm, unit) : `${length(mm, unit)}  (${rule})`;
  };
  const strip = slot.layers.map(({ timber }) => nameOfTimber(timber)).join(' + ');
  const fit = Math.abs(setup.fit_mm) < 5e-4 ? 'as thick as the kerf' : fitText(setup.fit_mm, unit);
  return [
    ['Stop to near side of kerf', place(setup.stop_to_kerf_near_mm)],
    [`Mark on ${setup.face ?? 'the fence side'}, from the foot`, place(setup.mark_fence_mm)],
    [`Mark on ${setup.entry_face ?? 'the entry side'}, from the foot`, place(setup.mark_entry_mm)],
    ['Slot, down the slope', length(setup.slot_depth_mm, unit)],
    ['Strip', strip],
    [
      'thick × deep × long',
      `${thickness(setup.strip_thickness_mm, unit)} × ${length(setup.strip_depth_mm, unit)} × ${length(setup.strip_length_mm, unit)}`,
    ],
    ['Fit', fit],
  ];
}

function fitText(fit_mm: number, unit: SheetSource['design']['unit']): string {
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
): number {
  pen.text([left, y], label, { size_pt: 8, colour: INK_SOFT });
  const room = width - typeface.width_mm(label, 8) - 3;
  pen.text([left + width, y], typeface.fit(value, room, 8.5), { size_pt: 8.5, align: 'right', colour: INK });
  return y - 4.5;
}

function checksOf({ setup }: Cut, clamp_minutes: number, unit: SheetSource['design']['unit']): string {
  return (
    `Before the next cut: the web measures ${thickness(setup.blade_stop_mm, unit)}; the strip sits on the end of ` +
    `the slot and glue shows all round; clamped ${clamp_minutes} min; trimmed flush on every face that will lie on ` +
    `fence or table.`
  );
}
