/**
 * A blank with no flat where the fence or the ledge is: seen along its axis, held between two rails, with the marks of the
 * azimuths on its end and the index that the mark of a cut must meet. To scale.
 *
 * Against the fence it is seen from the end away from the stop: fence on the right, table below. With the table tilted it
 * is seen square down on the table: the ledge on its low side, the blade entering from above. Local frame, mm of wood:
 * the axis at the origin, x toward fence or ledge (on the left where the table tilts to the left).
 */
import { support_mm, type SectionGeometry } from '../../blank/section.ts';
import { cosDeg, sameAzimuth, sinDeg } from '../../geometry/angle.ts';
import type { End, Setup } from '../../plan/setups.ts';
import { AXIS, BLADE_PATH, EDGE, INK, INK_FAINT, INK_SOFT, MARK, THIN } from './ink.ts';
import { roomyWidth_mm } from './labels.ts';
import type { Colour, Pen, Point } from './pen.ts';

/** How a cut's blank is seen. */
export interface CradleView {
  readonly kind: 'fence' | 'ledge';
  readonly azimuth_deg: number;
  /** The end that is seen; azimuths run counter-clockwise as seen from the head. */
  readonly seen: End;
  /** −1: the ledge is on the left. */
  readonly side: 1 | -1;
  readonly web_mm: number;
}

export function cradleViewOf(setup: Setup): CradleView {
  const held = { azimuth_deg: setup.fence_azimuth_deg, web_mm: setup.blade_stop_mm };
  switch (setup.cut) {
    case 'fence':
      return { ...held, kind: 'fence', seen: otherEnd(setup.stop_end), side: 1 };
    case 'table': {
      const { end_down, tilts } = setup.table;
      return { ...held, kind: 'ledge', seen: otherEnd(end_down), side: tilts === 'left' ? -1 : 1 };
    }
  }
}

const otherEnd = (end: End): End => (end === 'foot' ? 'head' : 'foot');

/** Direction in the drawing of an azimuth of the blank, degrees counter-clockwise from the right. */
export function directionOf({ azimuth_deg, seen, side }: CradleView, azimuth: number): number {
  return (seen === 'head' ? 1 : -1) * (azimuth - azimuth_deg) + (side === 1 ? 0 : 180);
}

/** Which way azimuths run while fence or ledge is on the right: before a ledge on the left is drawn in a mirror. */
function senseOf({ seen, side }: CradleView): 1 | -1 {
  return (seen === 'head') === (side === 1) ? 1 : -1;
}

/** Paper sizes of what has no true size, mm. */
const WALL_MM = 4;
const INDEX_MM = 7;
const TICK_MM = 3;

export interface CradleStyle {
  readonly fill: Colour;
  /** Degrees beside every mark and letters on the faces, or degrees at the cut's own mark only. */
  readonly numbers: 'all' | 'own';
  /** `22.5°`. */
  readonly degrees: (azimuth_deg: number) => string;
}

/** What the drawing takes about its origin at 1 : n, mm of paper. */
export function cradleExtent(section: SectionGeometry, view: CradleView, n: number) {
  const reach = (azimuth: number) => support_mm(section, azimuth) / n;
  const sense = senseOf(view);
  const across = (turn: number) => reach(view.azimuth_deg + sense * turn);
  const [near, far] = [across(0) + WALL_MM + INDEX_MM, across(180) + 3];
  return {
    left: -(view.side === 1 ? far : near),
    right: view.side === 1 ? near : far,
    bottom: -across(-90) - HOLDERS[view.kind].below_mm,
    top: across(90) + HOLDERS[view.kind].above_mm,
  };
}

/** Draws at 1 : n with the axis at the pen's origin; `azimuths` are marked on the end that is seen. */
export function drawCradle(
  paper: Pen,
  section: SectionGeometry,
  view: CradleView,
  azimuths: readonly number[],
  n: number,
  style: CradleStyle,
): void {
  const pen = paper.within([0, 0], 1 / n);
  const mm = n;
  const { side } = view;
  const holder = HOLDERS[view.kind];
  const sense = senseOf(view);
  const reach: Reach = {
    h: support_mm(section, view.azimuth_deg),
    down: support_mm(section, view.azimuth_deg - sense * 90),
    up: support_mm(section, view.azimuth_deg + sense * 90),
    far: support_mm(section, view.azimuth_deg + 180),
  };
  const mirrored = ([x, y]: Point): Point => [side * x, y];
  const corners = cornersOf(section, view);

  holder.drawWalls(pen, view, reach, mm);
  const rails = holder.rails(corners, reach);
  for (const rail of rails)
    pen.polygon(rail.map(mirrored), { fill: '#d8cdb6', stroke: { ...THIN, width_mm: 0.25 } });

  if (section.round) pen.circle([0, 0], section.inscribedRadius_mm, { fill: style.fill, stroke: EDGE });
  else pen.polygon(corners.map(mirrored), { fill: style.fill, stroke: EDGE });
  if (style.numbers === 'all') {
    const cross = Math.min(reach.h, reach.down) * 0.2;
    pen.line([-cross, 0], [cross, 0], AXIS);
    pen.line([0, -cross], [0, cross], AXIS);
  }

  drawMarks(pen, section, view, azimuths, mm, style);
  drawIndex(pen, side, reach.h, mm);
  holder.drawBlade(pen, view, reach, mm);
}

/** How far the blank reaches from its axis: to the wall, up, down and away from the wall. */
interface Reach {
  readonly h: number;
  readonly up: number;
  readonly down: number;
  readonly far: number;
}

/** What holds the blank, and where the blade comes to it. */
interface Holder {
  /** Room on paper below and above the blank. */
  readonly below_mm: number;
  readonly above_mm: number;
  /** The wall that the blank touches, and the table where it is seen. */
  readonly drawWalls: (pen: Pen, view: CradleView, reach: Reach, mm: number) => void;
  readonly rails: (corners: readonly Point[], reach: Reach) => Point[][];
  /** The line of the teeth when the cut is done. */
  readonly drawBlade: (pen: Pen, view: CradleView, reach: Reach, mm: number) => void;
}

const HOLDERS: Readonly<Record<CradleView['kind'], Holder>> = {
  fence: {
    below_mm: WALL_MM,
    above_mm: 5,
    drawWalls: (pen, { side }, { h, up, down, far }, mm) => {
      drawWall(pen, -far - 3 * mm, -down - WALL_MM * mm, far + h + (WALL_MM + 3) * mm, WALL_MM * mm, mm);
      drawTouched(pen, side, h, [-down, up + 2 * mm], mm);
    },
    rails: fenceRails,
    // Along the blade.
    drawBlade: (pen, { web_mm }, { h, up, down }, mm) => {
      const x = h - web_mm;
      pen.line([x, -down - (WALL_MM - 0.5) * mm], [x, up + 4 * mm], BLADE_PATH);
    },
  },
  ledge: {
    below_mm: 3,
    above_mm: 9,
    drawWalls: (pen, { side }, { h, up, down }, mm) =>
      drawTouched(pen, side, h, [-down - 3 * mm, up + 3 * mm], mm),
    rails: ledgeRails,
    // Across the feed.
    drawBlade: (pen, { side, web_mm }, { h, up, down, far }, mm) => {
      const y = web_mm - down;
      pen.line([side * h, y], [-side * (far + 2 * mm), y], BLADE_PATH);
      drawArrow(pen, [-side * 0.4 * far, up + 1.5 * mm], mm);
    },
  },
};

/** The wall that the blank touches. */
function drawTouched(pen: Pen, side: 1 | -1, h: number, [low, high]: Point, mm: number): void {
  drawWall(pen, side === 1 ? h : -h - WALL_MM * mm, low, WALL_MM * mm, high - low, mm);
}

/** Corners of the blank as it lies, counter-clockwise; of a round one those of the eight flats that its rails and walls touch. */
function cornersOf(section: SectionGeometry, view: CradleView): Point[] {
  if (section.round) {
    const reach = section.inscribedRadius_mm / cosDeg(22.5);
    return Array.from({ length: 8 }, (_, i): Point => [
      reach * cosDeg(45 * i + 22.5),
      reach * sinDeg(45 * i + 22.5),
    ]);
  }
  const sense = senseOf(view);
  const [c, s] = [cosDeg(view.azimuth_deg), sinDeg(view.azimuth_deg)];
  const turned = section.corners_mm.map(([x, y]): Point => [c * x + s * y, sense * (c * y - s * x)]);
  return sense === 1 ? turned : turned.toReversed();
}

/** The corners from one to another, counter-clockwise. */
function chain(corners: readonly Point[], from: Point, to: Point): Point[] {
  const start = corners.indexOf(from);
  const found: Point[] = [];
  for (let i = 0; i < corners.length; i++) {
    const corner = corners[(start + i) % corners.length];
    found.push(corner);
    if (corner === to) break;
  }
  return found;
}

/** The corner farthest in a direction, of equal ones the farthest in the second. */
function extreme(corners: readonly Point[], [ax, ay]: Point, [bx, by]: Point): Point {
  const first = Math.max(...corners.map(([x, y]) => ax * x + ay * y));
  return corners
    .filter(([x, y]) => ax * x + ay * y > first - 1e-6)
    .reduce((best, one) => (bx * one[0] + by * one[1] > bx * best[0] + by * best[1] ? one : best));
}

/** One in the corner of fence and table, one on the other side, both under the blank. */
function fenceRails(corners: readonly Point[], { h, down, far }: Reach): Point[][] {
  const right = chain(corners, extreme(corners, [0, -1], [1, 0]), extreme(corners, [1, 0], [0, -1]));
  const left = chain(corners, extreme(corners, [-1, 0], [0, -1]), extreme(corners, [0, -1], [-1, 0]));
  return [
    [...right, [h, -down]],
    [[-far, -down], ...left],
  ];
}

/** Two against the ledge, before and behind the blank. */
function ledgeRails(corners: readonly Point[], { h, up, down }: Reach): Point[][] {
  const above = chain(corners, extreme(corners, [1, 0], [0, 1]), extreme(corners, [0, 1], [1, 0]));
  const below = chain(corners, extreme(corners, [0, -1], [1, 0]), extreme(corners, [1, 0], [0, -1]));
  return [
    [...above, [h, up]],
    [...below, [h, -down]],
  ];
}

function drawWall(pen: Pen, x: number, y: number, width: number, height: number, mm: number): void {
  pen.rectangle([x, y], width, height, { fill: '#e3e7e1' });
  // Hatched at 45°, each line as far as it runs inside.
  for (let at = x - height; at < x + width; at += 2 * mm) {
    const [from, to] = [Math.max(at, x), Math.min(at + height, x + width)];
    pen.line([from, y + from - at], [to, y + to - at], { colour: INK_FAINT, width_mm: 0.12 });
  }
  pen.rectangle([x, y], width, height, { stroke: { ...EDGE, width_mm: 0.3 } });
}

/** Where a direction from the axis leaves the blank. */
export function edgeRadius_mm(section: SectionGeometry, azimuth_deg: number): number {
  if (section.round) return section.inscribedRadius_mm;
  return Math.min(
    ...section.faceAzimuths_deg.map((face, i) => {
      const cosine = cosDeg(azimuth_deg - face);
      return cosine > 1e-9 ? section.faceDistances_mm[i] / cosine : Infinity;
    }),
  );
}

function drawMarks(
  pen: Pen,
  section: SectionGeometry,
  view: CradleView,
  azimuths: readonly number[],
  mm: number,
  { numbers, degrees }: CradleStyle,
): void {
  const own = (azimuth: number) => sameAzimuth(azimuth, view.azimuth_deg);
  const reference = azimuths.find((azimuth) => sameAzimuth(azimuth, 0)) ?? 0;
  for (const azimuth of new Set([reference, ...azimuths])) {
    const turn = directionOf(view, azimuth);
    const [c, s] = [cosDeg(turn), sinDeg(turn)];
    const edge = edgeRadius_mm(section, azimuth);
    const inner = edge - TICK_MM * mm;
    const stroke = own(azimuth) ? { colour: MARK, width_mm: 0.5 } : { colour: INK, width_mm: 0.25 };
    pen.line([inner * c, inner * s], [edge * c, edge * s], stroke);
    if (azimuth === reference) {
      // The reference is a triangle on its edge.
      const half = 1.1 * mm;
      const tip = inner - 0.4 * mm;
      const place = (r: number, t: number): Point => [r * c - t * s, r * s + t * c];
      pen.polygon([place(tip, 0), place(edge - 0.6 * mm, half), place(edge - 0.6 * mm, -half)], {
        fill: own(azimuth) ? MARK : INK,
      });
    }
    if (numbers === 'own' && !own(azimuth)) continue;
    const [text, size_pt] = [degrees(azimuth), numbers === 'all' ? 8 : 7];
    // As far in as its half width or height asks for in that direction.
    const half = (Math.abs(c) * roomyWidth_mm(text, size_pt)) / 2 + Math.abs(s) * 1.1;
    const at = inner - (half + 0.8) * mm;
    pen.text([at * c, at * s - 0.9 * mm], text, {
      size_pt,
      weight: own(azimuth) ? 'semibold' : 'regular',
      align: 'center',
      colour: own(azimuth) ? MARK : INK_SOFT,
    });
  }
  if (numbers === 'own') return;
  section.faceAzimuths_deg.forEach((face, i) => {
    const turn = directionOf(view, face);
    // On the first face stand the reference mark and its degrees.
    const at = section.faceDistances_mm[i] - (i === 0 ? 11 : 3.4) * mm;
    pen.text([at * cosDeg(turn), at * sinDeg(turn) - 1.2 * mm], 'ABCDEFGH'[i], {
      size_pt: 9,
      weight: 'semibold',
      align: 'center',
      colour: INK,
    });
  });
}

/** On fence or ledge, level with the axis. */
function drawIndex(pen: Pen, side: 1 | -1, h: number, mm: number): void {
  const from = side * (h + (WALL_MM + INDEX_MM - 1) * mm);
  pen.line([from, 0], [side * h, 0], { colour: MARK, width_mm: 0.5 });
  pen.polygon(
    [
      [side * h, 0],
      [side * (h + 2.6 * mm), 0.9 * mm],
      [side * (h + 2.6 * mm), -0.9 * mm],
    ],
    { fill: MARK },
  );
}

/** The way the blank is fed. */
function drawArrow(pen: Pen, [x, y]: Point, mm: number): void {
  pen.line([x, y], [x, y + 5 * mm], { colour: INK, width_mm: 0.4 });
  const tip = y + 6.5 * mm;
  pen.polygon(
    [
      [x, tip],
      [x - 1.1 * mm, tip - 2.6 * mm],
      [x + 1.1 * mm, tip - 2.6 * mm],
    ],
    { fill: INK },
  );
  pen.text([x + 2 * mm, y + 2 * mm], 'feed', { size_pt: 7.5, colour: INK_SOFT });
}
