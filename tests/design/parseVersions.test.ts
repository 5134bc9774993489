/**
 * Reading files of other versions: fields that version 1 does not have, and files newer than this program.
 */
import { describe, expect, it } from 'vitest';
import { parseDesign } from '../../src/design/parse.ts';
import { changed } from './changed.ts';
import { DRILLED, SHORTEST, faultsAfter } from './shortest.ts';

describe('a file of version 1', () => {
  const NEW_FIELDS: [path: string, value: unknown][] = [
    ['blank.grain', { along: 'axis' }],
    ['sets[0].strip.layers[0].grain', 'length'],
    ['sets[0].locked', false],
    ['form.loop', false],
    ['form.holes', []],
    ['form.finish', 'oiled'],
    ['colors', {}],
  ];

  it.each(NEW_FIELDS)('has no %s', (path, value) => {
    const lines = faultsAfter(['version', 1], ['form', { outline: DRILLED.outline }], [path, value]);
    expect(lines).toEqual([`${path}: is a field of version 2; this file says version 1`]);
    expect(faultsAfter(['form', { outline: DRILLED.outline }], [path, value])).toEqual([]);
  });

  it('has each of them named beside its other faults, and 50 at most', () => {
    const lines = faultsAfter(['version', 1], ['form', null], ['unit', 'ell'], ...NEW_FIELDS.slice(0, 3));
    expect(lines).toHaveLength(4);
    expect(lines.at(-1)).toBe('unit: "ell" is none of in, mm');
    const layer = { timber: 'teak', thickness_mm: 1, grain: 'depth' };
    const [set] = (JSON.parse(SHORTEST) as { sets: object[] }).sets;
    const sets = Array.from({ length: 60 }, (_, n) => ({ ...set, id: `S${n}`, strip: { layers: [layer] } }));
    expect(faultsAfter(['version', 1], ['sets', sets]).at(-1)).toBe('and 10 more faults');
  });
});

describe('a file of a newer version', () => {
  const newer = (...changes: readonly (readonly [path: string, value: unknown])[]) => {
    const design: unknown = JSON.parse(SHORTEST);
    const all = [['version', 7] as const, ...changes];
    return parseDesign(
      JSON.stringify(all.reduce((document, [path, value]) => changed(document, path, value), design)),
    );
  };

  it('is refused by its version alone, whatever else is in it', () => {
    for (const result of [newer(), newer(['sets[0].angle_deg', 'steep'])]) {
      const message = expect.stringMatching(/^7 is newer than \d+/) as string;
      expect(!result.ok && result.faults).toEqual([{ path: 'version', code: 'newer-version', message }]);
    }
  });

  it('is handed on whole, and as far as it is understood', () => {
    const result = newer(['sets[0].glue', 'hide'], ['engraving', { text: 'For A.' }]);
    const raw = !result.ok && result.newer ? result.newer.raw : {};
    expect(raw).toMatchObject({ version: 7, engraving: { text: 'For A.' }, sets: [{ glue: 'hide' }] });
    const plain = parseDesign(SHORTEST);
    expect(!result.ok && result.newer?.design).toEqual(plain.ok && plain.design);
    expect(!result.ok && result.newer?.unknown.toSorted()).toEqual(['engraving', 'sets[0].glue']);
  });

  it('has no design when what is known here is not understood', () => {
    const result = newer(['sets[0].angle_deg', { from: 40, to: 50 }]);
    expect(!result.ok && result.newer?.design).toBeNull();
  });
});
