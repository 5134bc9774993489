/** Warnings that say the same of several cuts are one; what differs in more than the cut is not. */
import { expect, test } from 'vitest';
import { grouped, slotRanges } from '../../src/panels/messages/grouped.ts';
import { limitGroups } from '../../src/panels/plan/limitGroups.ts';
import { sawLimitsOf } from '../../src/plan/sawLimits.ts';
import { fourRings } from '../fixtures/designs.ts';
import type { Message } from '../../src/plan/messages.ts';
import { mm, said, worded, type Wording } from '../../src/plan/wording.ts';

const web = (slot: string, words: Wording = said`The web of ${slot} is ${mm(0.5)} thin.`): Message => ({
  level: 'warning',
  code: 'web-thin',
  slot,
  words,
});

test('the same of several cuts of a set is said once, of each', () => {
  const piece: Message = { level: 'note', code: 'sessions-not-proven', slot: null, words: ['Two glue-ups.'] };
  expect(grouped([piece, web('S1.1'), web('S2.1'), web('S1.10'), web('S1.2')], 'mm')).toEqual([
    { level: 'note', slots: [], text: 'Two glue-ups.' },
    { level: 'warning', slots: ['S1.1', 'S1.10', 'S1.2'], text: 'The web of each is 0.5 mm thin.' },
    { level: 'warning', slots: ['S2.1'], text: 'The web of S2.1 is 0.5 mm thin.' },
  ]);
});

test('another figure or another cut named keeps messages apart', () => {
  const apart = [
    web('S1.1'),
    web('S1.2', said`The web of ${'S1.2'} is ${mm(0.6)} thin.`),
    web('S1.3', ['S1.3 is 2 mm from S2.1.']),
    web('S1.4', ['S1.4 is 2 mm from S2.2.']),
  ];
  expect(grouped(apart, 'in').map(({ text }) => text)).toEqual(apart.map(({ words }) => worded(words, 'in')));
});

test('limits of the saw are said once for all cuts that they hold for', () => {
  const design = fourRings({ unit: 'mm', set: { angle_deg: 25 } });
  expect(limitGroups(sawLimitsOf(design), 'mm')).toEqual([
    {
      text: 'S1.1 asks for 25°, the fence turns no further than 30°. The same for S1.2 to S1.4.',
      remedies: ['Raise the angle of its set to 30°.', 'Make a sled whose fence stands at 25°.'],
    },
  ]);
});

test('runs of cuts are drawn together', () => {
  expect(slotRanges(['S1.2', 'S1.1', 'S1.3', 'S1.5'])).toBe('S1.1–S1.3, S1.5');
  expect(slotRanges(['S12.7', 'S12.8'])).toBe('S12.7, S12.8');
});
