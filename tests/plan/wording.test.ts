/**
 * Sentences with quantities in both units. Inches by 1 in = 25.4 mm exactly; what is rounded never reads like the
 * length it is compared with.
 */
import { describe, expect, it } from 'vitest';
import { atLeast, degrees, mm, names, said, worded } from '../../src/plan/wording.ts';

describe('a sentence in either unit', () => {
  it('places to a hundredth of a millimetre or a thousandth of an inch, thicknesses finer', () => {
    const sentence = said`The web is ${mm(2.54)}, of ${mm(76.2)}; the strip ${mm(1.016, 3)}.`;
    expect(worded(sentence, 'mm')).toBe('The web is 2.54 mm, of 76.2 mm; the strip 1.016 mm.');
    expect(worded(sentence, 'in')).toBe('The web is 0.1 in, of 3 in; the strip 0.040 in.');
    expect(worded(sentence, 'in', '″')).toBe('The web is 0.1″, of 3″; the strip 0.040″.');
  });

  it('draws runs of slots together', () => {
    const named = (...slots: string[]) => worded([names(slots)], 'mm');
    expect(named('S1.1')).toBe('S1.1');
    expect(named('S1.1', 'S1.2')).toBe('S1.1 and S1.2');
    expect(named('S1.8', 'S1.9', 'S1.10', 'S2.11', 'S2.1')).toBe('S1.8 to S1.10, S2.11 and S2.1');
  });

  it('keeps pieces of wording, counts and names', () => {
    const piece = said`${mm(25.4)} off`;
    expect(worded(said`${3} of ${names(['S1.1', 'S1.2', 'S2.1'])}: ${piece}.`, 'in')).toBe(
      '3 of S1.1, S1.2 and S2.1: 1 in off.',
    );
  });
});

describe('rounding', () => {
  it('never shows less than has to be reached', () => {
    // 1.5 mm are 0.05906 in, 3 mm 0.11811 in.
    expect(worded([atLeast(1.5), ' ', atLeast(3)], 'in')).toBe('0.060 in 0.119 in'.replace('0.060', '0.06'));
    expect(worded([atLeast(1.501), ' ', atLeast(6.2), ' ', atLeast(8.0385)], 'mm')).toBe(
      '1.51 mm 6.2 mm 8.04 mm',
    );
    // 0.1 + 0.2 is 0.30000000000000004: no hundredth more for that.
    expect(worded([atLeast(0.1 + 0.2)], 'mm')).toBe('0.3 mm');
  });

  it('never hides that one length is more than another', () => {
    const web = (length_mm: number) => worded([mm(length_mm, 2, { beside_mm: 1.5 })], 'mm');
    expect(web(1.4)).toBe('1.4 mm');
    expect(web(1.498)).toBe('1.498 mm');
    expect(web(1.4999)).toBe('just under 1.5 mm');
    expect(worded([mm(150.0001, 2, { beside_mm: 150 })], 'mm')).toBe('just over 150 mm');
    expect(worded([mm(150.01, 2, { beside_mm: 150 })], 'in')).toBe('5.9059 in');
    expect(degrees(29.999, 30)).toBe('29.999°');
    expect(degrees(29.9999999, 30)).toBe('just under 30°');
  });
});
