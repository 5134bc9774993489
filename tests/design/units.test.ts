/** Lengths and angles as typed and shown, against exact arithmetic and the published rounding examples. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  formatAngle,
  formatInches,
  formatLength,
  formatMillimetres,
  formatThickness,
  formatThousandths,
  ruleReading,
} from '../../src/design/lengthText.ts';
import { MM_PER_INCH, parseAngle, parseLength } from '../../src/design/units.ts';
import { SEED } from '../soak/counts.ts';

describe('a typed length', () => {
  // The inch is 25.4 mm exactly since 1 July 1959; everything here is exact arithmetic on it.
  it.each([
    ['3 1/8 in', 'mm', 79.375],
    ['3-1/8"', 'mm', 79.375],
    ['3 - 1/8 in', 'mm', 79.375],
    ['3⅛″', 'mm', 79.375],
    ['3 ⅛”', 'mm', 79.375],
    ['1/64', 'in', 0.396875],
    ['1⁄64 in', 'mm', 0.396875],
    ['½', 'in', 12.7],
    ['1/2', 'mm', 0.5],
    ['79.4', 'mm', 79.4],
    ['79.4', 'in', 79.4 * 25.4],
    ['79,4 mm', 'in', 79.4],
    ['79.4mm', 'in', 79.4],
    ['.04', 'in', 1.016],
    ['0.040"', 'mm', 1.016],
    ["0.040''", 'mm', 1.016],
    ['40 thou', 'mm', 1.016],
    ['40thou', 'in', 1.016],
    ['12 cm', 'in', 120],
    ['0.2 m', 'mm', 200],
    ['5.', 'mm', 5],
    ['-1/8 in', 'mm', -3.175],
    ['−3.5', 'mm', -3.5],
    ['  8   in.  ', 'mm', 203.2],
    ['8 INCHES', 'mm', 203.2],
    ['2 1/2 mm', 'in', 2.5],
    ['-0', 'mm', 0],
  ] as const)('%j in %s is %d mm', (text, unit, expected_mm) => {
    const typed = parseLength(text, unit);
    expect(typed).toEqual({ ok: true, value: expect.closeTo(expected_mm, 12) as number });
    expect(typed.ok && Object.is(typed.value, -0)).toBe(false);
  });

  it.each([
    ['', 'a number is needed'],
    ['  ', 'a number is needed'],
    ['wide', '"wide" is not a number'],
    ['3 feet', '"feet" is no unit of length: use in, ", thou, mm or cm'],
    ['3\' 2"', '"\' 2\\"" is no unit of length: use in, ", thou, mm or cm'],
    ['1/0', 'a fraction cannot be of 0 parts'],
    ['1/2/3', '"1/2/3" is not one number'],
    ['3 4', '"3 4" is not one number'],
    ['1,234.5', '"1,234.5" is not one number'],
    ['1.2.3', '"1.2.3" is not one number'],
    ['3+1', '"3+1" is not one number'],
    ['1e3', '"e3" is no unit of length: use in, ", thou, mm or cm'],
    ['5 constructor', '"constructor" is no unit of length: use in, ", thou, mm or cm'],
    [`1${'0'.repeat(400)}`, 'the number is too large'],
  ])('%j is refused: %s', (text, reason) => {
    expect(parseLength(text, 'mm')).toEqual({ ok: false, reason });
  });

  it('never throws and never gives anything but a finite number, whatever is typed', () => {
    const signs = fc.constantFrom(...Array.from('0123456789 ./,-"′″½⅛inmchtou°e\'\u00a0'));
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.string({ unit: signs })), (text) => {
        for (const typed of [parseLength(text, 'in'), parseAngle(text)]) {
          if (typed.ok) expect(Number.isFinite(typed.value)).toBe(true);
          else expect(typed.reason).not.toBe('');
        }
      }),
      { seed: SEED, numRuns: 2000 },
    );
  });
});

describe('a typed angle', () => {
  it.each([
    ['45°', 45],
    ['45.5', 45.5],
    ['45,5 °', 45.5],
    ['45 deg', 45],
    ['45 degrees', 45],
    ['22 1/2', 22.5],
    ['-10', -10],
  ])('%j is %d degrees', (text, expected) => {
    expect(parseAngle(text)).toEqual({ ok: true, value: expected });
  });

  it('is refused in other units', () => {
    expect(parseAngle('0.5 rad')).toEqual({ ok: false, reason: '"rad" is no unit of angle: use degrees' });
  });
});

describe('a rule', () => {
  // Nearest sixty-fourth and what it leaves over: 10, 19, 3.2 and 100 mm worked out by hand.
  it.each([
    [10, '25/64', -0.078125],
    [19, '3/4', 0.05],
    [3.2, '1/8', -0.025],
    [100, '3 15/16', 0.0125],
    [25.4, '1', 0],
    [0, '0', 0],
    [0.19, '0', -0.19],
    [-3.175, '-1/8', 0],
    [25.3, '1', 0.1],
  ])('reads %d mm as %s in, %d mm over', (length_mm, text, residual_mm) => {
    const reading = ruleReading(length_mm);
    expect(reading.text).toBe(text);
    expect(reading.residual_mm).toBeCloseTo(residual_mm, 9);
    expect(reading.shown_mm).toBeCloseTo(length_mm + residual_mm, 9);
  });

  // 1/64 in = 0.396875 mm, so no reading is off by more than 0.1984375 mm.
  it('is never off by more than half a sixty-fourth, and its text reads back as what it shows', () => {
    fc.assert(
      fc.property(fc.double({ min: -500, max: 5000, noNaN: true }), (length_mm) => {
        const reading = ruleReading(length_mm);
        expect(Math.abs(reading.residual_mm)).toBeLessThanOrEqual(0.1984375 + 1e-9);
        const back = parseLength(reading.text, 'in');
        expect(back).toEqual({ ok: true, value: expect.closeTo(reading.shown_mm, 9) as number });
      }),
      { seed: SEED, numRuns: 500 },
    );
  });
});

describe('a length as text', () => {
  it('is short, in millimetres', () => {
    expect(formatMillimetres(76.2)).toBe('76.2 mm');
    expect(formatMillimetres(1.016)).toBe('1.016 mm');
    expect(formatMillimetres(203.2)).toBe('203.2 mm');
    expect(formatMillimetres(100)).toBe('100 mm');
    expect(formatMillimetres(-0.0001)).toBe('0 mm');
  });

  it('is in thousandths of an inch for a thickness, with a decimal more where it matters', () => {
    expect(formatThousandths(1.016)).toBe('0.040 in');
    expect(formatThousandths(2.54)).toBe('0.100 in');
    expect(formatThousandths(0.0508)).toBe('0.002 in');
    expect(formatThousandths(1)).toBe('0.0394 in');
    expect(formatThousandths(0)).toBe('0.000 in');
  });

  it('is the same for one size however it was reckoned: a half of the last decimal goes up', () => {
    // Each is 3/32 in but for what sums and conversions leave at the sixteenth digit.
    for (const length_mm of [
      2.38125,
      0.09375 * 25.4,
      (3 / 32) * 25.4,
      1.016 + 1.36525,
      3.175 * 0.75,
      2.4 - 0.01875,
    ])
      expect(formatThousandths(length_mm)).toBe('0.0938 in');
    expect(formatThousandths(2.3812)).toBe('0.0937 in');
  });

  it('is never a sixty-fourth for a strip: 0.040 in stays itself, where a rule would show 3/64', () => {
    expect(formatThickness(1.016, 'in')).toBe('0.040 in');
    expect(ruleReading(1.016).text).toBe('3/64');
  });

  it('follows the display unit', () => {
    expect(formatLength(79.375, 'in')).toBe('3.125 in');
    expect(formatLength(79.375, 'mm')).toBe('79.38 mm');
    expect(formatThickness(1.016, 'mm')).toBe('1.016 mm');
    expect(formatAngle(54.7356)).toBe('54.74°');
    expect(formatAngle(45)).toBe('45°');
  });

  it('reads back within the last decimal shown', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 5000, noNaN: true }), (length_mm) => {
        const inches = parseLength(formatInches(length_mm), 'mm');
        const millimetres = parseLength(formatMillimetres(length_mm), 'in');
        const thickness = parseLength(formatThousandths(length_mm), 'mm');
        expect(inches.ok && Math.abs(inches.value - length_mm)).toBeLessThanOrEqual(
          0.0005 * MM_PER_INCH + 1e-9,
        );
        expect(millimetres.ok && Math.abs(millimetres.value - length_mm)).toBeLessThanOrEqual(0.005 + 1e-9);
        expect(thickness.ok && Math.abs(thickness.value - length_mm)).toBeLessThanOrEqual(
          0.000_05 * MM_PER_INCH + 1e-9,
        );
      }),
      { seed: SEED, numRuns: 500 },
    );
  });
});
