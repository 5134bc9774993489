/** The line of a dimension with its arrowheads. Frame of the drawing; `mm` is a millimetre of paper in it. */
import { INK, THIN } from './ink.ts';
import type { Pen } from './pen.ts';

const HEAD_MM = 2.2;
const HALF_MM = 0.6;

/** From one place to another at one height; where they stand too close the arrows come from outside. */
export function drawDimensionLine(
  pen: Pen,
  [from, to]: readonly [number, number],
  y: number,
  mm: number,
): void {
  const sign = to >= from ? 1 : -1;
  const outside = Math.abs(to - from) < (2 * HEAD_MM + 1) * mm;
  const past = outside ? sign * (HEAD_MM + 2) * mm : 0;
  pen.line([from - past, y], [to + past, y], THIN);
  const way = (outside ? -1 : 1) * sign * HEAD_MM * mm;
  for (const [x, back] of [
    [from, way],
    [to, -way],
  ] as const)
    pen.polygon(
      [
        [x, y],
        [x + back, y + HALF_MM * mm],
        [x + back, y - HALF_MM * mm],
      ],
      { fill: INK },
    );
}
