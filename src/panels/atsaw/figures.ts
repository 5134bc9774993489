/**
 * The drawing of each step, made for a screen that is read from two metres: a small sheet, so that its lettering
 * comes out large. Sheet frame: mm, y up, from the lower left corner.
 */
import { sectionGeometry } from '../../blank/section.ts';
import type { Slot } from '../../blank/slots.ts';
import type { Design, SlotId } from '../../design/document.ts';
import { flatsOf } from '../../files/drawing/faces.ts';
import { AXIS, EDGE, INK, INK_SOFT, MARK, THIN, TINT } from '../../files/drawing/ink.ts';
import { Pen, type Item, type Point } from '../../files/drawing/pen.ts';
import {
  cylinderProfile,
  drawBlockSide,
  drawTurnedSide,
  type PieceColours,
} from '../../files/drawing/piece.ts';
import { drawSetup } from '../../files/drawing/setup.ts';
import { angle, length, thickness } from '../../files/sheet/numbers.ts';
import { DEG } from '../../geometry/angle.ts';
import type { Setup } from '../../plan/setups.ts';
import { profileFor, slotsFor } from '../derived.ts';
import { timberColour } from '../timberColour.ts';
import { asMade } from './made.ts';
import { setOf } from './slotWords.ts';
import type { SawStep, StepSource } from './steps.ts';
import { drawTableCut } from './tableFigure.ts';

export interface Figure {
  readonly items: readonly Item[];
  readonly width_mm: number;
  readonly height_mm: number;
  /** What it shows, for those who do not see it. */
  readonly label: string;
}

const WIDTH_MM = 84;
const HEIGHT_MM = 60;
/** A blank drawn shorter than this has no room for the names of its ends below it. */
const SHORT_MM = 34;

export function figureOf(step: SawStep, design: Design, source: StepSource): Figure {
  const sheet = (label: string, draw: (pen: Pen) => void): Figure => {
    const pen = new Pen();
    draw(pen);
    return { items: pen.items, width_mm: WIDTH_MM, height_mm: HEIGHT_MM, label };
  };
  if (step.session === null) {
    if (step.kind === 'practice') return setupFigure(sheet, design, source.setups[0], []);
    if (step.kind === 'blank' || step.kind === 'letters')
      return sheet('The blank seen from the head and from the side', (pen) =>
        drawBlank(pen, design, source.setups),
      );
    if (step.kind === 'strips')
      return sheet('A strip: thickness, depth down the slope, length along the blade', (pen) =>
        drawStrip(pen, design, source.setups[0]),
      );
    return sheet('The finished piece', (pen) => drawPiece(pen, design));
  }
  if (!('cut' in step)) {
    const setup = setupFor(source, step.slots[0]);
    return sheet('The blank with the strips up to this glue-up', (pen) =>
      drawGlued(pen, design, gluedBefore(design, source, step.session + 1), setup),
    );
  }
  const { setup } = step.cut;
  if (step.kind === 'strip')
    return sheet(`The strip for ${setup.slot}`, (pen) => drawStrip(pen, design, setup));
  return setupFigure(sheet, design, setup, gluedBefore(design, source, step.session));
}

function setupFor({ setups }: StepSource, slot: SlotId): Setup {
  const setup = setups.find((candidate) => candidate.slot === slot);
  if (!setup) throw new Error(`no set-up of ${slot}`);
  return setup;
}

/** Slots whose strips are in before a glue-up, in cutting order. */
function gluedBefore(design: Design, { sessions }: StepSource, session: number): Slot[] {
  const glued = new Set(sessions.slice(0, session).flat());
  return slotsFor(design).filter(({ id }) => glued.has(id));
}

function coloursOf(design: Design): PieceColours {
  const timber = (id: string) => timberColour(design, id);
  return { body: timber(design.blank.timber), timber };
}

function setupFigure(
  sheet: (label: string, draw: (pen: Pen) => void) => Figure,
  design: Design,
  setup: Setup,
  filled: readonly Slot[],
): Figure {
  const slot = slotsFor(design).find(({ id }) => id === setup.slot);
  if (!slot) throw new Error(`no slot ${setup.slot}`);
  const { unit } = design;
  switch (setup.cut) {
    case 'fence':
      return sheet(
        `${setup.slot} seen from above: ${setup.face === null ? 'the blank' : `face ${setup.face}`} against the fence, ` +
          `${setup.stop_end} end at the stop, blade at ${angle(setup.fence_angle_deg)} to the fence`,
        (pen) => {
          drawSetup(pen, WIDTH_MM, HEIGHT_MM, {
            design,
            setup,
            slot,
            filled,
            colours: coloursOf(design),
            labels: {
              angle: angle(setup.fence_angle_deg),
              stop: length(setup.stop_to_kerf_center_mm, unit),
              web: `web ${thickness(setup.blade_stop_mm, unit)}`,
            },
          });
        },
      );
    case 'table':
      return sheet(
        `${setup.slot} seen along the feed: the blank on its ${setup.table.end_down} end, table tilted by ${angle(setup.table.tilt_deg)}`,
        (pen) => drawTableCut(pen, [WIDTH_MM, HEIGHT_MM], design, setup),
      );
  }
}

/** Seen from the head on the left, and from the side with the foot on the left. */
function drawBlank(pen: Pen, design: Design, setups: readonly Setup[]): void {
  const { blank, unit } = design;
  const section = sectionGeometry(blank.section);
  const radius = section.circumscribedRadius_mm;
  const n = Math.max((2 * radius) / 26, blank.length_mm / 40);
  const end = pen.within([19, HEIGHT_MM / 2 + 2], 1 / n);
  if (section.round) end.circle([0, 0], radius, { fill: TINT, stroke: EDGE });
  else end.polygon(section.corners_mm, { fill: TINT, stroke: EDGE });
  for (const [x, y] of [
    [radius, 0],
    [0, radius],
  ] as const)
    end.line([-x * 1.1, -y * 1.1], [x * 1.1, y * 1.1], AXIS);
  const letter = { size_pt: 13, weight: 'semibold', align: 'center', colour: MARK } as const;
  for (const flat of flatsOf(section)) {
    const turn = flat.azimuth_deg * DEG;
    const reach = flat.distance_mm + 4 * n;
    end.text([reach * Math.cos(turn), reach * Math.sin(turn) - 1.7 * n], flat.letter, letter);
  }
  if (section.round)
    for (const azimuth of new Set(setups.map(({ fence_azimuth_deg }) => fence_azimuth_deg))) {
      const turn = azimuth * DEG;
      const at = (reach: number): Point => [reach * Math.cos(turn), reach * Math.sin(turn)];
      end.line(at(radius - 2 * n), at(radius + 1.2 * n), { colour: MARK, width_mm: 0.5 });
      const [x, y] = at(radius + 4.4 * n);
      end.text([x, y - 1.3 * n], angle(azimuth), { ...letter, size_pt: 9 });
    }
  const half = section.round ? radius : (blank.section.depth_mm ?? blank.section.width_mm) / 2;
  const short = blank.length_mm / n < SHORT_MM;
  const side = pen.within([short ? 62 - blank.length_mm / n / 2 : 41, HEIGHT_MM / 2 + 2], 1 / n);
  const tall = Math.max(half, 3.5 * n);
  side.rectangle([0, -half], blank.length_mm, 2 * half, { fill: TINT, stroke: EDGE });
  if (!short) side.line([-2 * n, 0], [blank.length_mm + 2 * n, 0], AXIS);
  const words = { size_pt: 9, align: 'center', colour: INK } as const;
  if (short) {
    side.text([-2 * n, -1.2 * n], 'foot', { ...words, align: 'right' });
    side.text([blank.length_mm + 2 * n, -1.2 * n], 'head', { ...words, align: 'left' });
  } else {
    side.text([6 * n, -tall - 5 * n], 'foot', words);
    side.text([blank.length_mm - 6 * n, -tall - 5 * n], 'head', words);
  }
  side.text([blank.length_mm / 2, tall + 2.5 * n], length(blank.length_mm, unit), {
    ...words,
    weight: 'semibold',
  });
  pen.text([19, HEIGHT_MM / 2 - 9 - radius / n], 'from the head', {
    size_pt: 9,
    align: 'center',
    colour: INK_SOFT,
  });
}

/** A plate in oblique projection, its layers in their colours; thickness enlarged to be seen. */
function drawStrip(pen: Pen, design: Design, setup: Setup): void {
  const { unit } = design;
  const made = asMade(design, setup.slot);
  const set = setOf(design, setup.slot);
  const long = made.strip_length_mm;
  const deep = made.strip_depth_mm;
  const n = Math.max(long / 50, deep / 34);
  const [w, h] = [long / n, deep / n];
  const total = set.strip.layers.reduce((sum, layer) => sum + layer.thickness_mm, 0);
  const shown = Math.min(Math.max(total / n, 3 * set.strip.layers.length), 9);
  const origin: Point = [(WIDTH_MM - w) / 2 - shown / 2 - 3, (HEIGHT_MM - h) / 2 - shown / 4 + 1];
  const at = pen.within(origin);
  const skew = (x: number, y: number, z: number): Point => [x + z * 0.8, y + z * 0.5];
  let z = shown;
  for (const layer of set.strip.layers.toReversed()) {
    const next = z - (layer.thickness_mm / total) * shown;
    const fill = timberColour(design, layer.timber);
    at.polygon([skew(0, 0, next), skew(w, 0, next), skew(w, h, next), skew(0, h, next)], {
      fill,
      stroke: EDGE,
    });
    at.polygon([skew(0, h, next), skew(w, h, next), skew(w, h, z), skew(0, h, z)], { fill, stroke: EDGE });
    at.polygon([skew(w, 0, next), skew(w, h, next), skew(w, h, z), skew(w, 0, z)], { fill, stroke: EDGE });
    z = next;
  }
  const words = { size_pt: 9.5, weight: 'semibold', align: 'center', colour: INK } as const;
  at.text([w / 2, -4.5], `${length(long, unit)} long`, words);
  at.text([-2, h / 2], `${length(deep, unit)} deep`, { ...words, angle_deg: 90 });
  // Beside the plate, clear of what stands below it however narrow it is.
  const [x, y] = skew(w, h / 2, shown / 2);
  const beside = w + shown * 0.8 + 2;
  at.line([x, y], [beside, y], THIN);
  at.text([beside + 0.8, y - 1.2], thickness(made.toMake_mm, unit), {
    ...words,
    align: 'left',
    colour: MARK,
  });
}

/** The blank lying with its foot on the left, the edge between an entry face and the next towards the eye. */
function drawGlued(pen: Pen, design: Design, filled: readonly Slot[], setup: Setup): void {
  const { blank, unit } = design;
  const section = sectionGeometry(blank.section);
  const colours = coloursOf(design);
  const n = Math.max(blank.length_mm / 72, (2 * section.circumscribedRadius_mm) / 40);
  const left = (WIDTH_MM - blank.length_mm / n) / 2;
  // Turned by −90°: the axis, up in the drawing, runs to the right.
  const lying = pen.within([left, HEIGHT_MM / 2], 1 / n, -Math.PI / 2);
  const facing = setup.fence_azimuth_deg + 135;
  if (section.round) {
    const profile = cylinderProfile(section.inscribedRadius_mm, blank.length_mm);
    drawTurnedSide(lying, filled, profile, colours, facing * DEG);
  } else drawBlockSide(lying, filled, section, blank.length_mm, colours, facing);
  const words = { size_pt: 9, colour: INK_SOFT, align: 'center' } as const;
  const below = HEIGHT_MM / 2 - section.circumscribedRadius_mm / n - 5;
  if (blank.length_mm / n < SHORT_MM) {
    pen.text([left - 2, HEIGHT_MM / 2 - 1.2], 'foot', { ...words, align: 'right' });
    pen.text([WIDTH_MM - left + 2, HEIGHT_MM / 2 - 1.2], 'head', { ...words, align: 'left' });
  } else {
    pen.text([left + 4, below], 'foot', words);
    pen.text([WIDTH_MM - left - 4, below], 'head', words);
  }
  pen.text([WIDTH_MM / 2, below], length(blank.length_mm, unit), {
    ...words,
    weight: 'semibold',
    colour: INK,
  });
}

/** The turned piece, or the glued blank where nothing is turned. */
function drawPiece(pen: Pen, design: Design): void {
  const slots = slotsFor(design);
  const section = sectionGeometry(design.blank.section);
  const colours = coloursOf(design);
  const profile = design.form
    ? profileFor(design.form)
    : cylinderProfile(section.circumscribedRadius_mm, design.blank.length_mm);
  const low = profile.z_mm.reduce((a, b) => Math.min(a, b), Infinity);
  const high = profile.z_mm.reduce((a, b) => Math.max(a, b), -Infinity);
  const radius = profile.r_mm.reduce((a, b) => Math.max(a, b), 0);
  const lies = high - low > 2 * radius;
  const [along, across] = lies ? [WIDTH_MM - 8, HEIGHT_MM - 8] : [HEIGHT_MM - 8, WIDTH_MM - 8];
  const n = Math.max((high - low) / along, (2 * radius) / across);
  const half = (high - low) / 2 / n;
  const piece = lies
    ? pen.within([WIDTH_MM / 2 - half - low / n, HEIGHT_MM / 2], 1 / n, -Math.PI / 2)
    : pen.within([WIDTH_MM / 2, HEIGHT_MM / 2 - half - low / n], 1 / n);
  if (design.form || section.round) drawTurnedSide(piece, slots, profile, colours, 0);
  else drawBlockSide(piece, slots, section, design.blank.length_mm, colours, 0);
}
