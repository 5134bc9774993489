/** The cover: the finished piece from the side and laid flat, what it is made of, what the work amounts to. */
import { DEG } from '../../geometry/angle.ts';
import { holeCylinder } from '../../blank/holes.ts';
import { flatsOf } from '../drawing/faces.ts';
import { drawBoreOnSide, drawHolesOnSide, drawHolesUnrolled } from '../drawing/holes.ts';
import { AXIS, INK, INK_FAINT, INK_SOFT, RULE, WARN, WARN_TINT } from '../drawing/ink.ts';
import type { Pen, Point } from '../drawing/pen.ts';
import {
  cylinderProfile,
  drawBlockSide,
  drawFlats,
  drawTurnedSide,
  drawUnrolled,
  outsideLength_mm,
} from '../drawing/piece.ts';
import type { Profile } from '../../geometry/outline.ts';
import type { Section } from '../../design/document.ts';
import type { SheetPages } from './frame.ts';
import { duration, length } from './numbers.ts';
import { setsTable } from './setsTable.ts';
import type { SheetSource } from './source.ts';
import { inSentence, timberName } from '../../timber/names.ts';

const GAP_MM = 14;
/** Azimuth at the middle of the side view: between faces A and B. */
const FACING_DEG = 45;
const SCALES = [0.5, 0.75, 1, 1.25, 1.5, 1.75, 2, 2.5, 3, 3.5, 4, 5, 6, 8, 10, 12, 15, 20, 30, 50, 100];

/** Adds the cover; returns what lists the contents on it once all pages are there. */
export function addCover(pages: SheetPages, source: SheetSource): () => void {
  const pen = pages.add('Shop sheet');
  const { area, typeface } = pages;
  const { design } = source;
  const width = area.right - area.left;
  let y = area.top - 9;
  const [first, ...more] = typeface.wrap(design.name, width, 24, 'semibold');
  // A second line with all the rest ends in an ellipsis where there is more than it holds.
  for (const line of more.length === 0 ? [first] : [first, more.slice(0, 2).join(' ')]) {
    pen.text([area.left, y], typeface.fit(line, width, 24, 'semibold'), {
      size_pt: 24,
      weight: 'semibold',
      colour: INK,
    });
    y -= 10;
  }
  for (const line of typeface.wrap(summary(source), width, 10.5)) {
    pen.text([area.left, y + 1.5], line, { size_pt: 10.5, colour: INK_SOFT });
    y -= 5;
  }
  y = drawState(pen, pages, source, y);
  const sets = setsTable(pages, source);
  const below = BELOW_MM + sets.height_mm;
  const picture = {
    left: area.left,
    bottom: area.bottom + below,
    width,
    height: y - 1 - area.bottom - below,
  };
  drawPictures(pen, pages, source, picture);
  y = sets.draw(pen, picture.bottom - 5);
  drawTimbers(pen, pages, source, y - 7);
  drawWarnings(pen, pages, source);
  const list = y - 17;
  return () => drawContents(pen, pages, list);
}

/** Which state of the design this is, and where to write when it was printed: a date of its own would change the bytes. */
function drawState(
  pen: Pen,
  { area, typeface }: SheetPages,
  { fingerprint }: SheetSource,
  top: number,
): number {
  const y = top - 1.5;
  const style = { size_pt: 8.5, colour: INK_SOFT } as const;
  const state = `Design ${fingerprint}. A page with another number at its foot is of another state of the design.`;
  pen.text([area.left, y], state, style);
  const printed = 'Printed on';
  const line = area.left + Math.max(typeface.width_mm(state, 8.5) + 8, 0.68 * (area.right - area.left));
  pen.text([line, y], printed, style);
  pen.line([line + typeface.width_mm(printed, 8.5) + 1.5, y - 0.6], [area.right, y - 0.6], {
    colour: RULE,
    width_mm: 0.25,
  });
  return y - 3.5;
}

/** Rows of the contents; one more where four columns of names would be too narrow. */
const CONTENT_ROWS = 4;

function drawContents(pen: Pen, pages: SheetPages, top: number): void {
  const { area, typeface } = pages;
  const contents = pages.contents();
  const rows = contents.length > 3 * CONTENT_ROWS ? CONTENT_ROWS + 1 : CONTENT_ROWS;
  const row_mm = rows > CONTENT_ROWS ? 3.7 : 4.4;
  const column = (area.right - area.left) / Math.max(3, Math.ceil(contents.length / rows));
  contents.forEach(({ chapter, page }, i) => {
    const x = area.left + Math.floor(i / rows) * column;
    const y = top - (i % rows) * row_mm;
    pen.text([x + 4.5, y], `${page}`, { size_pt: 8.5, align: 'right', colour: INK });
    pen.text([x + 6.5, y], typeface.fit(chapter, column - 8, 8.5), { size_pt: 8.5, colour: INK_SOFT });
  });
}

/** Room under the pictures for captions, the head of the table, timbers, contents and the word on warnings. */
const BELOW_MM = 54;

function drawWarnings(pen: Pen, { area }: SheetPages, source: SheetSource): void {
  const count = source.warnings.filter(({ level }) => level === 'warning').length;
  if (count === 0) return;
  const width = area.right - area.left;
  pen.rectangle([area.left, area.bottom + 1], width, 7, { fill: WARN_TINT });
  pen.rectangle([area.left, area.bottom + 1], 0.8, 7, { fill: WARN });
  const text =
    count === 1
      ? 'One thing to settle before cutting: see the next page.'
      : `${count} things to settle before cutting: see the next page.`;
  pen.text([area.left + 4, area.bottom + 3.4], text, { size_pt: 9.5, weight: 'semibold', colour: WARN });
}

function summary({ design, cuts, measures }: SheetSource): string {
  const { unit, blank, saw } = design;
  const sessions = measures.plan.sessions.length;
  const count = (n: number, noun: string) => `${n} ${noun}${n === 1 ? '' : 's'}`;
  return (
    `${sectionText(blank.section, (mm) => length(mm, unit))}, ${length(blank.length_mm, unit)} long, of ` +
    `${inSentence(timberName(blank.timber))}. ${count(cuts.length, 'cut')}, ` +
    `${count(sessions, 'glue-up')}, ${duration(sessions * saw.clamp_minutes)} in clamps.`
  );
}

/** `Square blank 3.000″ across the flats`. */
export function sectionText(section: Section, size: (mm: number) => string): string {
  const width = size(section.width_mm);
  const words: Readonly<Record<Section['shape'], string>> = {
    square: `Square blank ${width} a side`,
    rectangle: `Rectangular blank ${width} (A to C) by ${size(section.depth_mm ?? section.width_mm)} (B to D)`,
    hexagon: `Six-sided blank ${width} across the flats`,
    octagon: `Eight-sided blank ${width} across the flats`,
    round: `Round blank ${width} in diameter`,
  };
  return words[section.shape];
}

/** The profile that is drawn: the form's, or a round blank's own. */
function drawnProfile({ design, measures }: SheetSource): Profile | null {
  if (measures.form) return measures.form.profile;
  const { section, length_mm } = design.blank;
  return section.shape === 'round' ? cylinderProfile(section.width_mm / 2, length_mm) : null;
}

function drawPictures(
  pen: Pen,
  { typeface }: SheetPages,
  source: SheetSource,
  { left, bottom, width, height }: { left: number; bottom: number; width: number; height: number },
): void {
  const profile = drawnProfile(source);
  const { section, design, measures, colours } = source;
  const radius = profile
    ? profile.r_mm.slice(profile.outsideStart, profile.outsideEnd + 1).reduce((a, b) => Math.max(a, b), 0)
    : section.circumscribedRadius_mm;
  const z0 = profile ? profile.z_mm[profile.outsideStart] : 0;
  const tall = profile ? profile.z_mm[profile.outsideEnd] - z0 : design.blank.length_mm;
  const mapTall = profile ? outsideLength_mm(profile) : design.blank.length_mm;
  const flats = flatsOf(section);
  const mapWide = profile
    ? 2 * Math.PI * radius
    : flats.reduce((sum, flat) => sum + flat.to_mm - flat.from_mm, 0);
  const sides = { wide: 2 * radius, tall };
  const flat = { wide: mapWide, tall: mapTall };
  const beside = bestScale(
    (n) => (sides.wide + flat.wide) / n + GAP_MM <= width && Math.max(tall, mapTall) / n <= height - 17,
  );
  const above = bestScale(
    (n) => Math.max(sides.wide, flat.wide) / n <= width && (tall + mapTall) / n <= height - 34,
  );
  const stacked = above < beside;
  const n = Math.min(above, beside);
  const spare = width - (sides.wide + flat.wide) / n - GAP_MM;
  const rise = stacked
    ? (height - 34 - (tall + mapTall) / n) / 2
    : (height - 17 - Math.max(tall, mapTall) / n) / 2;
  const side: Point = stacked
    ? [left + width / 2, bottom + 9 + rise + mapTall / n + 17]
    : [left + radius / n + spare / 4, bottom + 7 + rise];
  const map: Point = stacked
    ? [left + (width - mapWide / n) / 2, bottom + 9 + rise]
    : [left + width - mapWide / n - spare / 4, bottom + 7 + rise];
  const facing = FACING_DEG * DEG;

  const sidePen = pen.within(side, 1 / n);
  const mapPen = pen.within(map, 1 / n);
  if (profile) {
    const standing = sidePen.within([0, -z0]);
    const { form } = design;
    const holes = form ? (form.holes ?? []).map((hole) => holeCylinder(hole, form, profile)) : [];
    drawTurnedSide(standing, measures.slots, profile, colours, facing);
    drawUnrolled(mapPen, measures.slots, profile, colours, facing - Math.PI, mapWide);
    if (form?.loop) drawBoreOnSide(standing, profile);
    drawHolesOnSide(standing, holes, profile, facing);
    if (holes.length > 0) drawHolesUnrolled(mapPen, holes, profile, facing - Math.PI, mapWide);
  } else {
    drawBlockSide(sidePen, measures.slots, section, design.blank.length_mm, colours, FACING_DEG - 20);
    drawFlats(mapPen, measures.slots, section, design.blank.length_mm, colours);
  }
  for (const [from, to] of [
    [side[1] - 5, side[1] - 1],
    [side[1] + tall / n + 1, side[1] + tall / n + 5],
  ])
    pen.line([side[0], from], [side[0], to], AXIS);
  drawMapLetters(pen, source, profile !== null, map, mapWide / n, mapTall / n);
  const caption = { size_pt: 7, colour: INK_FAINT } as const;
  pen.text(
    [stacked ? left : Math.max(left, side[0] - radius / n), side[1] - 9],
    `Side view, 1 : ${n}. Foot below.`,
    caption,
  );
  const unrolled = profile
    ? `The outside laid flat, 1 : ${n} at the widest: round it across, along it up.`
    : `The faces side by side, 1 : ${n}.`;
  const start = Math.min(map[0], left + width - typeface.width_mm(unrolled, 7));
  pen.text([stacked ? left : start, map[1] - 9], unrolled, caption);
}

function bestScale(fits: (n: number) => boolean): number {
  return SCALES.find(fits) ?? SCALES[SCALES.length - 1];
}

/** Where the faces of the blank lay, under the map. */
function drawMapLetters(
  pen: Pen,
  { section }: SheetSource,
  turned: boolean,
  [left, base]: Point,
  width: number,
  height: number,
): void {
  const style = { size_pt: 7.5, align: 'center', colour: INK_SOFT } as const;
  let edge = 0;
  const whole = flatsOf(section).reduce((sum, flat) => sum + flat.to_mm - flat.from_mm, 0);
  for (const flat of flatsOf(section)) {
    const span = flat.to_mm - flat.from_mm;
    const share = turned
      ? ((((flat.azimuth_deg - FACING_DEG + 180) % 360) + 360) % 360) / 360
      : (edge + span / 2) / whole;
    edge += span;
    const x = left + share * width;
    pen.line([x, base], [x, base - 1.2], { colour: INK_FAINT, width_mm: 0.15 });
    pen.line([x, base + height], [x, base + height + 1.2], { colour: INK_FAINT, width_mm: 0.15 });
    pen.text([x, base - 4], flat.letter, style);
  }
}

function drawTimbers(pen: Pen, { area, typeface }: SheetPages, source: SheetSource, y: number): void {
  const { design } = source;
  const timbers = new Set([
    design.blank.timber,
    ...design.sets.flatMap((set) => set.strip.layers.map((layer) => layer.timber)),
  ]);
  let x = area.left;
  // Two ids may be one timber by name and colour.
  const looks = new Map(
    [...timbers].map((timber) => source.looks(timber)).map((look) => [`${look.name} ${look.srgb}`, look]),
  );
  for (const { name, srgb } of looks.values()) {
    const wide = typeface.width_mm(name, 8.5) + 13;
    if (x + wide > area.right) break;
    pen.rectangle([x, y - 0.6], 5, 3.6, { fill: srgb, stroke: { colour: RULE, width_mm: 0.15 } });
    pen.text([x + 6.5, y], name, { size_pt: 8.5, colour: INK });
    x += wide;
  }
}
