/**
 * Labels in a column, moved apart as little as they can be: the least sum of squared shifts for which neighbours keep
 * their distance. With the distances taken off the places this is isotonic regression, which pooling adjacent violators
 * solves exactly (Barlow, Bartholomew, Bremner and Brunk 1972, section 1.2); the ends of the column bound its result.
 */

/**
 * Where labels that belong at `places` (ascending) may stand, `apart` from one another and between `low` and `high`.
 * Where the column is too short for all of them they stand evenly along it, closer than asked.
 */
export function spread(
  places: readonly number[],
  apart: number,
  { low = -Infinity, high = Infinity }: { readonly low?: number; readonly high?: number } = {},
): number[] {
  const gaps = places.length - 1;
  const step = gaps > 0 ? Math.min(apart, Math.max(0, (high - low) / gaps)) : apart;
  const pools: { sum: number; count: number }[] = [];
  places.forEach((place, i) => {
    let pool = { sum: place - i * step, count: 1 };
    for (
      let last = pools.at(-1);
      last && last.sum / last.count > pool.sum / pool.count;
      last = pools.at(-1)
    ) {
      pools.pop();
      pool = { sum: last.sum + pool.sum, count: last.count + pool.count };
    }
    pools.push(pool);
  });
  const most = Math.max(low, high - gaps * step);
  return pools
    .flatMap(({ sum, count }) =>
      Array.from({ length: count }, () => Math.min(most, Math.max(low, sum / count))),
    )
    .map((place, i) => place + i * step);
}
