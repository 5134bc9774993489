/**
 * A plan made in one go that repeats set-ups: each session takes, of the slots that can be cut, those with a
 * set-up of the session before, and fills up in cutting order; of the faces, the one that repeats most. Where
 * sets are quarter-turned this walks round the blank with the same few stops. For designs too large to search.
 */
import { changesBetween, sessionsLeft, type SessionProblem } from './sessionProblem.ts';
import { fits, mark, readyByFace } from './sessionSearch.ts';

/** The plan, or null when it would take more than `most` sessions. */
export function repeatingPlan(problem: SessionProblem, most: number): number[][] | null {
  const done = new Uint8Array(problem.count);
  const waiting = Int32Array.from(problem.before, (list) => list.length);
  const plan: number[][] = [];
  let previous: readonly number[] = [];
  for (let left = problem.count; left > 0;) {
    const repeats = (slot: number) => previous.some((other) => changesBetween(problem, other, slot) === 0);
    const candidates = readyByFace(problem, done, waiting)
      .filter((ready) => ready.length > 0)
      .flatMap((ready) => [
        filled(problem, [...ready.filter(repeats), ...ready.toSorted((a, b) => a - b)]),
        filled(problem, ready),
      ])
      .filter((session) => {
        mark(problem, done, waiting, session, 1);
        const sessions = plan.length + 1 + sessionsLeft(problem, done);
        mark(problem, done, waiting, session, -1);
        return sessions <= most;
      });
    if (candidates.length === 0) return null;
    const worth = (session: readonly number[]) =>
      session.filter(repeats).length * problem.maxOpen + session.length;
    const next = candidates.reduce((best, session) => (worth(session) > worth(best) ? session : best));
    mark(problem, done, waiting, next, 1);
    plan.push(next);
    left -= next.length;
    previous = next;
  }
  return plan;
}

/** As many of the slots as may be open together, the first ones first. */
function filled(problem: SessionProblem, slots: readonly number[]): number[] {
  const session: number[] = [];
  for (const slot of slots)
    if (session.length < problem.maxOpen && !session.includes(slot) && fits(problem, session, slot))
      session.push(slot);
  return session.toSorted((a, b) => a - b);
}
