/** The currency that a browser's languages suggest. */
import countryToCurrency from 'country-to-currency';
import { describe, expect, it } from 'vitest';
import { currencyOfLanguages } from '../../src/app/show/localeCurrency.ts';

describe('the currency of a browser', () => {
  it.each([
    // ISO 4217, from memory; the likely regions of bare languages as in Unicode CLDR's likely subtags.
    [['en-US', 'en'], 'USD'],
    [['en-GB'], 'GBP'],
    [['de-AT', 'de', 'en'], 'EUR'],
    [['de-CH'], 'CHF'],
    [['fr-CA', 'en-CA'], 'CAD'],
    [['pt-BR'], 'BRL'],
    [['zh-Hant-TW'], 'TWD'],
    [['sv'], 'SEK'],
    [['ja'], 'JPY'],
    // A region that is named says more than the likely one of the language before it.
    [['en', 'de-DE'], 'EUR'],
    [['en', 'nb-NO', 'en-US'], 'NOK'],
  ])('%j: %s', (languages, currency) => {
    expect(currencyOfLanguages(languages)).toBe(currency);
  });

  it('is not guessed from what is no language, or has no region with money', () => {
    expect(currencyOfLanguages([])).toBeNull();
    // As some systems call a locale; 001 is the world (UN M49).
    expect(currencyOfLanguages(['C.UTF-8', 'en_US', 'ar-001'])).toBeNull();
    expect(currencyOfLanguages(['C.UTF-8', 'nl-NL'])).toBe('EUR');
  });

  it('is one that the list of currencies holds, in every region', () => {
    // Unicode CLDR as the platform has it, an independent table; codes minted since 2022 it may not have yet.
    const known = new Set(Intl.supportedValuesOf('currency'));
    const missing = new Set(Object.values(countryToCurrency).filter((code) => !known.has(code)));
    expect([...missing].filter((code) => !['XCG', 'ZWG', 'SLE'].includes(code))).toEqual([]);
  });
});
