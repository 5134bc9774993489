/**
 * The cradle: for cuts with no flat at the fence or the ledge, how the blank is held and turned to the mark of each cut,
 * once large with all marks and once for every position. What the marks are taken from: templates/indexMarks.ts.
 */
import {
  cradleExtent,
  cradleViewOf,
  drawCradle,
  type CradleStyle,
  type CradleView,
} from '../drawing/cradle.ts';
import { INK, INK_FAINT, INK_SOFT, MARK, paler } from '../drawing/ink.ts';
import { bestScale } from '../drawing/scales.ts';
import { addFlow, type Flow } from './flow.ts';
import type { SheetPages } from './frame.ts';
import { angle } from './numbers.ts';
import type { Cut, SheetSource } from './source.ts';

/** Cuts that are held alike: one position of the blank in the cradle. */
export interface CradlePosition {
  readonly view: CradleView;
  readonly cuts: readonly Cut[];
}

/** The positions of all cuts without a flat, in working order. */
export function cradlePositions({ cuts }: SheetSource): CradlePosition[] {
  const positions = new Map<string, { view: CradleView; cuts: Cut[] }>();
  for (const cut of cuts) {
    if (cut.setup.face !== null) continue;
    const view = cradleViewOf(cut.setup);
    const key = `${view.kind} ${view.azimuth_deg.toFixed(6)} ${view.seen} ${view.side}`;
    const position = positions.get(key) ?? { view, cuts: [] };
    position.cuts.push(cut);
    positions.set(key, position);
  }
  return [...positions.values()];
}

/** Azimuths to mark, ascending, each once. */
export function indexAzimuths(positions: readonly CradlePosition[]): number[] {
  return [...new Set(positions.map(({ view }) => view.azimuth_deg))].sort((a, b) => a - b);
}

/** `cut 2`, `cuts 2, 5`. */
export function cutNumbers(cuts: readonly Cut[]): string {
  const shown = cuts.slice(0, 5).map(({ number }) => number);
  return `${cuts.length === 1 ? 'cut' : 'cuts'} ${shown.join(', ')}${cuts.length > 5 ? ' …' : ''}`;
}

const LARGE_MM = 74;
const SMALL_MM = 38;
const CAPTION_MM = 11;
const PER_ROW = 4;

export function addCradle(pages: SheetPages, source: SheetSource): void {
  const positions = cradlePositions(source);
  if (positions.length === 0) return;
  addFlow(pages, 'Cradle and index marks', (flow) => writeCradles(flow, source, positions));
}

function writeCradles(flow: Flow, source: SheetSource, positions: readonly CradlePosition[]): void {
  for (const kind of KINDS) {
    const held = positions.filter(({ view }) => view.kind === kind);
    if (held.length === 0) continue;
    flow.heading(WORDS[kind].heading);
    flow.paragraph(WORDS[kind].how, { colour: INK });
    drawLarge(flow, source, held);
    drawPositions(flow, source, held);
  }
}

/** What is said of a cradle: against the fence, at the ledge of the tilted table. */
interface CradleWords {
  readonly heading: string;
  readonly how: string;
  readonly seenFrom: (end: CradleView['seen']) => string;
  readonly dashed: string;
}

const WORDS: Readonly<Record<CradleView['kind'], CradleWords>> = {
  fence: {
    heading: 'Against the fence without a flat',
    how:
      'Two rails of waste wood, fixed to table and fence, keep the blank from rolling; it touches the fence where the index line is, ' +
      'level with its axis. The blade saws into the rails as well. Take the marks from the full-size template onto the end that is ' +
      'seen, away from the stop; then turn the blank until the mark of the cut meets the index line, and clamp.',
    seenFrom: (end) => `the ${end}, away from the stop`,
    dashed: 'the teeth where the cut ends',
  },
  ledge: {
    heading: 'At the ledge without a flat',
    how:
      'Two rails of waste wood against the ledge, before and behind the blank, keep it from turning; it touches the ledge where the ' +
      'index line is. Take the marks from the full-size template onto the upper end; then turn the blank until the mark of the cut ' +
      'meets the index line, and clamp.',
    seenFrom: (end) => `above: the ${end}`,
    dashed: 'the teeth where the feed ends',
  },
};
const KINDS = Object.keys(WORDS) as CradleView['kind'][];

function styleOf({ colours }: SheetSource, numbers: CradleStyle['numbers']): CradleStyle {
  return { fill: paler(colours.body, 0.62), numbers, degrees: angle };
}

/** The first position with all marks, and what is what. */
function drawLarge(flow: Flow, source: SheetSource, held: readonly CradlePosition[]): void {
  const { section } = source;
  const [{ view }] = held;
  const marked = indexAzimuths(held.filter((one) => one.view.seen === view.seen));
  const width = flow.width * 0.56;
  const n = bestScale(width, LARGE_MM, (scale) => cradleExtent(section, view, scale));
  const extent = cradleExtent(section, view, n);
  flow.need(LARGE_MM + 8);
  const top = flow.y - 2;
  const axis = [flow.left + (width - extent.right - extent.left) / 2, top - extent.top] as const;
  drawCradle(flow.pen.within(axis), section, view, marked, n, styleOf(source, 'all'));
  const words: [string, string][] = [
    ['Seen from', WORDS[view.kind].seenFrom(view.seen)],
    ['Scale', `1 : ${n}`],
    ['Index line', `blue, on the ${view.kind}`],
    ['Mark of this cut', `blue, ${angle(view.azimuth_deg)}`],
    ['Reference mark', 'triangle, 0°'],
    ['Degrees', `${view.seen === 'head' ? 'counter-clockwise' : 'clockwise'} as seen here`],
    ['Dashed', WORDS[view.kind].dashed],
    ['Rails', section.round ? 'at 45°, touching the blank' : 'cut to the flats that they touch'],
  ];
  const left = flow.left + width + 8;
  words.forEach(([label, text], i) => {
    const y = top - 8 - i * 5.6;
    flow.pen.text([left, y], label, { size_pt: 8, colour: INK_SOFT });
    flow.pen.text([left + 25, y], flow.typeface.fit(text, flow.left + flow.width - left - 25, 8.5), {
      size_pt: 8.5,
      colour: label.startsWith('Index') || label.startsWith('Mark') ? MARK : INK,
    });
  });
  flow.skip(Math.max(extent.top - extent.bottom, words.length * 5.6 + 6) + 5);
}

/** Every position small: for which cut, which mark meets the index. */
function drawPositions(flow: Flow, source: SheetSource, held: readonly CradlePosition[]): void {
  const { section } = source;
  const cell = flow.width / PER_ROW;
  for (let i = 0; i < held.length; i += PER_ROW) {
    const row = held.slice(i, i + PER_ROW);
    flow.need(SMALL_MM + CAPTION_MM + 3);
    const top = flow.y;
    row.forEach(({ view, cuts }, k) => {
      const left = flow.left + k * cell;
      const n = bestScale(cell - 6, SMALL_MM, (scale) => cradleExtent(section, view, scale));
      const extent = cradleExtent(section, view, n);
      const [numbers, slots] = [cutNumbers(cuts), cuts.map(({ slot }) => slot.id)];
      flow.pen.text([left, top - 4], `${angle(view.azimuth_deg)}  ${numbers}`, {
        size_pt: 9,
        weight: 'semibold',
        colour: INK,
      });
      const below = `${slots.slice(0, 3).join(', ')}${slots.length > 3 ? ' …' : ''} · from the ${view.seen}`;
      flow.pen.text([left, top - 8], flow.typeface.fit(below, cell - 3, 7.5), {
        size_pt: 7.5,
        colour: INK_FAINT,
      });
      const axis = [left - extent.left, top - CAPTION_MM - extent.top] as const;
      drawCradle(flow.pen.within(axis), section, view, [view.azimuth_deg], n, styleOf(source, 'own'));
    });
    flow.skip(SMALL_MM + CAPTION_MM + 3);
  }
}
