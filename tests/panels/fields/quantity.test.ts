/** What a number field reads and writes beside lengths and angles; expected texts are as a maker would write them. */
import { describe, expect, test } from 'vitest';
import {
  counted,
  lengthQuantity,
  MINUTES,
  thicknessQuantity,
  unlessUnknown,
} from '../../../src/panels/fields/quantity.ts';

describe('a number of things', () => {
  const slots = counted('slot');
  test.each([
    ['3', 3],
    ['3 slots', 3],
    ['1 Slot', 1],
    [' 12slots ', 12],
  ])('%j is %d', (text, value) => {
    expect(slots.parse(text)).toEqual({ ok: true, value });
  });

  test.each(['', 'slots', '2.5', '3 min', 'three'])('%j is none', (text) => {
    expect(slots.parse(text).ok).toBe(false);
  });

  test('is written with its name, one of them in the singular', () => {
    expect([0, 1, 2].map((n) => slots.format(n))).toEqual(['0 slots', '1 slot', '2 slots']);
    expect([MINUTES.format(1), MINUTES.format(20)]).toEqual(['1 min', '20 min']);
    expect(MINUTES.parse('20 min')).toEqual({ ok: true, value: 20 });
  });
});

describe('what need not be known', () => {
  const throat = unlessUnknown(lengthQuantity('in'));
  test('is 0 in the design, and words or an empty field on screen', () => {
    expect(throat.format(0)).toBe('not known');
    for (const text of ['', '  ', 'not known', 'Not known', '0'])
      expect(throat.parse(text)).toEqual({ ok: true, value: 0 });
  });

  test('is a number like any other once it is known', () => {
    // 1 in = 25.4 mm exactly (International Yard and Pound Agreement, 1959).
    const read = throat.parse('14');
    expect(read.ok && read.value).toBeCloseTo(355.6, 9);
    expect(throat.format(355.6)).toBe('14 in');
    expect(throat.parse('unknown').ok).toBe(false);
    expect(unlessUnknown(thicknessQuantity('mm')).format(0.9)).toBe('0.9 mm');
  });
});
