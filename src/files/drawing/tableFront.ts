/**
 * A cut with the table tilted as one sees it who feeds the blank away from himself: blade upright, table tilted, the blank
 * on it against the ledge. Local frame, mm of wood: e along the table from the blade, positive to the right, n square to
 * the table from its surface.
 */
import { layersAsSlots } from '../../blank/bands.ts';
import { DEG, cosDeg, sameAzimuth, sinDeg } from '../../geometry/angle.ts';
import { webSide } from '../../plan/tableSetup.ts';
import { drawDimensionLine } from './dimension.ts';
import { clipWhereNotPositive, flatsOf, slotOnFlat } from './faces.ts';
import { BLADE, BLADE_PATH, EDGE, FAINT, INK, INK_FAINT, INK_SOFT, MARK, paler, PAPER, THIN } from './ink.ts';
import { Room, type Spot } from './labels.ts';
import { Pen, type Point } from './pen.ts';
import { eOf, LEDGE_MM, type Laid } from './tableLaid.ts';

/** Paper sizes of what has no true size, mm. */
const TABLE_MM = 3.5;
const PAST_MM = 6;
const DIMENSION_MM = 5;
/** The line that stands square on the table beside the blade. */
const SQUARE_MM = 12;
/** Room for the number of the tilt beside it. */
const NUMBER_MM = 11;
const everywhere = { left: -Infinity, right: Infinity, bottom: -Infinity, top: Infinity };

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

export function frontCorners(laid: Laid, n: number): Point[] {
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

export function drawFront(pen: Pen, laid: Laid, mm: number): void {
  const { ledge, height, right, slot, colours, setup } = laid;
  const before = pen.items.length;
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

  const turn = laid.turn_rad / DEG;
  const letter = { size_pt: 9, weight: 'semibold', align: 'center', colour: INK, angle_deg: turn } as const;
  const inset = 3.2 * mm;
  if (setup.face) tilted.text([ledge - right * inset, height / 2 - 1.5 * mm], setup.face, letter);
  const opposite = flatsOf(laid.section).find(({ azimuth_deg }) =>
    sameAzimuth(azimuth_deg, slot.fenceAzimuth_deg + 180),
  );
  if (opposite) tilted.text([laid.far + right * inset, height / 2 - 1.5 * mm], opposite.letter, letter);
  const word = { size_pt: 8, align: 'center', colour: INK_SOFT, angle_deg: turn } as const;
  const [down, up] = laid.table.end_down === 'foot' ? ['foot', 'head'] : ['head', 'foot'];
  // Away from the kerf: in the wider part beside it first.
  const wider = Math.abs(ledge) > Math.abs(laid.far) ? [ledge, laid.far] : [laid.far, ledge];
  const places = [0.5, 0.6, 0.4, 0.7].flatMap((share) => wider.map((end) => share * end));
  const room = new Room(pen.items.slice(before), everywhere);
  for (const [name, n] of [
    [down, 1.2 * mm],
    [up, height - 3.6 * mm],
  ] as const) {
    const spots = places.map((e): Spot => ({ at: tilted.place([e, n]), angle_deg: turn }));
    const { at } = room.free(name, word, spots) ?? spots[0];
    new Pen(pen.items).text(at, name, word);
  }
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
    sameAzimuth(azimuth_deg, slot.fenceAzimuth_deg + 90 * side),
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
  const { at, up } = upperExit(laid);
  const square: Point = [at[0] + up[0] * SQUARE_MM * mm, at[1] + up[1] * SQUARE_MM * mm];
  pen.line(at, square, FAINT);
  const radius = (SQUARE_MM - 3) * mm;
  const [from, to] = [Math.atan2(up[1], up[0]), Math.PI / 2].sort((a, b) => a - b);
  pen.arc(at, radius, from, to, { colour: MARK, width_mm: 0.25 });
}

function drawLedgeDimension(pen: Pen, laid: Laid, mm: number): void {
  const { ledge } = laid;
  const y = -(TABLE_MM + DIMENSION_MM) * mm;
  for (const e of [0, ledge]) pen.line([e, -(TABLE_MM + 0.8) * mm], [e, y - 1.2 * mm], THIN);
  drawDimensionLine(pen, [0, ledge], y, mm);
}

export const TILT_STYLE = { size_pt: 8.5, weight: 'semibold', colour: MARK, halo: PAPER } as const;
export const LEDGE_STYLE = {
  size_pt: 8.5,
  weight: 'semibold',
  align: 'center',
  colour: INK,
  halo: PAPER,
} as const;

/** Beside the end of the line that stands square on the table, then lower beside it, then past the blade. */
export function tiltSpots(pen: Pen, laid: Laid, mm: number): Spot[] {
  const { right } = laid;
  const { at, up } = upperExit(laid);
  const spot = (share: number, aside: number): Spot => {
    const [x, y] = [at[0] + up[0] * share * SQUARE_MM * mm, at[1] + up[1] * share * SQUARE_MM * mm];
    const out = right * aside;
    return { at: pen.place([(x + out * mm) / mm, y / mm - 1]), align: out > 0 ? 'left' : 'right' };
  };
  const past = (share: number): Spot => ({
    at: pen.place([(-right * 2 * mm) / mm, (at[1] + share * SQUARE_MM * mm) / mm]),
    align: right > 0 ? 'right' : 'left',
  });
  return [
    ...[1.2, 2, 3, 4].flatMap((aside) => [1, 0.8, 0.6, 0.4].map((share) => spot(share, aside))),
    ...[0.7, 0.5, 0.3].map(past),
  ];
}

/** Below the dimension from the ledge to the kerf: under its middle, to either side, lower, beyond its ends. */
export function ledgeSpots(pen: Pen, laid: Laid, mm: number): Spot[] {
  const { ledge, turn_rad } = laid;
  const tilted = pen.within([0, 0], 1 / mm, turn_rad);
  const angle_deg = turn_rad / DEG;
  const y = -(TABLE_MM + DIMENSION_MM);
  const spot = (e: number, up: number): Spot => ({ at: tilted.place([e, up * mm]), angle_deg });
  const along = [0.5, 0.4, 0.6, 0.3, 0.7].map((share) => share * ledge);
  const beyond = [9, 12, 15].flatMap((out) => [Math.max(0, ledge) + out * mm, Math.min(0, ledge) - out * mm]);
  return [
    ...along.map((e) => spot(e, y - 3.4)),
    ...along.map((e) => spot(e, y + 1)),
    ...beyond.flatMap((e) => [spot(e, y - 0.9), spot(e, y - 3.4)]),
    ...along.map((e) => spot(e, y - 6)),
  ];
}

/** The middle of the arc of the tilt, and of the dimension from the ledge to the kerf, on paper. */
export function tiltPlace(pen: Pen, laid: Laid, mm: number): Point {
  const { at, up } = upperExit(laid);
  const turn = (Math.atan2(up[1], up[0]) + Math.PI / 2) / 2;
  return pen.place([
    at[0] / mm + (SQUARE_MM - 3) * Math.cos(turn),
    at[1] / mm + (SQUARE_MM - 3) * Math.sin(turn),
  ]);
}

export function ledgePlace(pen: Pen, laid: Laid, mm: number): Point {
  const tilted = pen.within([0, 0], 1 / mm, laid.turn_rad);
  return tilted.place([laid.ledge / 2, -(TABLE_MM + DIMENSION_MM) * mm]);
}
