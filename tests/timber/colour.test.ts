/** Colours against published pairs and against the published list of timbers. */
import { describe, expect, it } from 'vitest';
import sharma from '../fixtures/ciede2000-sharma-34.json' with { type: 'json' };
import { colourDifference, hexOfLab, labOfHex, LOW_CONTRAST_DE00 } from '../../src/timber/colour.ts';
import { TIMBERS, timberById } from '../../src/timber/timbers.ts';

describe('colour difference', () => {
  it('agrees with the 34 pairs of Sharma, Wu and Dalal 2005, table 1, to the four decimals printed', () => {
    expect(sharma.pairs).toHaveLength(34);
    for (const [L1, a1, b1, L2, a2, b2, printed] of sharma.pairs) {
      expect(colourDifference([L1, a1, b1], [L2, a2, b2]).toFixed(4)).toBe(printed.toFixed(4));
      expect(colourDifference([L2, a2, b2], [L1, a1, b1]).toFixed(4)).toBe(printed.toFixed(4));
    }
  });

  it('tells walnut from maple and finds maple and ash too close', () => {
    const [walnut, maple, ash] = ['black-walnut', 'hard-maple', 'white-ash'].map((id) => timberById(id)!);
    expect(colourDifference(walnut.lab, maple.lab)).toBeGreaterThan(LOW_CONTRAST_DE00);
    expect(colourDifference(maple.lab, ash.lab)).toBeLessThan(LOW_CONTRAST_DE00);
  });
});

describe('conversion', () => {
  // L* of the sRGB primary: IEC 61966-2-1 with a D65 white; 53.2408 is the value commonly printed.
  it('gives red the lightness that is printed for it', () => {
    expect(labOfHex('#ff0000')![0]).toBeCloseTo(53.2408, 1);
  });

  it('refuses what is no hex colour', () => {
    expect(labOfHex('walnut')).toBeUndefined();
  });

  it('gives every timber the sRGB value listed beside its CIELAB value', () => {
    const channels = (hex: string) => [1, 3, 5].map((i) => Number.parseInt(hex.slice(i, i + 2), 16));
    for (const timber of TIMBERS) {
      const listed = channels(timber.srgb);
      channels(hexOfLab(timber.lab)).forEach((value, i) =>
        expect(Math.abs(value - listed[i]), `${timber.id} ${timber.srgb}`).toBeLessThanOrEqual(1),
      );
    }
  });

  // Ranges measured on 98 tropical species and beyond: L* 24 to 87, a* 0 to 31, b* 1 to 37.
  it('keeps every colour within the ranges measured on wood', () => {
    for (const { id, lab } of TIMBERS) {
      expect(lab[0], id).toBeGreaterThanOrEqual(24);
      expect(lab[0], id).toBeLessThanOrEqual(87);
      expect(lab[1], id).toBeGreaterThanOrEqual(0);
      expect(lab[1], id).toBeLessThanOrEqual(31);
      expect(lab[2], id).toBeGreaterThanOrEqual(1);
      expect(lab[2], id).toBeLessThanOrEqual(37);
    }
  });
});
