/**
 * A cut with the table tilted, to scale, in two views side by side: as one sees it who feeds the blank away from himself
 * (blade upright, table tilted, the blank on it against the ledge), and square down on the tilted table (the kerf as it
 * opens the upper end, the side where the blade enters at the top, the web at the bottom).
 *
 * Local frames, mm of wood: first view e along the table from the blade, positive to the right, n square to the table from
 * its surface; second view e likewise, y the way the blank is fed, 0 at the teeth when the cut is done.
 */
import { sectionGeometry, support_mm, type SectionGeometry } from '../../blank/section.ts';
import { cosDeg, sinDeg } from '../../geometry/angle.ts';
import { dot } from '../../geometry/vector.ts';
import { traceAtEnd_mm, webSide, type TableSetup } from '../../plan/tableSetup.ts';
import { clipWhereNotPositive, flatsOf, slotOnFlat } from './faces.ts';
import { BLADE, BLADE_PATH, EDGE, FAINT, INK, INK_FAINT, INK_SOFT, MARK, paler, PAPER, THIN } from './ink.ts';
import type { Pen, Point } from './pen.ts';
import { layersAsSlots } from './piece.ts';
import { bestScale, extentOf } from './scales.ts';
import type { SetupDrawing } from './setup.ts';

/** Paper sizes of what has no true size, mm. */
const TABLE_MM = 3.5;
const LEDGE_MM = 4;
const PAST_MM = 6;
const DIMENSION_MM = 5;
const BETWEEN_MM = 7;
const ARROW_MM = 9;
/** The line that stands square on the table beside the blade. */
const SQUARE_MM = 12;
/** Room for the number of the tilt beside it. */
const NUMBER_MM = 11;

/** Draws into a box of the given size from the pen's origin; returns the scale, as in 1 : n. */
export function drawTableSetup(
  paper: Pen,
  width_mm: number,
  height_mm: number,
  drawing: SetupDrawing,
  table: TableSetup,
): number {
  const laid = laidOn(drawing, table);
  if (laid === null) {
    paper.text([width_mm / 2, height_mm / 2], 'The kerf lies flat on the table: no blade can come to it.', {
      size_pt: 8.5,
      align: 'center',
      colour: INK_SOFT,
    });
    return 1;
  }
  const views = (n: number) => ({
    front: extentOf(frontCorners(laid, n)),
    top: extentOf(topCorners(laid, n)),
  });
  const scale = bestScale(width_mm, height_mm, (n) => {
    const { front, top } = views(n);
    return {
      left: 0,
      right: front.right - front.left + BETWEEN_MM + top.right - top.left,
      bottom: 0,
      top: Math.max(front.top - front.bottom, top.top - top.bottom),
    };
  });
  const { front, top } = views(scale);
  const used = front.right - front.left + BETWEEN_MM + top.right - top.left;
  const left = (width_mm - used) / 2;
  const middle = height_mm / 2;
  drawFront(paper.within([left - front.left, middle - (front.top + front.bottom) / 2]), laid, scale);
  const topLeft = left + front.right - front.left + BETWEEN_MM;
  drawTop(paper.within([topLeft - top.left, middle - (top.top + top.bottom) / 2]), laid, scale);
  return scale;
}

/** The blank as it lies. */
interface Laid extends SetupDrawing {
  readonly table: TableSetup;
  readonly section: SectionGeometry;
  /** +1: the ledge is on the right. */
  readonly right: 1 | -1;
  /** e of the ledge, and of the far side of the blank. */
  readonly ledge: number;
  readonly far: number;
  readonly height: number;
  readonly turn_rad: number;
}

function laidOn(drawing: SetupDrawing, table: TableSetup): Laid | null {
  if (table.ledge_to_kerf_center_mm === null) return null;
  const { design, slot } = drawing;
  const section = sectionGeometry(design.blank.section);
  const right = table.tilts === 'right' ? 1 : -1;
  const across = slot.fenceSupport_mm + support_mm(section, slot.fenceAzimuth_deg + 180);
  const ledge = right * table.ledge_to_kerf_center_mm;
  return {
    ...drawing,
    table,
    section,
    right,
    ledge,
    far: ledge - right * across,
    height: design.blank.length_mm,
    turn_rad: (-right * table.tilt_deg * Math.PI) / 180,
  };
}

/** e of a distance u toward the ledge. */
function eOf({ right, ledge, slot }: Laid, u: number): number {
  return ledge + right * (u - slot.fenceSupport_mm);
}

// ---- Seen along the feed

function onPaper({ turn_rad }: Laid, [e, n]: Point): Point {
  const [c, s] = [Math.cos(turn_rad), Math.sin(turn_rad)];
  return [c * e - s * n, s * e + c * n];
}

/** Ends of the table and of the blade's line, mm of wood at 1 : n. */
function reachOf(laid: Laid, n: number): { table: [number, number]; blade: [number, number] } {
  const { ledge, far, height, right } = laid;
  const edge = ledge + right * (LEDGE_MM + 2) * n;
  const other = Math.min(far * right, 0) * right - right * 3 * n;
  const corners = [ledge, far].flatMap((e) => [0, height].map((up) => onPaper(laid, [e, up])[1]));
  return {
    table: [Math.min(edge, other), Math.max(edge, other)],
    blade: [
      -(TABLE_MM + PAST_MM) * n,
      Math.max(Math.max(...corners) + PAST_MM * n, upperExit(laid).at[1] + SQUARE_MM * n),
    ],
  };
}

function frontCorners(laid: Laid, n: number): Point[] {
  const { table, blade } = reachOf(laid, n);
  const below = -(TABLE_MM + DIMENSION_MM + 4) * n;
  const local: Point[] = [
    ...table.flatMap((e): Point[] => [
      [e, 0],
      [e, -TABLE_MM * n],
    ]),
    [0, below],
    [laid.ledge, below],
    ...[laid.ledge, laid.far].map((e): Point => [e, laid.height]),
  ];
  const { at, up } = upperExit(laid);
  const number: Point = [
    at[0] + up[0] * SQUARE_MM * n + laid.right * NUMBER_MM * n,
    at[1] + up[1] * SQUARE_MM * n,
  ];
  const points = [...local.map((point) => onPaper(laid, point)), ...blade.map((y): Point => [0, y]), number];
  return points.map(([x, y]): Point => [x / n, y / n]);
}

function drawFront(pen: Pen, laid: Laid, mm: number): void {
  const { ledge, height, right, slot, colours, setup } = laid;
  const { table, blade } = reachOf(laid, mm);
  const upright = pen.within([0, 0], 1 / mm);
  const tilted = pen.within([0, 0], 1 / mm, laid.turn_rad);

  drawBoard(tilted, [table[0], -TABLE_MM * mm], table[1] - table[0], TABLE_MM * mm, mm);
  const ledgeHigh = Math.min(0.5 * height, 12 * mm);
  tilted.rectangle([right > 0 ? ledge : ledge - LEDGE_MM * mm, 0], LEDGE_MM * mm, ledgeHigh, {
    fill: INK_SOFT,
    stroke: EDGE,
  });
  const from = Math.min(ledge, laid.far);
  const wide = Math.abs(ledge - laid.far);
  tilted.rectangle([from, 0], wide, height, { fill: paler(colours.body, 0.55) });
  drawFilled(tilted, laid);
  tilted.rectangle([from, 0], wide, height, { stroke: EDGE });
  drawKerf(tilted, laid, mm);

  upright.line([0, blade[0]], [0, blade[1]], BLADE_PATH);
  drawTilt(upright, laid, mm);
  drawLedgeDimension(tilted, laid, mm);

  const turn = (laid.turn_rad * 180) / Math.PI;
  const letter = { size_pt: 9, weight: 'semibold', align: 'center', colour: INK, angle_deg: turn } as const;
  const inset = 3.2 * mm;
  if (setup.face) tilted.text([ledge - right * inset, height / 2 - 1.5 * mm], setup.face, letter);
  const opposite = flatsOf(laid.section).find(({ azimuth_deg }) =>
    sameTurn(azimuth_deg, slot.fenceAzimuth_deg + 180),
  );
  if (opposite) tilted.text([laid.far + right * inset, height / 2 - 1.5 * mm], opposite.letter, letter);
  const word = { size_pt: 8, align: 'center', colour: INK_SOFT, angle_deg: turn } as const;
  const [down, up] = laid.table.end_down === 'foot' ? ['foot', 'head'] : ['head', 'foot'];
  // Away from the kerf: in the wider part beside it.
  const aside = Math.abs(ledge) > Math.abs(laid.far) ? ledge / 2 : laid.far / 2;
  tilted.text([aside, 1.2 * mm], down, word);
  tilted.text([aside, height - 3.6 * mm], up, word);
}

function sameTurn(a: number, b: number): boolean {
  const turn = Math.abs(a - b) % 360;
  return Math.min(turn, 360 - turn) < 1e-9;
}

function drawBoard(pen: Pen, [x, y]: Point, width: number, height: number, mm: number): void {
  const steps: Point[] = [
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ];
  pen.polygon(steps, { fill: '#e3e7e1' });
  pen.clipped(
    steps.map((point, i) => [i === 0 ? 'move' : 'line', point] as const),
    (inside) => {
      for (let at = x - height; at < x + width; at += 2 * mm)
        inside.line([at, y], [at + height, y + height], { colour: INK_FAINT, width_mm: 0.12 });
    },
  );
  pen.polygon(steps, { stroke: EDGE });
}

/** Strips that are in already, on the side of the web, which faces the one who feeds. */
function drawFilled(pen: Pen, laid: Laid): void {
  const { section, filled, slot, colours, height } = laid;
  const side = webSide(slot);
  const flat = flatsOf(section).find(({ azimuth_deg }) =>
    sameTurn(azimuth_deg, slot.fenceAzimuth_deg + 90 * side),
  );
  if (!flat) return;
  const up = laid.table.end_down === 'foot';
  for (const one of filled)
    for (const layer of layersAsSlots(one)) {
      const shown = slotOnFlat(layer, flat, height);
      if (shown.length === 0) continue;
      pen.polygon(
        // Along a face at the fence azimuth ± 90° t runs away from or toward the ledge.
        shown.map(([t, z]): Point => [eOf(laid, -side * t), up ? z : height - z]),
        {
          fill: paler(colours.timber(layer.layers[0].timber), 0.15),
          stroke: { colour: INK_FAINT, width_mm: 0.08 },
        },
      );
    }
}

/** The kerf between the ends and sides of the blank; behind the web. */
function drawKerf(pen: Pen, laid: Laid, mm: number): void {
  const { slot, table, ledge, far, height } = laid;
  const cosine = cosDeg(table.tilt_deg);
  // A kerf thinner than the line it is drawn with is opened to half a millimetre of paper.
  const half = Math.max(slot.kerf_mm / 2 / cosine, 0.25 * mm);
  // Upright on paper: e rises by −right · tan θ per unit of n.
  const slope = -laid.right * (sinDeg(table.tilt_deg) / cosine);
  const polygon: Point[] = [
    [-half, 0],
    [half, 0],
    [slope * height + half, height],
    [slope * height - half, height],
  ];
  const [low, high] = [Math.min(ledge, far), Math.max(ledge, far)];
  const inside = [(p: Point) => low - p[0], (p: Point) => p[0] - high].reduce(clipWhereNotPositive, polygon);
  if (inside.length > 0) pen.polygon(inside, { fill: PAPER, stroke: { ...BLADE, dash_mm: [1.6, 0.8] } });
}

/** Where the blade leaves the upper face, and the way square up from the table, on paper at 1 : 1. */
function upperExit(laid: Laid): { at: Point; up: Point } {
  const e = -laid.right * (sinDeg(laid.table.tilt_deg) / cosDeg(laid.table.tilt_deg)) * laid.height;
  return { at: onPaper(laid, [e, laid.height]), up: onPaper(laid, [0, 1]) };
}

/** The tilt: between the blade and what stands square on the table. */
function drawTilt(pen: Pen, laid: Laid, mm: number): void {
  const { right, labels } = laid;
  const { at, up } = upperExit(laid);
  const square: Point = [at[0] + up[0] * SQUARE_MM * mm, at[1] + up[1] * SQUARE_MM * mm];
  pen.line(at, square, FAINT);
  const radius = (SQUARE_MM - 3) * mm;
  const [from, to] = [Math.atan2(up[1], up[0]), Math.PI / 2].sort((a, b) => a - b);
  pen.arc(at, radius, from, to, { colour: MARK, width_mm: 0.25 });
  pen.text([square[0] + right * 1.2 * mm, square[1] - 1 * mm], labels.angle, {
    size_pt: 8.5,
    weight: 'semibold',
    align: right > 0 ? 'left' : 'right',
    colour: MARK,
    halo: PAPER,
  });
}

function drawLedgeDimension(pen: Pen, laid: Laid, mm: number): void {
  const { ledge, labels, turn_rad } = laid;
  const y = -(TABLE_MM + DIMENSION_MM) * mm;
  for (const e of [0, ledge]) pen.line([e, -(TABLE_MM + 0.8) * mm], [e, y - 1.2 * mm], THIN);
  pen.line([0, y], [ledge, y], THIN);
  const sign = ledge >= 0 ? 1 : -1;
  for (const [e, way] of [
    [0, sign],
    [ledge, -sign],
  ] as const)
    pen.polygon(
      [
        [e, y],
        [e + way * 2.2 * mm, y + 0.6 * mm],
        [e + way * 2.2 * mm, y - 0.6 * mm],
      ],
      { fill: INK },
    );
  pen.text([ledge / 2, y - 3.4 * mm], labels.stop, {
    size_pt: 8.5,
    weight: 'semibold',
    align: 'center',
    colour: INK,
    angle_deg: (turn_rad * 180) / Math.PI,
    halo: PAPER,
  });
}

// ---- Seen square down on the table

/** y of a distance toward the web: what is fed first lies at the top. */
function yOf({ slot }: Laid, out: number): number {
  return slot.stop_mm - out;
}

function topCorners(laid: Laid, n: number): Point[] {
  const { top, bottom } = sideReach(laid);
  const [left, right] = [Math.min(laid.ledge, laid.far), Math.max(laid.ledge, laid.far)];
  const beside = LEDGE_MM * n;
  return [
    [(left - (laid.right < 0 ? beside : n)) / n, (bottom - 7 * n) / n],
    [(right + (laid.right > 0 ? beside : n)) / n, (top + (ARROW_MM + 5) * n) / n],
  ];
}

function sideReach(laid: Laid): { top: number; bottom: number } {
  const { section, slot } = laid;
  const side = webSide(slot);
  return {
    top: yOf(laid, -support_mm(section, slot.fenceAzimuth_deg - 90 * side)),
    bottom: yOf(laid, support_mm(section, slot.fenceAzimuth_deg + 90 * side)),
  };
}

function drawTop(paper: Pen, laid: Laid, mm: number): void {
  const pen = paper.within([0, 0], 1 / mm);
  const { section, slot, colours, ledge, right, table } = laid;
  const { top, bottom } = sideReach(laid);
  const fill = paler(colours.body, 0.55);
  if (section.round) {
    const middle: Point = [eOf(laid, 0), yOf(laid, 0)];
    pen.circle(middle, section.inscribedRadius_mm, { fill, stroke: EDGE });
  } else {
    const corner = ([x, y]: readonly [number, number]): Point => [
      eOf(laid, dot(slot.fenceDirection, [x, y, 0])),
      yOf(laid, dot(slot.stopNormal, [x, y, 0])),
    ];
    pen.polygon(section.corners_mm.map(corner), { fill, stroke: EDGE });
  }
  pen.rectangle(
    [right > 0 ? ledge : ledge - LEDGE_MM * mm, bottom - 3 * mm],
    LEDGE_MM * mm,
    top - bottom + 6 * mm,
    { fill: INK_SOFT, stroke: EDGE },
  );
  drawOpening(pen, laid, mm, top);

  const center = (ledge + laid.far) / 2;
  pen.line([center, top + 2 * mm], [center, top + ARROW_MM * mm], { colour: INK, width_mm: 0.4 });
  const tip = top + (ARROW_MM + 1) * mm;
  pen.polygon(
    [
      [center, tip],
      [center - 1.2 * mm, tip - 3 * mm],
      [center + 1.2 * mm, tip - 3 * mm],
    ],
    { fill: INK },
  );
  pen.text([center + 2 * mm, top + 5 * mm], 'feed', { size_pt: 8, colour: INK_SOFT });
  const letter = { size_pt: 9, weight: 'semibold', align: 'center', colour: INK, halo: fill } as const;
  const aside =
    center + (Math.abs(ledge) > Math.abs(laid.far) ? 0.3 : -0.3) * Math.abs(ledge - laid.far) * right;
  if (table.entry_face) pen.text([aside, top - 4.2 * mm], table.entry_face, letter);
  if (table.web_face) pen.text([aside, bottom + 1.6 * mm], table.web_face, letter);
}

/** The kerf as it opens the upper end of the blank, from the side of entry to the stop, and the web beyond. */
function drawOpening(pen: Pen, laid: Laid, mm: number, top: number): void {
  const { slot, table, design, section, labels, ledge, far } = laid;
  const upper = table.end_down === 'foot' ? design.blank.length_mm : 0;
  const trace = traceAtEnd_mm(slot, upper);
  if (trace === null) return;
  const e = eOf(laid, trace);
  const half = Math.max(slot.kerf_mm / 2 / cosDeg(table.tilt_deg), 0.25 * mm);
  const band: Point[] = [
    [e - half, 0],
    [e + half, 0],
    [e + half, top],
    [e - half, top],
  ];
  const [low, high] = [Math.min(ledge, far), Math.max(ledge, far)];
  const sides = section.round
    ? [(p: Point) => low - p[0], (p: Point) => p[0] - high]
    : section.faceAzimuths_deg.map((azimuth, face) => {
        const normal = [cosDeg(azimuth), sinDeg(azimuth), 0] as const;
        const [u, out] = [dot(normal, slot.fenceDirection), dot(normal, slot.stopNormal)];
        return (p: Point) =>
          u * (laid.right * (p[0] - ledge) + slot.fenceSupport_mm) +
          out * (slot.stop_mm - p[1]) -
          section.faceDistances_mm[face];
      });
  const inside = sides.reduce(clipWhereNotPositive, band);
  if (inside.length > 0) pen.polygon(inside, { fill: PAPER, stroke: BLADE });
  const web: Point = [e, -slot.web_mm / 2];
  const far_y = -slot.web_mm - 5 * mm;
  pen.circle(web, 0.45 * mm, { fill: MARK });
  pen.line(web, [e + 3 * mm, far_y + 1.5 * mm], { colour: MARK, width_mm: 0.15 });
  pen.text([e + 3.4 * mm, far_y - 0.4 * mm], labels.web, {
    size_pt: 7.5,
    colour: MARK,
    align: 'left',
    halo: PAPER,
  });
}
