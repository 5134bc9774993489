/** What the panels say: moments, azimuths, keys of the line of moments. */
import { expect, test } from 'vitest';
import { momentsOf } from '../../src/blank/moments.ts';
import { keyTarget } from '../../src/panels/moments/MomentLine.tsx';
import { momentWords } from '../../src/panels/moments/momentText.ts';
import { evenAzimuths, evenCount } from '../../src/panels/rings/AzimuthField.tsx';
import { anglePairs } from '../../src/panels/rings/CompareAngles.tsx';
import { fourRings } from '../fixtures/designs.ts';

const design = fourRings();
const moments = momentsOf(design);

test('every moment has a name, and cuts name slot, angle and face', () => {
  const titles = moments.map((moment) => momentWords(design, moment).title);
  expect(titles.slice(0, 5)).toEqual(['Sawn block', 'Cut 1', 'Strip 1', 'Turn face B to the fence', 'Cut 2']);
  expect(titles.at(-1)).toBe('Finished');
  expect(momentWords(design, moments[4]).detail).toBe('S1.2, 45°, face B at the fence');
});

test('a cut from no face names its azimuth', () => {
  const odd = fourRings({ set: { fence_azimuths_deg: [12.5, 100] } });
  const cut = momentsOf(odd).find(({ kind }) => kind === 'cut');
  expect(cut && momentWords(odd, cut).detail).toBe('S1.1, 45°, azimuth 12.5° at the fence');
});

test('a cut of variants at different angles names no angle', () => {
  const other = fourRings({ set: { angle_deg: 60 } });
  expect(momentWords(design, moments[4], [design, other]).detail).toBe('S1.2, face B at the fence');
  expect(momentWords(design, moments[4], [design]).detail).toBe('S1.2, 45°, face B at the fence');
});

test('a block without cuts has no strips and no rings to speak of', () => {
  const bare = { ...design, sets: [], order: [] };
  const words = momentsOf(bare).map((moment) => momentWords(bare, moment));
  expect(words.find(({ title }) => title === 'Block')?.detail).toBe('no cuts yet');
  expect(words.at(-1)).toEqual({ title: 'Finished', detail: 'no rings' });
  expect(words.some(({ title }) => title === 'Glued block')).toBe(false);
});

test('keys of the line of moments', () => {
  expect(keyTarget('ArrowRight', moments, 1.3)).toBe(2);
  expect(keyTarget('ArrowLeft', moments, 1.3)).toBe(1);
  expect(keyTarget('PageUp', moments, 1)).toBe(4);
  expect(keyTarget('PageDown', moments, 4)).toBe(1);
  expect(keyTarget('End', moments, 1)).toBe(moments.length - 1);
  expect(keyTarget('a', moments, 1)).toBeNull();
});

test('evenly spread azimuths are told from free ones', () => {
  expect(evenCount([0, 90, 180, 270])).toBe(4);
  expect(evenCount([15, 195])).toBe(2);
  expect(evenCount([0, 90, 180, 271])).toBeNull();
  expect(evenCount([0, 180, 90, 270])).toBeNull();
  expect(evenAzimuths(3, 350)).toEqual([350, 110, 230]);
});

test('45° against 60° is always offered, and the set at its own angle against 60°', () => {
  expect(anglePairs(45)).toEqual([[45, 60]]);
  expect(anglePairs(50)).toEqual([
    [50, 60],
    [45, 60],
  ]);
  expect(anglePairs(70)[0]).toEqual([60, 70]);
});
