/** Lengths for a client: in the unit of the client's region, of the piece as it came. */
import { expect, it, vi } from 'vitest';
import { inClientsUnit } from '../../src/app/show/clientUnit.ts';
import { shownVariantsOf } from '../../src/app/stageView.ts';
import { workOf } from '../../src/app/work.ts';
import { isSameOffer } from '../../src/design/offerEdits.ts';
import { fourRings } from '../fixtures/designs.ts';

const INCHES = fourRings({ unit: 'in' });
const METRIC = fourRings({ unit: 'mm' });

it('changes nothing of the piece but the unit, and is the same design each time', () => {
  const shown = inClientsUnit(INCHES, ['de-AT']);
  expect(shown).toEqual({ ...INCHES, unit: 'mm' });
  expect(isSameOffer(shown, INCHES)).toBe(true);
  expect(inClientsUnit(INCHES, ['de-AT'])).toBe(shown);
  expect(inClientsUnit(INCHES, ['en-US'])).toBe(INCHES);
  expect(inClientsUnit(METRIC, ['en-US']).unit).toBe('in');
});

it('is on the client’s stage, and not on the maker’s', () => {
  vi.stubGlobal('navigator', { languages: ['de-AT'] });
  const unitOf = (client: boolean) => shownVariantsOf(workOf(INCHES), false, 'gloss', client)[0].design.unit;
  expect(unitOf(true)).toBe('mm');
  expect(unitOf(false)).toBe('in');
  vi.unstubAllGlobals();
});
