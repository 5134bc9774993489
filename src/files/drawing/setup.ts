/**
 * One cut as it lies at the saw, seen from above: the blank against the fence, the stop, the line that the
 * blade takes (upright on paper), the web it leaves. To scale; where the blank is long its plain stretches are
 * left out. Drawn for a stop on the left as one faces the fence. Cuts with the table tilted: tableSetup.ts.
 *
 * Local frame, mm of wood: x along the fence from the stop, y = 0 at the fence face, the blank below it.
 */
import { sectionGeometry, support_mm } from '../../blank/section.ts';
import type { Slot } from '../../blank/slots.ts';
import type { Design } from '../../design/document.ts';
import { normalizeDegrees } from '../../geometry/angle.ts';
import type { Setup } from '../../plan/setups.ts';
import { clipWhereNotPositive, flatsOf, slotOnFlat } from './faces.ts';
import { BLADE, BLADE_PATH, EDGE, INK, INK_FAINT, INK_SOFT, MARK, paler, PAPER, THIN } from './ink.ts';
import { Pen, type Colour, type Point } from './pen.ts';
import { layersAsSlots } from './piece.ts';
import { bestScale, extentOf, type Extent } from './scales.ts';
import { drawTableSetup } from './tableSetup.ts';

export interface SetupDrawing {
  readonly design: Design;
  readonly setup: Setup;
  readonly slot: Slot;
  /** Slots whose strips are in already, in cutting order. */
  readonly filled: readonly Slot[];
  readonly colours: { readonly body: Colour; readonly timber: (id: string) => Colour };
  /** `stop`: from the stop, or with the table tilted from the ledge, to the middle of the kerf. */
  readonly labels: { readonly angle: string; readonly stop: string; readonly web: string };
}

/** Face that lies up when the stop stands on the left; null where no flat does. */
export function faceUp(design: Design, setup: Setup): { letter: string | null; azimuth_deg: number } {
  const azimuth_deg = upAzimuth_deg(setup.fence_azimuth_deg, setup.stop_end);
  const flat = flatsOf(sectionGeometry(design.blank.section)).find(
    (one) => Math.abs(one.azimuth_deg - azimuth_deg) < 1e-9,
  );
  return { letter: flat?.letter ?? null, azimuth_deg };
}

/** With the stop on the left, the end that stands against it is on the left. */
function headIsRight(setup: Setup): boolean {
  return setup.stop_end === 'foot';
}

/** Paper sizes of what has no true size, mm. */
const FENCE_MM = 5;
const STOP_MM = 5;
const PAST_MM = 7;
const DIMENSION_MM = 6;

/** Draws into a box of the given size from the pen's origin; returns the scale, as in 1 : n. */
export function drawSetup(paper: Pen, width_mm: number, height_mm: number, drawing: SetupDrawing): number {
  const { design, setup, slot } = drawing;
  if (setup.table) return drawTableSetup(paper, width_mm, height_mm, drawing, setup.table);
  const L = design.blank.length_mm;
  const section = sectionGeometry(design.blank.section);
  const depth = slot.fenceSupport_mm + support_mm(section, slot.fenceAzimuth_deg + 180);
  const fromStop = (z: number) => (headIsRight(setup) ? z : L - z);
  const atFence = fromStop(setup.mark_fence_mm);
  const atEntry = fromStop(setup.mark_entry_mm);
  const breaks = stretchesLeftOut(L, depth, [atFence, atEntry]);
  const drawn = (x: number) => shortened(x, breaks);
  const end = drawn(L);
  const lean = Math.atan2(atFence - atEntry, depth);

  const scale = bestScale(width_mm, height_mm, (n) => extentOnPaper(lean, end, depth, n, drawn(atFence)));
  const box = extentOnPaper(lean, end, depth, scale, drawn(atFence));
  const origin: Point = [
    (width_mm - (box.right - box.left)) / 2 - box.left,
    (height_mm - (box.top - box.bottom)) / 2 - box.bottom,
  ];
  const pen = paper.within(origin, 1 / scale, lean);
  const mm = scale; // one millimetre of paper in the local frame
  const fence = { from: Math.min(0, drawn(atFence)) - (STOP_MM + 3) * mm, to: end + 4 * mm };

  drawFence(pen, fence.from, fence.to, mm);
  drawBlank(pen, drawing, drawn, end, depth);
  drawSlot(pen, drawing, [drawn(atFence), drawn(atFence) - (atFence - atEntry)], end, depth, mm);
  drawBreaks(pen, breaks, drawn, depth, mm);
  pen.rectangle([-STOP_MM * mm, -0.45 * depth], STOP_MM * mm, 0.45 * depth, { fill: INK_SOFT, stroke: EDGE });
  drawBladeLine(pen, drawn(atFence), drawn(atFence) - (atFence - atEntry), depth, mm, lean);
  drawAngle(pen, drawn(atFence), lean, drawing.labels.angle, mm);
  drawStopDimension(pen, drawn(atFence), drawing.labels.stop, mm, lean);
  drawWeb(pen, drawing, drawn(atFence), lean, mm);
  const cut = { from: drawn(Math.min(atFence, atEntry)), to: drawn(Math.max(atFence, atEntry)) };
  // The angle and its number take room on the acute side.
  const marked = { from: cut.from - (lean > 0 ? 9 * mm : 0), to: cut.to + (lean > 0 ? 0 : 17 * mm) };
  const middles = breaks.map((one) => middleOfBreak(one, drawn, depth));
  const clear = [marked, cut].map((taken) => plainStretches(end, depth, middles, taken));
  const roomy = clear.find((stretches) => stretches.some(({ from, to }) => to - from > 9 * mm)) ?? clear[1];
  drawLetters(pen, drawing, roomy, { end, depth, mm, lean });
  return scale;
}

interface Stretch {
  readonly from: number;
  readonly to: number;
}

const GAP = 0.12;

/** Plain stretches of a long blank, away from its ends and from the cut. */
function stretchesLeftOut(length: number, depth: number, marks: readonly number[]): Stretch[] {
  if (length < 5 * depth) return [];
  const keep = 0.7 * depth;
  const low = Math.min(...marks) - keep;
  const high = Math.max(...marks) + keep;
  return [
    { from: keep, to: low },
    { from: high, to: length - keep },
  ]
    .map(({ from, to }) => ({ from: Math.max(from, keep), to: Math.min(to, length - keep) }))
    .filter(({ from, to }) => to - from > depth)
    .map(({ from, to }) => ({ from, to: to - GAP * depth }));
}

function shortened(x: number, breaks: readonly Stretch[]): number {
  return breaks.reduce((at, { from, to }) => at - Math.max(0, Math.min(x, to) - from), x);
}

/** Bounds of the drawing on paper about its local origin, at 1 : n. */
function extentOnPaper(lean: number, end: number, depth: number, n: number, atFence: number): Extent {
  const paper = (x: number, y: number): Point => [
    Math.cos(lean) * x - Math.sin(lean) * y,
    Math.sin(lean) * x + Math.cos(lean) * y,
  ];
  const top = FENCE_MM + DIMENSION_MM + 3;
  const corners = [
    paper(Math.min(0, atFence / n) - STOP_MM - 3, 0),
    paper(-STOP_MM - 3, FENCE_MM),
    paper(0, top),
    paper(atFence / n, top),
    paper(end / n + 4, FENCE_MM),
    paper(end / n + 4, 0),
    paper(0, -depth / n),
    paper(end / n, -depth / n),
  ];
  const [bx, by] = paper(atFence / n, 0);
  corners.push([bx, by - depth / n / Math.cos(lean) - PAST_MM - 3], [bx, by + PAST_MM + FENCE_MM]);
  return extentOf(corners);
}

function drawFence(pen: Pen, from: number, to: number, mm: number): void {
  const height = FENCE_MM * mm;
  const steps: Point[] = [
    [from, 0],
    [to, 0],
    [to, height],
    [from, height],
  ];
  pen.polygon(steps, { fill: '#e3e7e1' });
  pen.clipped(
    steps.map((point, i) => [i === 0 ? 'move' : 'line', point] as const),
    (inside) => {
      for (let x = from - height; x < to; x += 2 * mm)
        inside.line([x, 0], [x + height, height], { colour: INK_FAINT, width_mm: 0.12 });
    },
  );
  pen.polygon(steps, { stroke: EDGE });
}

function drawBlank(
  pen: Pen,
  { design, setup, filled, colours }: SetupDrawing,
  drawn: (x: number) => number,
  end: number,
  depth: number,
): void {
  const L = design.blank.length_mm;
  pen.rectangle([0, -depth], end, depth, { fill: paler(colours.body, 0.55) });
  const up = faceUp(design, setup);
  const flat = flatsOf(sectionGeometry(design.blank.section)).find(({ letter }) => letter === up.letter);
  if (flat) {
    // On the face that lies up, t runs away from the fence when the head is on the right, else towards it.
    const place = ([t, z]: Point): Point => {
      const u = headIsRight(setup) ? -t : t;
      return [drawn(headIsRight(setup) ? z : L - z), u - depth / 2];
    };
    for (const slot of filled)
      for (const layer of layersAsSlots(slot)) {
        const shown = slotOnFlat(layer, flat, L);
        const fill = paler(colours.timber(layer.layers[0].timber), 0.15);
        if (shown.length > 0)
          pen.polygon(shown.map(place), { fill, stroke: { colour: INK_FAINT, width_mm: 0.08 } });
      }
  }
  pen.rectangle([0, -depth], end, depth, { stroke: EDGE });
}

/** The open slot: kerf wide, from the entry face to the web, cut off by the ends of the blank. */
function drawSlot(
  pen: Pen,
  { slot }: SetupDrawing,
  [atFence, atEntry]: readonly [number, number],
  end: number,
  depth: number,
  mm: number,
): void {
  const slope = (atFence - atEntry) / depth;
  // A kerf thinner than the line it is drawn with is opened to half a millimetre of paper.
  const half = Math.max((slot.kerf_mm / 2) * Math.hypot(1, slope), 0.25 * mm);
  const across = (y: number) => atFence + slope * y;
  const polygon: Point[] = [
    [across(-depth) - half, -depth],
    [across(-depth) + half, -depth],
    [across(-slot.web_mm) + half, -slot.web_mm],
    [across(-slot.web_mm) - half, -slot.web_mm],
  ];
  const inside = [(p: Point) => -p[0], (p: Point) => p[0] - end].reduce(clipWhereNotPositive, polygon);
  if (inside.length > 0) pen.polygon(inside, { fill: PAPER, stroke: BLADE });
}

function middleOfBreak({ from, to }: Stretch, drawn: (x: number) => number, depth: number): number {
  return (drawn(from) + drawn(to + GAP * depth)) / 2;
}

function drawBreaks(
  pen: Pen,
  breaks: readonly Stretch[],
  drawn: (x: number) => number,
  depth: number,
  mm: number,
): void {
  for (const one of breaks) {
    const x = middleOfBreak(one, drawn, depth);
    const zigzag = (shift: number): Point[] =>
      Array.from({ length: 9 }, (_, i): Point => [
        x + shift + (i % 2 === 0 ? -0.8 : 0.8) * mm,
        mm - ((depth + 2 * mm) * i) / 8,
      ]);
    const left = zigzag(-1 * mm);
    const right = zigzag(1 * mm);
    pen.polygon([...left, ...right.toReversed()], { fill: PAPER });
    pen.polyline(left, THIN);
    pen.polyline(right, THIN);
  }
}

function drawBladeLine(
  pen: Pen,
  atFence: number,
  atEntry: number,
  depth: number,
  mm: number,
  lean: number,
): void {
  const [ux, uy] = [Math.sin(lean), Math.cos(lean)];
  const from: Point = [atEntry - ux * PAST_MM * mm, -depth - uy * PAST_MM * mm];
  const to: Point = [atFence + ux * (PAST_MM + FENCE_MM) * mm, uy * (PAST_MM + FENCE_MM) * mm];
  pen.line(from, to, BLADE_PATH);
  // The arrow shows which way the blade goes through the wood.
  const tip: Point = [atEntry - ux * 1.2 * mm, -depth - uy * 1.2 * mm];
  const back = (side: number): Point => [
    tip[0] - ux * 3 * mm + side * uy * 1.1 * mm,
    tip[1] - uy * 3 * mm - side * ux * 1.1 * mm,
  ];
  pen.polygon([tip, back(1), back(-1)], { fill: MARK });
}

/** The arc between fence and blade line, on the side where they make the acute angle. */
function drawAngle(pen: Pen, atFence: number, lean: number, label: string, mm: number): void {
  const radius = 11 * mm;
  const blade = -Math.PI / 2 - lean;
  const [from, to] = lean > 0 ? [-Math.PI, blade] : [blade, 0];
  pen.arc([atFence, 0], radius, from, to, { colour: MARK, width_mm: 0.25 });
  const middle = (from + to) / 2;
  const place: Point = [
    atFence + Math.cos(middle) * (radius + 4.5 * mm),
    Math.sin(middle) * (radius + 4.5 * mm) - 0.8 * mm,
  ];
  pen.text(place, label, { size_pt: 8.5, weight: 'semibold', align: 'center', colour: MARK });
}

function drawStopDimension(pen: Pen, atFence: number, label: string, mm: number, lean: number): void {
  const y = (FENCE_MM + DIMENSION_MM) * mm;
  for (const x of [0, atFence]) pen.line([x, (FENCE_MM + 1) * mm], [x, y + 1.5 * mm], THIN);
  pen.line([0, y], [atFence, y], THIN);
  const sign = atFence >= 0 ? 1 : -1;
  for (const [x, way] of [
    [0, sign],
    [atFence, -sign],
  ] as const)
    pen.polygon(
      [
        [x, y],
        [x + way * 2.2 * mm, y + 0.6 * mm],
        [x + way * 2.2 * mm, y - 0.6 * mm],
      ],
      { fill: INK },
    );
  pen.text([atFence / 2, y + 1.2 * mm], label, {
    size_pt: 8.5,
    weight: 'semibold',
    align: 'center',
    colour: INK,
    angle_deg: (lean * 180) / Math.PI,
    halo: PAPER,
  });
}

function drawWeb(pen: Pen, { slot, labels }: SetupDrawing, atFence: number, lean: number, mm: number): void {
  const middle: Point = [atFence - Math.tan(lean) * (slot.web_mm / 2), -slot.web_mm / 2];
  const far: Point = [atFence + 5 * mm, (FENCE_MM + 2.2) * mm];
  pen.circle(middle, 0.45 * mm, { fill: MARK });
  pen.line(middle, far, { colour: MARK, width_mm: 0.15 });
  pen.text([far[0] + 0.6 * mm, far[1] - 0.4 * mm], labels.web, {
    size_pt: 7.5,
    colour: MARK,
    angle_deg: (lean * 180) / Math.PI,
    halo: PAPER,
  });
}

/** Letters of the faces in the longest plain stretch, names of the ends beside them; never upside down. */
function drawLetters(
  pen: Pen,
  { design, setup }: SetupDrawing,
  plain: readonly Stretch[],
  { end, depth, mm, lean }: { end: number; depth: number; mm: number; lean: number },
): void {
  const longest = plain.reduce((best, one) => (one.to - one.from > best.to - best.from ? one : best));
  const x = (longest.from + longest.to) / 2;
  const turn = (lean * 180) / Math.PI;
  const readable = (angle: number) => (angle > 90 ? angle - 180 : angle <= -90 ? angle + 180 : angle);
  const small = { size_pt: 9, weight: 'semibold', align: 'center', colour: INK, angle_deg: turn } as const;
  // On a thin blank the three letters stand beside one another instead of in a column.
  const aside = depth < 18 * mm ? 3.6 * mm : 0;
  if (setup.face) pen.text([x - aside, -4.3 * mm], setup.face, small);
  if (setup.entry_face) pen.text([x - aside, -depth + 2 * mm], setup.entry_face, small);
  const up = faceUp(design, setup).letter;
  if (up) {
    pen.circle([x + aside, -depth / 2], 3.4 * mm, { fill: PAPER, stroke: THIN });
    pen.text([x + aside, -depth / 2 - 1.5 * mm], up, { ...small, size_pt: 12 });
  }
  const [left, right] = headIsRight(setup) ? ['foot', 'head'] : ['head', 'foot'];
  const angle_deg = readable(turn + 90);
  // Centred on a line 2.2 mm from the end: the baseline lies on the side that the letters stand on.
  const side = angle_deg > 0 === turn + 90 > 0 && Math.abs(angle_deg - turn - 90) < 1 ? 1 : -1;
  const quiet = { size_pt: 8, align: 'center', colour: INK_SOFT, angle_deg } as const;
  pen.text([(2.2 + side) * mm, -depth / 2], left, quiet);
  pen.text([end - (2.2 - side) * mm, -depth / 2], right, quiet);
}

/** Stretches of the drawn blank without an end, a break or the cut in them. */
function plainStretches(end: number, depth: number, breaks: readonly number[], cut: Stretch): Stretch[] {
  const edges: Stretch[] = [
    { from: 0, to: 0 },
    ...breaks.map((x) => ({ from: x - 0.06 * depth, to: x + 0.06 * depth })),
    cut,
    { from: end, to: end },
  ].sort((a, b) => a.from - b.from);
  return edges.slice(1).map(({ from }, i) => ({ from: edges[i].to, to: from }));
}
