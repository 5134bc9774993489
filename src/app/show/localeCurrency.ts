/**
 * The currency to begin with, from the languages that the browser asks pages for: a guess that the maker sees beside the
 * first amount and changes there. The region is read by Intl (Unicode CLDR), its currency by `country-to-currency` (ISO 4217).
 */
import countryToCurrency from 'country-to-currency';
import { regionsOf } from '../regions.ts';

/** Null when no language says or implies a region that has a currency. */
export function currencyOfLanguages(languages: readonly string[]): string | null {
  const known: Readonly<Record<string, string>> = countryToCurrency;
  const region = regionsOf(languages).find((one) => Object.hasOwn(known, one));
  return region === undefined ? null : known[region];
}
