/** Where the maker is, from the languages that the browser asks pages for: a guess for what is chosen at a first visit. */
import type { DisplayUnit } from '../design/document.ts';

/** Territories that do not measure in metres (Unicode CLDR, supplemental measurement data; from memory). */
const INCHES = ['LR', 'MM', 'US'];

/** Region subtags, those that are named before those that a language implies (Intl, Unicode CLDR). */
export function regionsOf(languages: readonly string[]): string[] {
  const locales = languages.flatMap((tag) => {
    try {
      return [new Intl.Locale(tag)];
    } catch {
      // Not a language tag: some browsers hand on what the system calls its locale.
      return [];
    }
  });
  return [...locales, ...locales.map((locale) => locale.maximize())].flatMap(({ region }) => region ?? []);
}

/** The unit to begin with; inches where no language says or implies a region. */
export function unitOfLanguages(languages: readonly string[]): DisplayUnit {
  const region = regionsOf(languages).at(0);
  return region === undefined || INCHES.includes(region) ? 'in' : 'mm';
}
