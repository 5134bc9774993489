/**
 * Labels moved apart: they keep their distance and their column, and no lawful move brings them nearer to where they belong.
 * The sum of squares is convex and so is what is lawful, so a place that no small step betters is the best of all.
 */
import { expect, it } from 'vitest';
import { spread } from '../../../src/files/drawing/spread.ts';
import { seededRandom } from '../../fixtures/random.ts';

const off = (places: readonly number[], spots: readonly number[]) =>
  spots.reduce((sum, spot, i) => sum + (spot - places[i]) ** 2, 0);

it('leaves alone what has room, and moves two that meet by as much each', () => {
  expect(spread([1, 5, 9], 3)).toEqual([1, 5, 9]);
  expect(spread([10, 11], 3)).toEqual([9, 12]);
  // Three that fall together: the outer two move, the middle one stays.
  expect(spread([4, 4, 4], 3)).toEqual([1, 4, 7]);
  expect(spread([], 3)).toEqual([]);
});

it('stays inside the column, closer than asked where it is too short', () => {
  expect(spread([0, 0, 0], 3, { low: 1, high: 40 })).toEqual([1, 4, 7]);
  expect(spread([39, 40], 3, { low: 1, high: 40 })).toEqual([37, 40]);
  expect(spread([5, 6, 7, 8, 9], 3, { low: 0, high: 8 })).toEqual([0, 2, 4, 6, 8]);
});

it('keeps the distance with the least sum of squared shifts', () => {
  const random = seededRandom(20_251);
  for (let round = 0; round < 60; round++) {
    const count = random.whole(2, 13);
    const places = Array.from({ length: count }, () => random.between(0, 40)).sort((a, b) => a - b);
    const room = { low: random.between(-2, 2), high: random.between(45, 50) };
    const spots = spread(places, 3, room);
    const lawful = (trial: readonly number[]) =>
      trial.every((spot, i) => i === 0 || spot - trial[i - 1] >= 3 - 1e-9) &&
      trial[0] >= room.low - 1e-9 &&
      trial[count - 1] <= room.high + 1e-9;
    expect(lawful(spots), `round ${round}`).toBe(true);
    const least = off(places, spots);
    // Every run of neighbours moved together, and random steps of all of them at once.
    const steps = [];
    for (let from = 0; from < count; from++)
      for (let to = from; to < count; to++)
        for (const step of [1e-3, -1e-3])
          steps.push(spots.map((spot, i) => spot + (i >= from && i <= to ? step : 0)));
    for (let k = 0; k < 30; k++) steps.push(spots.map((spot) => spot + random.between(-0.005, 0.005)));
    for (const trial of steps)
      if (lawful(trial)) expect(off(places, trial), `round ${round}`).toBeGreaterThan(least - 1e-6);
  }
});
