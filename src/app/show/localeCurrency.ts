/**
 * The currency to begin with, from the languages that the browser asks pages for: a guess that the maker sees beside the
 * first amount and changes there. The region is read by Intl (Unicode CLDR), its currency by `country-to-currency` (ISO 4217).
 */
import countryToCurrency from 'country-to-currency';

/** Null when no language says or implies a region that has a currency. A region that is named goes before one implied. */
export function currencyOfLanguages(languages: readonly string[]): string | null {
  const locales = languages.flatMap((tag) => {
    try {
      return [new Intl.Locale(tag)];
    } catch {
      // Not a language tag: some browsers hand on what the system calls its locale.
      return [];
    }
  });
  const regions = [...locales, ...locales.map((locale) => locale.maximize())].map(({ region }) => region);
  const known: Readonly<Record<string, string>> = countryToCurrency;
  for (const region of regions)
    if (region !== undefined && Object.hasOwn(known, region)) return known[region];
  return null;
}
