/**
 * A cut with the table tilted, seen along the feed: the blank on its end, its side against the ledge on the low side
 * of the table, the blade upright. To scale. Local frame: u toward the ledge, height above the table; mirrored where
 * the table goes down to the left.
 */
import { sectionGeometry, support_mm } from '../../blank/section.ts';
import type { Design } from '../../design/document.ts';
import { BLADE, BLADE_PATH, EDGE, INK, INK_SOFT, MARK, PAPER, TINT } from '../../files/drawing/ink.ts';
import type { Pen, Point } from '../../files/drawing/pen.ts';
import { angle } from '../../files/sheet/numbers.ts';
import { DEG } from '../../geometry/angle.ts';
import type { SetupOnTable } from '../../plan/setups.ts';
import { ledgePlace } from './tableWords.ts';

export function drawTableCut(paper: Pen, [width, height]: Point, design: Design, setup: SetupOnTable): void {
  const { table } = setup;
  const section = sectionGeometry(design.blank.section);
  const near = support_mm(section, setup.fence_azimuth_deg);
  const far = support_mm(section, setup.fence_azimuth_deg + 180);
  const long = design.blank.length_mm;
  const way = table.tilts === 'right' ? 1 : -1;
  const tilt = table.tilt_deg * DEG;
  const [c, s] = [Math.cos(tilt), Math.sin(tilt)];
  const turned = ([u, h]: Point): Point => [way * (u * c + h * s), h * c - u * s];
  const bounds = [
    [-far, 0],
    [near, 0],
    [near, long],
    [-far, long],
  ].map(([u, h]) => turned([u, h]));
  const [left, right] = [Math.min(...bounds.map(([x]) => x)), Math.max(...bounds.map(([x]) => x))];
  const [low, high] = [Math.min(...bounds.map(([, y]) => y)), Math.max(...bounds.map(([, y]) => y))];
  const n = Math.max((right - left) / (width - 24), (high - low) / (height - 22));
  const at: Point = [(width - (left + right) / n) / 2, (height - (low + high) / n) / 2 + 1];
  const pen = paper.within(at, 1 / n, -way * tilt);
  const place = ([u, h]: Point): Point => [way * u, h];
  const box = (u: number, h: number, w: number, tall: number): Point[] =>
    [
      [u, h],
      [u + w, h],
      [u + w, h + tall],
      [u, h + tall],
    ].map(([x, y]) => place([x, y]));

  pen.polygon(box(-far - 6 * n, -3 * n, near + far + 14 * n, 3 * n), { fill: '#e3e7e1', stroke: EDGE });
  pen.polygon(box(near, 0, 4 * n, 9 * n), { fill: INK_SOFT, stroke: EDGE });
  pen.polygon(box(-far, 0, near + far, long), { fill: TINT, stroke: EDGE });

  if (table.ledge_to_kerf_center_mm !== null && c > 1e-9) {
    // The blade is upright on paper: it leans away from the ledge by the tilt as it rises from the table.
    const foot = near - table.ledge_to_kerf_center_mm;
    const along = (h: number): Point => place([foot - (h * s) / c, h]);
    pen.line(along(-9 * n), along(long + 6 * n), BLADE_PATH);
    const steps: Point[] = box(-far, 0, near + far, long);
    pen.clipped(
      steps.map((point, i) => [i === 0 ? 'move' : 'line', point] as const),
      (inside) => inside.line(along(0), along(long), { ...BLADE, width_mm: 0.9 }),
    );
  }
  const text = { size_pt: 9, align: 'center', colour: INK, angle_deg: -way * table.tilt_deg } as const;
  pen.text(place([-0.6 * far, 2 * n]), table.end_down, text);
  pen.text(place([-0.6 * far, long - 5 * n]), table.end_down === 'foot' ? 'head' : 'foot', text);
  if (setup.face !== null)
    pen.text(place([near - 4 * n, long / 2]), setup.face, { ...text, size_pt: 13, weight: 'semibold' });
  paper.text([3, height - 5], `tilt ${angle(table.tilt_deg)}`, {
    size_pt: 9.5,
    weight: 'semibold',
    colour: MARK,
    halo: PAPER,
  });
  if (table.ledge_to_kerf_center_mm !== null)
    paper.text([3, 2.5], `ledge: ${ledgePlace(table.ledge_to_kerf_center_mm, design.unit)}`, {
      size_pt: 9.5,
      weight: 'semibold',
      colour: INK,
      halo: PAPER,
    });
}
