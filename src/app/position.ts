/**
 * Places on the line of moments: whole numbers are moments of a design (blank/moments.ts), fractions the way from
 * one to the next.
 */
import type { Moment } from '../blank/moments.ts';
import type { Design } from '../design/document.ts';
import { momentsFor } from '../panels/derived.ts';

export function lastPosition(design: Design): number {
  return momentsFor(design).length - 1;
}

/** The cut nearest to a place on the line of moments; the place itself where a slot is in work or there is none. */
export function nearestCut(design: Design, position: number): number {
  const moments = momentsFor(design);
  if (moments[Math.ceil(position - 1e-9)]?.slot !== null) return position;
  const cuts = moments.flatMap((moment, i) => (moment.kind === 'cut' ? [i] : []));
  return cuts.reduce(
    (best, i) => (Math.abs(i - position) < Math.abs(best - position) ? i : best),
    cuts[0] ?? position,
  );
}

/** Where the line of moments stands after an edit: at the same moment of the new line, the end staying the end. */
export function positionAfter(before: Design, after: Design, position: number): number {
  const old = momentsFor(before);
  const next = momentsFor(after);
  if (position >= old.length - 1) return next.length - 1;
  const index = Math.ceil(position);
  const key = momentKey(before, old[index]);
  const found = next.findIndex((moment) => momentKey(after, moment) === key);
  return Math.max(0, Math.min(found >= 0 ? found + (position - index) : position, next.length - 1));
}

function momentKey(design: Design, moment: Moment): string {
  return `${moment.kind} ${moment.slot === null ? '' : design.order[moment.slot]}`;
}
