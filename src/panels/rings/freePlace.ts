/**
 * Where a set that is added lands: the middle of the blank, or, when there are sets, the middle of the widest stretch
 * without one. On the set before it a new one would take all of its strips away. Lengths mm from the foot.
 */
import type { Design, DisplayUnit } from '../../design/document.ts';
import { MM_PER_INCH } from '../../design/units.ts';

/** Places are proposed as a rule reads them. */
const GRID_MM: Readonly<Record<DisplayUnit, number>> = { in: MM_PER_INCH / 16, mm: 1 };

/** Of stretches of one length that nearest the middle of the blank, and of two at that the one nearer the head. */
export function freePlace({ blank: { length_mm }, sets, unit }: Design): number {
  const middle_mm = length_mm / 2;
  const taken = sets.map(({ center_mm }) => Math.min(Math.max(center_mm, 0), length_mm));
  if (taken.length === 0) return middle_mm;
  const bounds = [0, ...taken, length_mm].sort((a, b) => a - b);
  const stretches = bounds.slice(1).map((to, i) => ({ width: to - bounds[i], at: (to + bounds[i]) / 2 }));
  const widest = Math.max(...stretches.map(({ width }) => width));
  const off = ({ at }: { at: number }) => Math.abs(at - middle_mm);
  const equal = stretches.filter(({ width }) => width > widest - GRID_MM[unit] / 2);
  const least = Math.min(...equal.map(off));
  const { at } = equal.findLast((stretch) => off(stretch) < least + GRID_MM[unit] / 2) ?? stretches[0];
  return Math.round(at / GRID_MM[unit]) * GRID_MM[unit];
}
