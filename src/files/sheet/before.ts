/** Before the first cut: the blank with its letters, what to prepare and check, what the design warns of. */
import { DEG } from '../../geometry/angle.ts';
import { flatsOf } from '../drawing/faces.ts';
import {
  AXIS,
  EDGE,
  HIDDEN,
  INK,
  INK_FAINT,
  INK_SOFT,
  MARK,
  THIN,
  TINT,
  WARN,
  WARN_TINT,
} from '../drawing/ink.ts';
import type { Pen, Point } from '../drawing/pen.ts';
import { addFlow, type Flow } from './flow.ts';
import type { SheetPages } from './frame.ts';
import type { CutKind } from '../../design/document.ts';
import type { Setup } from '../../plan/setups.ts';
import { preparationsOf } from '../../plan/preparations.ts';
import { worded, type Wording } from '../../plan/wording.ts';
import { angle, INCH, length } from './numbers.ts';
import type { SheetSource } from './source.ts';

const DRAWING_MM = 52;
/** A face as far from the middle as this on paper has room for its letter inside. */
const LETTERS_INSIDE_MM = 8;
/** A side as long as this on paper has room for both names of its ends in a row. */
const NAMES_IN_A_ROW_MM = 24;

export function addBefore(pages: SheetPages, source: SheetSource): void {
  const preparations = preparationsOf(source.design, source.measures);
  addFlow(pages, 'Before the first cut', (flow) => writeBefore(flow, source, preparations));
}

function writeBefore(flow: Flow, source: SheetSource, preparations: readonly Wording[]): void {
  drawBlank(flow.pen.within([flow.left, flow.y - DRAWING_MM]), flow.width, source);
  flow.skip(DRAWING_MM + 2);
  if (source.warnings.length > 0) {
    flow.heading('Look at this first');
    for (const { level, text } of source.warnings) drawMessage(flow, level === 'warning', text);
  }
  flow.heading('Prepare');
  preparations.forEach((words, i) => flow.item(`${i + 1}`, worded(words, source.design.unit, INCH)));
  addNotes(flow, source);
}

/** What the maker wrote beside the design and its sets. */
function addNotes(flow: Flow, { design }: SheetSource): void {
  const own = (design.notes ?? '').split('\n');
  const ofSets = design.sets.map(({ id, notes = '' }) => (notes.trim() === '' ? '' : `${id}: ${notes}`));
  const lines = [...own, ...ofSets.flatMap((text) => text.split('\n'))].filter((line) => line.trim() !== '');
  if (lines.length === 0) return;
  flow.heading('Notes');
  for (const line of lines) flow.paragraph(line);
}

function drawMessage(flow: Flow, warning: boolean, text: string): void {
  const lines = flow.typeface.wrap(text, flow.width - 8, 9);
  const height = lines.length * 4.2 + 2;
  flow.need(height + 1);
  flow.skip(1);
  const top = flow.y;
  flow.pen.rectangle([flow.left, top - height], flow.width, height, { fill: warning ? WARN_TINT : TINT });
  flow.pen.rectangle([flow.left, top - height], 0.8, height, { fill: warning ? WARN : INK_FAINT });
  lines.forEach((line, i) =>
    flow.pen.text([flow.left + 4, top - 4 - i * 4.2], line, { size_pt: 9, colour: INK }),
  );
  flow.skip(height);
}

/** Heights of the marks on the face that the blank lies against, in the picture of the blank. */
const MARKS_MM: Readonly<Record<CutKind, (setup: Setup) => readonly number[]>> = {
  fence: ({ mark_fence_mm }) => [mark_fence_mm],
  // Marked on the ends.
  table: () => [],
};

/** The blank seen from the head, and from the side with face A up front, foot on the left. */
function drawBlank(pen: Pen, width: number, source: SheetSource): void {
  const { section, design } = source;
  const L = design.blank.length_mm;
  const radius = section.circumscribedRadius_mm;
  const tall = section.round ? section.inscribedRadius_mm * 2 : span(section.corners_mm.map(([, y]) => y));
  const scale = Math.max((L + 2 * radius) / (width - 44), (2 * radius) / (DRAWING_MM - 16));
  const n =
    [1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20, 30, 50, 100, 200].find((one) => one >= scale) ?? 500;
  const end: Point = [14 + radius / n, DRAWING_MM / 2 - 1];
  const endPen = pen.within(end, 1 / n);
  if (section.round) endPen.circle([0, 0], radius, { fill: TINT, stroke: EDGE });
  else endPen.polygon(section.corners_mm, { fill: TINT, stroke: EDGE });
  endPen.line([-radius * 1.12, 0], [radius * 1.12, 0], AXIS);
  endPen.line([0, -radius * 1.12], [0, radius * 1.12], AXIS);
  for (const flat of flatsOf(section)) {
    // Letters that would meet in the middle stand outside.
    const reach =
      flat.distance_mm / n < LETTERS_INSIDE_MM ? flat.distance_mm + 4 * n : flat.distance_mm - 4 * n;
    const turn = flat.azimuth_deg * DEG;
    endPen.text([reach * Math.cos(turn), reach * Math.sin(turn) - 1.5 * n], flat.letter, {
      size_pt: 11,
      weight: 'semibold',
      align: 'center',
      colour: INK,
      halo: TINT,
    });
  }
  const left = 14 + (2 * radius) / n + 22;
  const side = pen.within([left, DRAWING_MM / 2 - 1], 1 / n);
  side.rectangle([0, -tall / 2], L, tall, { fill: TINT, stroke: EDGE });
  side.line([-4 * n, 0], [L + 4 * n, 0], AXIS);
  const marked = source.measures.setups
    .flatMap((setup) => MARKS_MM[setup.cut](setup))
    .filter((mark_mm) => mark_mm > 0 && mark_mm < L);
  for (const mark_mm of marked)
    side.line([mark_mm, -tall / 2], [mark_mm, -tall / 2 + 3 * n], {
      colour: MARK,
      width_mm: 0.3,
    });
  // Upright along its end where they would meet.
  const upright = L / n < NAMES_IN_A_ROW_MM;
  for (const [at, inward, word] of [
    [0, 1, 'foot'],
    [L, -1, 'head'],
  ] as const) {
    const style = { size_pt: 8.5, colour: INK_SOFT } as const;
    const baseline = at + (inward === 1 ? 4 : -2) * n;
    if (upright) side.text([baseline, tall / 4], word, { ...style, align: 'center', angle_deg: 90 });
    else
      side.text([at + inward * 3 * n, tall / 2 - 4.5 * n], word, {
        ...style,
        align: inward === 1 ? 'left' : 'right',
      });
  }
  drawLengthAcross(side, [0, L], tall / 2 + 4 * n, n, length(L, design.unit));
  const across = section.round ? 2 * radius : tall;
  side.text([-6 * n, 0], length(across, design.unit), {
    size_pt: 8.5,
    align: 'center',
    colour: INK,
    angle_deg: 90,
    halo: '#ffffff',
  });
  for (const y of [-tall / 2, tall / 2]) side.line([-7.5 * n, y], [-1 * n, y], THIN);
  pen.text(
    [0, 0],
    `Seen from the head and from the side, 1 : ${n}.` +
      (marked.length > 0 ? ' Blue: middles of the kerfs at the fence faces.' : '') +
      (source.measures.setups.length > 0 ? ` Angles: ${angles(source)}.` : ''),
    { size_pt: 7.5, colour: INK_FAINT },
  );
  side.line([L, -tall / 2], [L, tall / 2], HIDDEN);
}

function angles({ measures }: SheetSource): string {
  const all = [...new Set(measures.setups.map((setup) => setup.fence_angle_deg))].sort((a, b) => b - a);
  return all.length > 4 ? `${angle(all[0])} to ${angle(all[all.length - 1])}` : all.map(angle).join(', ');
}

function drawLengthAcross(pen: Pen, [from, to]: Point, y: number, n: number, label: string): void {
  pen.line([from, y], [to, y], THIN);
  for (const [x, way] of [
    [from, 1],
    [to, -1],
  ] as const) {
    pen.line([x, y - 2.5 * n], [x, y + 1.5 * n], THIN);
    pen.polygon(
      [
        [x, y],
        [x + way * 2.2 * n, y + 0.6 * n],
        [x + way * 2.2 * n, y - 0.6 * n],
      ],
      { fill: INK },
    );
  }
  pen.text([(from + to) / 2, y + 1.2 * n], label, { size_pt: 8.5, align: 'center', colour: INK });
}

function span(values: readonly number[]): number {
  return Math.max(...values) - Math.min(...values);
}
