/**
 * The timbers' textures: base colours as listed (CIELAB by way of culori, an independent library), every timber with a
 * figure of its own, no two alike.
 */
import { formatHex } from 'culori';
import { Color } from 'three';
import { expect, test } from 'vitest';
import { TABLE_COLUMNS, timberTextures } from '../../src/stage/wood/timberTexture.ts';
import { FIGURED_TIMBERS } from '../../src/timber/figure.ts';
import { TIMBERS } from '../../src/timber/timbers.ts';

const textures = timberTextures();
const table = textures.table.image.data as Float32Array;
const rowOf = (id: string) =>
  table.subarray(4 * TABLE_COLUMNS * textures.rowOf(id), 4 * TABLE_COLUMNS * (textures.rowOf(id) + 1));

test('every timber of the list has its colour and a figure of its own', () => {
  expect([...FIGURED_TIMBERS].sort()).toEqual(TIMBERS.map((timber) => timber.id).sort());
  for (const { id, lab } of TIMBERS) {
    const [r, g, b] = rowOf(id);
    const shown = `#${new Color(r, g, b).getHexString()}`;
    expect(shown, id).toBe(formatHex({ mode: 'lab65', l: lab[0], a: lab[1], b: lab[2] }));
  }
});

test('no two timbers are drawn from the same numbers', () => {
  const figures = TIMBERS.map(({ id }) => [...rowOf(id)].slice(3).join());
  expect(new Set(figures).size).toBe(TIMBERS.length);
});

test('an alias means its timber, an unknown name gets plain wood, a chosen colour is taken', () => {
  expect(textures.rowOf('hard-maple')).toBe(textures.rowOf('sugar-maple'));
  expect(textures.rowOf('moon-wood')).toBe(TIMBERS.length);
  const own = textures.tableWith({ 'soft-maple': '#336699' }).image.data as Float32Array;
  const [r, g, b] = own.subarray(4 * TABLE_COLUMNS * textures.rowOf('red-maple'));
  expect(new Color(r, g, b).getHexString()).toBe('336699');
});

test('end grain is darker than side grain in every timber', () => {
  for (const { id } of TIMBERS) expect(rowOf(id)[36], id).toBeLessThan(1);
});

test('streaks repeat without a seam: the step from the last sample to the first is one of the steps in between', () => {
  const lines = textures.rings.image.data as Uint8Array;
  const width = textures.rings.image.width;
  for (const { id } of TIMBERS) {
    const row = lines.subarray(4 * width * textures.rowOf(id), 4 * width * (textures.rowOf(id) + 1));
    const streak = Array.from({ length: width }, (_, i) => row[4 * i + 1]);
    const steps = streak.slice(1).map((value, i) => Math.abs(value - streak[i]));
    expect(Math.abs(streak[0] - streak[width - 1]), id).toBeLessThanOrEqual(Math.max(...steps) + 2);
    expect(Math.max(...streak) - Math.min(...streak), id).toBeGreaterThan(40);
  }
});
