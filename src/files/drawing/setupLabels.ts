/**
 * The words on the drawing of a cut at the fence: angle, stop and web beside what they name, letters of the faces and names
 * of the ends on the blank, each where no other ink lies. Local frame as in setup.ts, mm of wood.
 */
import { DEG } from '../../geometry/angle.ts';
import { INK, INK_SOFT, MARK, PAPER, THIN } from './ink.ts';
import { drawLabel, drawLedLabel, leastOf, type Room, type Spot } from './labels.ts';
import { Pen, type Point } from './pen.ts';
import { faceUp, headIsRight, type SetupDrawing, type Stretch } from './setupLaid.ts';

/** Paper sizes of what has no true size, mm. */
export const FENCE_MM = 5;
export const DIMENSION_MM = 6;
export const ARC_MM = 11;

export interface Laying {
  /** Where the middle of the kerf meets the fence. */
  readonly atFence: number;
  /** Of the drawn blank, without an end, a break or the cut in them. */
  readonly plain: readonly Stretch[];
  readonly end: number;
  readonly depth: number;
  /** A millimetre of paper. */
  readonly mm: number;
  readonly lean: number;
}

/** Writes all words; `room` looks at what is drawn so far. */
export function writeLabels(pen: Pen, room: () => Room, drawing: SetupDrawing, laying: Laying): void {
  const { atFence, mm, lean } = laying;
  const page = new Pen(pen.items);
  const [from, to] = acuteSide(lean);
  const middle = (from + to) / 2;
  const arc = pen.place([atFence + ARC_MM * mm * Math.cos(middle), ARC_MM * mm * Math.sin(middle)]);
  drawLabel(page, room(), drawing.labels.angle, ANGLE_STYLE, angleSpots(pen, laying), arc);
  drawEnds(pen, room, drawing, laying);
  drawLetters(pen, room, drawing, laying);
  const dimension = pen.place([atFence / 2, (FENCE_MM + DIMENSION_MM) * mm]);
  drawLabel(page, room(), drawing.labels.stop, STOP_STYLE, stopSpots(pen, laying), dimension);
  const half = drawing.slot.web_mm / 2;
  const web = pen.place([atFence - Math.tan(lean) * half, -half]);
  drawLedLabel(page, room(), web, drawing.labels.web, { size_pt: 7.5, colour: MARK });
}

const ANGLE_STYLE = { size_pt: 8.5, weight: 'semibold', align: 'center', colour: MARK } as const;
const STOP_STYLE = { size_pt: 8.5, weight: 'semibold', align: 'center', colour: INK, halo: PAPER } as const;

/** Directions of the fence and of the blade line on the side where they make the acute angle. */
export function acuteSide(lean: number): [number, number] {
  const blade = -Math.PI / 2 - lean;
  return lean > 0 ? [-Math.PI, blade] : [blade, 0];
}

/** Beyond the arc, half-way between fence and blade line first; then nearer to either, farther out, inside it. */
function angleSpots(pen: Pen, { atFence, lean, mm }: Laying): Spot[] {
  const [from, to] = acuteSide(lean);
  return [4.5, 6, 8, 10, 13, 16, -4, -6].flatMap((beyond) =>
    [0.5, 0.6, 0.4, 0.7, 0.3].map((share): Spot => {
      const turn = from + share * (to - from);
      const radius = (ARC_MM + beyond) * mm;
      const [x, y] = pen.place([atFence + Math.cos(turn) * radius, Math.sin(turn) * radius]);
      return { at: [x, y - 1.1] };
    }),
  );
}

/** Along the dimension, over its middle first; then to either side of it, below it, beyond its ends, higher up. */
function stopSpots(pen: Pen, { atFence, lean, mm }: Laying): Spot[] {
  const y = FENCE_MM + DIMENSION_MM;
  const angle_deg = lean / DEG;
  const spot = (x: number, up: number): Spot => ({ at: pen.place([x, up * mm]), angle_deg });
  const along = [0.5, 0.4, 0.6, 0.3, 0.7].map((share) => share * atFence);
  const beyond = [9, 12, 15, 18].flatMap((out) => [
    Math.min(0, atFence) - out * mm,
    Math.max(0, atFence) + out * mm,
  ]);
  return [
    ...along.map((x) => spot(x, y + 1.2)),
    ...along.map((x) => spot(x, y - 3.6)),
    ...beyond.flatMap((x) => [spot(x, y - 0.8), spot(x, y + 1.2), spot(x, y - 3)]),
    ...along.flatMap((x) => [spot(x, y + 3.4), spot(x, y + 5.6)]),
  ];
}

/** Names of the ends along them; never upside down. */
function drawEnds(
  pen: Pen,
  room: () => Room,
  { setup }: SetupDrawing,
  { end, depth, mm, lean }: Laying,
): void {
  const turn = lean / DEG;
  const readable = (angle: number) => (angle > 90 ? angle - 180 : angle <= -90 ? angle + 180 : angle);
  const angle_deg = readable(turn + 90);
  // Centred on a line 2.2 mm from the end: the baseline lies on the side that the letters stand on.
  const side = angle_deg > 0 === turn + 90 > 0 && Math.abs(angle_deg - turn - 90) < 1 ? 1 : -1;
  const quiet = { size_pt: 8, align: 'center', colour: INK_SOFT, angle_deg } as const;
  const [left, right] = headIsRight(setup) ? ['foot', 'head'] : ['head', 'foot'];
  for (const [name, x] of [
    [left, (2.2 + side) * mm],
    [right, end - (2.2 - side) * mm],
  ] as const) {
    const spots = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8].map((share): Spot => ({
      at: pen.place([x, -share * depth]),
      angle_deg,
    }));
    new Pen(pen.items).text(room().best(name, quiet, spots).at, name, quiet);
  }
}

const CIRCLE_MM = 3.4;

/** Letters of the faces: up in a circle, that at the fence and that of the entry beside their edges. */
function drawLetters(
  pen: Pen,
  room: () => Room,
  { design, setup }: SetupDrawing,
  { plain, end, depth, mm, lean }: Laying,
): void {
  const longest = plain.reduce((best, one) => (one.to - one.from > best.to - best.from ? one : best));
  const wanted = (longest.from + longest.to) / 2;
  const places = [wanted, ...Array.from({ length: 25 }, (_, i) => ((i + 0.5) / 25) * end)].sort(
    (a, b) => Math.abs(a - wanted) - Math.abs(b - wanted),
  );
  const page = new Pen(pen.items);
  const up = faceUp(design, setup).letter;
  const small = {
    size_pt: 9,
    weight: 'semibold',
    align: 'center',
    colour: INK,
    angle_deg: lean / DEG,
  } as const;
  if (up) {
    const here = room();
    const half = (CIRCLE_MM + 0.6) * mm;
    const centers = places.flatMap((x) => [0.5, 0.4, 0.6].map((share): Point => [x, -share * depth]));
    const [x, y] = leastOf(centers, ([cx, cy]) =>
      here.ink(
        [
          [cx - half, cy - half],
          [cx + half, cy - half],
          [cx + half, cy + half],
          [cx - half, cy + half],
        ].map(([px, py]) => pen.place([px, py])),
      ),
    );
    pen.circle([x, y], CIRCLE_MM * mm, { fill: PAPER, stroke: THIN });
    pen.text([x, y - 1.5 * mm], up, { ...small, size_pt: 12 });
  }
  for (const [letter, y] of [
    [setup.face, -4.3 * mm],
    [setup.entry_face, -depth + 2 * mm],
  ] as const) {
    if (letter === null) continue;
    const spots = places.map((x): Spot => ({ at: pen.place([x, y]), angle_deg: small.angle_deg }));
    page.text(room().best(letter, small, spots).at, letter, small);
  }
}
