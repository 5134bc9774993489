/**
 * One cut as it lies at the saw, seen from above: the blank against the fence, the stop, the line that the
 * blade takes (upright on paper), the web it leaves. To scale; where the blank is long its plain stretches are
 * left out. Drawn for a stop on the left as one faces the fence. Cuts with the table tilted: tableSetup.ts.
 *
 * Local frame, mm of wood: x along the fence from the stop, y = 0 at the fence face, the blank below it.
 */
import { layersAsSlots } from '../../blank/bands.ts';
import { sectionGeometry, support_mm } from '../../blank/section.ts';
import { clipWhereNotPositive, flatsOf, slotOnFlat } from './faces.ts';
import { BLADE, BLADE_PATH, EDGE, INK_FAINT, INK_SOFT, MARK, paler, PAPER, THIN } from './ink.ts';
import { drawDimensionLine } from './dimension.ts';
import { Room } from './labels.ts';
import type { Pen, Point } from './pen.ts';
import { bestScale, extentOf, type Extent } from './scales.ts';
import { faceUp, headIsRight, type SetupDrawing, type Stretch } from './setupLaid.ts';
import { acuteSide, ARC_MM, DIMENSION_MM, FENCE_MM, writeLabels } from './setupLabels.ts';
import { drawTableSetup } from './tableSetup.ts';

export { faceUp, upText, type SetupDrawing, type Up } from './setupLaid.ts';

/** Paper sizes of what has no true size, mm. */
const STOP_MM = 5;
const PAST_MM = 7;

/** Draws into a box of the given size from the pen's origin; returns the scale, as in 1 : n. */
export function drawSetup(paper: Pen, width_mm: number, height_mm: number, drawing: SetupDrawing): number {
  const { setup } = drawing;
  switch (setup.cut) {
    case 'fence':
      return drawAtFence(paper, width_mm, height_mm, drawing);
    case 'table':
      return drawTableSetup(paper, width_mm, height_mm, drawing, setup.table);
  }
}

function drawAtFence(paper: Pen, width_mm: number, height_mm: number, drawing: SetupDrawing): number {
  const { design, setup, slot } = drawing;
  const before = paper.items.length;
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
  drawAngle(pen, drawn(atFence), lean, mm);
  drawStopDimension(pen, drawn(atFence), mm);
  const cut = { from: drawn(Math.min(atFence, atEntry)), to: drawn(Math.max(atFence, atEntry)) };
  const middles = breaks.map((one) => middleOfBreak(one, drawn, depth));
  const bounds = extentOf([paper.place([0, 0]), paper.place([width_mm, height_mm])]);
  const room = () => new Room(paper.items.slice(before), bounds);
  writeLabels(pen, room, drawing, {
    atFence: drawn(atFence),
    plain: plainStretches(end, depth, middles, cut),
    end,
    depth,
    mm,
    lean,
  });
  return scale;
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

/** The arc between fence and blade line. */
function drawAngle(pen: Pen, atFence: number, lean: number, mm: number): void {
  const [from, to] = acuteSide(lean);
  pen.arc([atFence, 0], ARC_MM * mm, from, to, { colour: MARK, width_mm: 0.25 });
}

/** From the stop to the middle of the kerf. */
function drawStopDimension(pen: Pen, atFence: number, mm: number): void {
  const y = (FENCE_MM + DIMENSION_MM) * mm;
  for (const x of [0, atFence]) pen.line([x, (FENCE_MM + 1) * mm], [x, y + 1.5 * mm], THIN);
  drawDimensionLine(pen, [0, atFence], y, mm);
}
