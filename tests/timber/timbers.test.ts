/** The list of timbers against the published file it was taken from, cell by cell, statuses and sources too. */
import { describe, expect, it } from 'vitest';
import published from '../fixtures/species.json' with { type: 'json' };
import { TIMBER_ALIASES, TIMBERS, timberById, type Known } from '../../src/timber/timbers.ts';
import { independentDeviationOf, notesOn, sourceOf, SOURCED_FIELDS } from '../../src/timber/sources.ts';

interface Cell {
  readonly value: number;
  readonly status: string;
  readonly source: string;
}

describe('the list of timbers', () => {
  it('has the published 22, in their order', () => {
    expect(TIMBERS.map((timber) => timber.id)).toEqual(published.species.map((species) => species.id));
    expect(TIMBERS).toHaveLength(22);
  });

  it.each(published.species.map((species) => [species.id, species] as const))('%s', (id, species) => {
    const timber = timberById(id)!;
    expect(timber.name).toBe(species.commonName);
    expect(timber.botanicalName).toBe(species.botanicalName);
    expect(timber.lab).toEqual(species.colour.lab);
    expect(timber.srgb).toBe(species.colour.srgb);
    expect(species.colour.status).toBe('M');
    expect(sourceOf(timber, 'lab')).toBe(species.colour.source);
    const cells: Record<Exclude<(typeof SOURCED_FIELDS)[number], 'lab'>, Cell> = {
      basicGravity: species.specificGravity.basic_ovendryMass_greenVolume,
      gravityAt12: species.specificGravity.ovendryMass_volumeAt12pctMC,
      independentBasicGravity: species.specificGravity.crossCheck_GWDDv2_basicDensity_g_cm3,
      movementRadial: species.CR,
      movementTangential: species.CT,
      shrinkageRadial_pct: species.shrinkageGreenToOvendryPct.radial,
      shrinkageTangential_pct: species.shrinkageGreenToOvendryPct.tangential,
      shrinkageVolumetric_pct: species.shrinkageGreenToOvendryPct.volumetric,
    };
    for (const [field, cell] of Object.entries(cells)) {
      const name = field as keyof typeof cells;
      const known: Known = timber[name];
      expect(known, field).toEqual({ value: cell.value, status: cell.status });
      expect(sourceOf(timber, name), field).toBe(cell.source);
    }
    expect(independentDeviationOf(timber)).toBe(
      species.specificGravity.crossCheck_GWDDv2_basicDensity_g_cm3.sd,
    );
    if (species.note !== undefined) expect(notesOn(timber)).toContain(species.note);
  });

  it('knows the two trade names of maple and nothing that only looks like a timber', () => {
    expect(timberById('hard-maple')?.id).toBe('sugar-maple');
    expect(timberById('soft-maple')?.id).toBe('red-maple');
    for (const [alias, id] of TIMBER_ALIASES) expect(timberById(alias)).toBe(timberById(id));
    for (const id of ['', 'oak', 'Black-Walnut', 'constructor', '__proto__', 'toString'])
      expect(timberById(id), id).toBeUndefined();
  });
});
