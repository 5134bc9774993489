/** The unit of a first visit. That people in the United States measure wood in inches and elsewhere in Europe not: common practice. */
import { expect, test } from 'vitest';
import { unitOfLanguages } from '../../src/app/regions.ts';

test.each([
  [['en-US', 'en'], 'in'],
  [['en-GB', 'en'], 'mm'],
  [['de'], 'mm'],
  [['en'], 'in'],
  [['es', 'en-US'], 'in'],
  [['fr-CH', 'en-US'], 'mm'],
  [['not a tag', 'sv'], 'mm'],
  [[], 'in'],
] as const)('%j begins in %s', (languages, unit) => {
  expect(unitOfLanguages(languages)).toBe(unit);
});
