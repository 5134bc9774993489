/**
 * The marks of the azimuths at 1 : 1, for blanks with no flat at fence or ledge: a strip to wrap round a round blank, or for
 * one with flats the shape of its end, to glue on; each mark with its degrees and cuts.
 */
import { DEG, cosDeg, sinDeg } from '../../../geometry/angle.ts';
import type { End } from '../../../plan/setups.ts';
import { edgeRadius_mm } from '../../drawing/cradle.ts';
import { AXIS, EDGE, FAINT, INK, INK_SOFT, MARK, THIN } from '../../drawing/ink.ts';
import type { Pen, Point } from '../../drawing/pen.ts';
import { cradlePositions, cutNumbers, indexAzimuths, type CradlePosition } from '../cradle.ts';
import type { SheetPages } from '../frame.ts';
import { angle } from '../numbers.ts';
import type { SheetSource } from '../source.ts';
import { addFullSize } from './tiles.ts';

const STRIP_MM = 34;
const FLAP_MM = 8;
/** A fine scale all round. */
const STEP_DEG = 10;

export function addIndexMarks(pages: SheetPages, source: SheetSource): void {
  const positions = cradlePositions(source);
  if (positions.length === 0) return;
  if (source.section.round) addStrip(pages, source, positions);
  else
    for (const end of ['head', 'foot'] as const) {
      const seen = positions.filter(({ view }) => view.seen === end);
      if (seen.length > 0) addEnd(pages, source, seen, end);
    }
}

/** Cuts at an azimuth, as `cuts 2, 5`. */
function cutsAt(positions: readonly CradlePosition[], azimuth_deg: number): string {
  const cuts = positions
    .filter(({ view }) => view.azimuth_deg === azimuth_deg)
    .flatMap((position) => position.cuts)
    .sort((a, b) => a.number - b.number);
  return cutNumbers(cuts);
}

function addStrip(pages: SheetPages, { section }: SheetSource, positions: readonly CradlePosition[]): void {
  const around = 2 * Math.PI * section.inscribedRadius_mm;
  addFullSize(pages, {
    section: 'Index strip, 1 : 1',
    use:
      'Cut out and wrap it round the blank at the end away from the stop, its upper edge toward the head, 0° on the ' +
      'reference mark, the flap under. Carry each blue mark over onto the end of the blank.',
    width_mm: around + FLAP_MM + 1,
    height_mm: STRIP_MM + 1,
    draw: (pen) => drawStrip(pen.within([0.5, 0.5]), around, positions),
  });
}

function drawStrip(pen: Pen, around: number, positions: readonly CradlePosition[]): void {
  const at = (azimuth: number) => (azimuth / 360) * around;
  pen.polygon(
    [
      [around, 0],
      [around + FLAP_MM, 3],
      [around + FLAP_MM, STRIP_MM - 3],
      [around, STRIP_MM],
    ],
    { stroke: THIN },
  );
  pen.rectangle([0, 0], around, STRIP_MM, { stroke: EDGE });
  for (let azimuth = STEP_DEG; azimuth < 360; azimuth += STEP_DEG)
    pen.line([at(azimuth), STRIP_MM], [at(azimuth), STRIP_MM - (azimuth % 90 === 0 ? 4 : 2)], FAINT);
  pen.text([around + FLAP_MM / 2 + 0.9, STRIP_MM / 2], 'head up', {
    size_pt: 7,
    align: 'center',
    colour: INK_SOFT,
    angle_deg: 90,
  });
  const azimuths = indexAzimuths(positions);
  for (const azimuth of azimuths) {
    pen.line([at(azimuth), 0], [at(azimuth), STRIP_MM], { colour: MARK, width_mm: 0.3 });
    pen.text([at(azimuth) + 2.8, 2], `${angle(azimuth)}  ${cutsAt(positions, azimuth)}`, {
      size_pt: 7,
      colour: MARK,
      angle_deg: 90,
      halo: '#ffffff',
    });
  }
  // The reference stands on the strip's own edge.
  pen.polygon(
    [
      [0, STRIP_MM - 6],
      [1.6, STRIP_MM],
      [0, STRIP_MM],
    ],
    { fill: INK },
  );
  if (!azimuths.includes(0))
    pen.text([2.8, 2], '0°  reference', { size_pt: 7, colour: INK_SOFT, angle_deg: 90 });
}

function addEnd(
  pages: SheetPages,
  { section }: SheetSource,
  positions: readonly CradlePosition[],
  end: End,
): void {
  const sense = end === 'head' ? 1 : -1;
  const corners = section.corners_mm.map(([x, y]): Point => [x, sense * y]);
  const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
  const [left, bottom] = [Math.min(...xs) - 0.5, Math.min(...ys) - 0.5];
  addFullSize(pages, {
    section: `Index marks of the ${end}, 1 : 1`,
    use:
      `Cut out and glue on the ${end}, the cross on the prick of the centre, the letters on their faces. Each blue mark must meet the ` +
      'index line for its cuts; scratch it on the wood before the paper comes off.',
    width_mm: Math.max(...xs) - left + 0.5,
    height_mm: Math.max(...ys) - bottom + 0.5,
    draw: (pen) => {
      const sheet = pen.within([-left, -bottom]);
      sheet.polygon(corners, { stroke: EDGE });
      const cross = 0.3 * section.inscribedRadius_mm;
      sheet.line([-cross, 0], [cross, 0], AXIS);
      sheet.line([0, -cross], [0, cross], AXIS);
      section.faceAzimuths_deg.forEach((face, i) => {
        const [c, s] = [cosDeg(face), sense * sinDeg(face)];
        const reach = section.faceDistances_mm[i] - 4;
        sheet.text([reach * c, reach * s - 1.3], 'ABCDEFGH'[i], {
          size_pt: 10,
          weight: 'semibold',
          align: 'center',
          colour: INK,
        });
      });
      for (const azimuth of indexAzimuths(positions)) {
        const edge = edgeRadius_mm(section, azimuth);
        const [c, s] = [cosDeg(azimuth), sense * sinDeg(azimuth)];
        const inner = 0.35 * edge;
        sheet.line([inner * c, inner * s], [edge * c, edge * s], { colour: MARK, width_mm: 0.3 });
        // Along the mark, read from the left half outward in, so that it never stands upside down.
        const turn = Math.atan2(s, c) / DEG;
        const flipped = Math.abs(turn) > 90.001;
        const beside = flipped ? -1 : 1;
        const r = edge - 3;
        sheet.text(
          [r * c - beside * 1.2 * s, r * s + beside * 1.2 * c],
          `${angle(azimuth)}  ${cutsAt(positions, azimuth)}`,
          {
            size_pt: 7,
            align: flipped ? 'left' : 'right',
            colour: MARK,
            angle_deg: flipped ? turn + 180 : turn,
          },
        );
      }
    },
  });
}
