/**
 * How many rounds a long check runs, and the number that its random sequences start from. `npm test` runs the small fixed slice,
 * `npm run soak -- NAME` the full count of the check called NAME (docs/reliability.md records the results):
 *
 *     import { countFor, SEED } from '../soak/counts.ts';
 *     const rounds = countFor('solids-block', 60, 20_000);
 *
 * Write the name as a plain string in the call (lower-case words joined by hyphens): `npm run soak` finds the
 * checks by reading the test files. Give a long check no timeout of its own; the soak runner lifts the default.
 */

function seedFromEnvironment(): number {
  const text = process.env.KERFWEAVE_SEED;
  if (text === undefined || text === '') return 20_251_113;
  const seed = Number(text);
  if (!Number.isSafeInteger(seed)) throw new Error(`KERFWEAVE_SEED must be a whole number, not "${text}"`);
  return seed;
}

/** Start of every pseudo-random sequence in the tests; KERFWEAVE_SEED replaces it to replay or to widen a run. */
export const SEED: number = seedFromEnvironment();

/** Rounds to run of the long check `name`: `full` under `npm run soak`, else `slice`. Prints name, rounds and seed. */
export function countFor(name: string, slice: number, full: number): number {
  const soak = process.env.KERFWEAVE_SOAK ?? '';
  const count = soak === name || soak === '1' ? full : slice;
  console.log(`long check ${name}: ${count} of ${full} rounds, seed ${SEED}`);
  return count;
}
