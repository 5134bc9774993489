/**
 * Files of every version open for ever. The steps here are made up for the test, with literal documents of each
 * of their versions; the released versions have frozen files in tests/fixtures/designs.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  CURRENT_VERSION,
  isJsonObject,
  laterFields,
  migrate,
  MIGRATIONS,
  type Migration,
} from '../../src/design/migrations.ts';
import { parseDesign } from '../../src/design/parse.ts';

const STEPS: readonly Migration[] = [
  {
    from: 1,
    apply: (document) => ({ ...document, holes: [] }),
  },
  {
    from: 2,
    apply: ({ blank, ...rest }) => ({
      ...rest,
      blank: isJsonObject(blank) ? { ...blank, grain: 'along' } : blank,
    }),
  },
];

const OLD = { format: 'f', version: 1, blank: { timber: 'teak' } };
const MIDDLE = { format: 'f', version: 2, blank: { timber: 'teak' }, holes: [3] };
const NEW = { format: 'f', version: 3, blank: { timber: 'teak', grain: 'along' }, holes: [] };

describe('migration', () => {
  it('takes the steps from the version of the document on', () => {
    expect(migrate(OLD, 1, STEPS, 3)).toEqual(NEW);
    expect(migrate(MIDDLE, 2, STEPS, 3)).toEqual({ ...NEW, holes: [3] });
    expect(migrate(NEW, 3, STEPS, 3)).toEqual(NEW);
  });

  it('leaves the old document as it was', () => {
    const frozen = structuredClone(OLD);
    migrate(OLD, 1, STEPS, 3);
    expect(OLD).toEqual(frozen);
  });

  it('is stopped by a step that is missing: a bug of ours, not of the file', () => {
    expect(() => migrate(OLD, 1, [STEPS[1]], 3)).toThrow('no step leads from version 1 to 2');
  });

  it('has exactly one step from every released version to the next', () => {
    expect(MIGRATIONS.map((step) => step.from)).toEqual(
      Array.from({ length: CURRENT_VERSION - 1 }, (_, n) => n + 1),
    );
  });
});

describe('the step from version 1 to 2', () => {
  // Nothing is added: what version 2 can say besides is left out, and then means what version 1 meant.
  it('changes the version and nothing else', () => {
    const version1 = {
      format: 'kerfweave-design',
      version: 1,
      name: 'Old',
      blank: { section: { shape: 'round', width_mm: 60 }, length_mm: 150, timber: 'teak' },
      sets: [],
      form: { outline: [{ z_mm: 0, r_mm: 0 }] },
      ofSomeoneElse: true,
    };
    expect(migrate(version1, 1, MIGRATIONS, 2)).toEqual({
      format: 'kerfweave-design',
      version: 2,
      name: 'Old',
      blank: { section: { shape: 'round', width_mm: 60 }, length_mm: 150, timber: 'teak' },
      sets: [],
      form: { outline: [{ z_mm: 0, r_mm: 0 }] },
      ofSomeoneElse: true,
    });
  });

  it('is not taken by a document of version 2', () => {
    const version2 = { format: 'kerfweave-design', version: 2, colors: { teak: '#a08060' } };
    expect(migrate(version2, 2, MIGRATIONS, 2)).toEqual(version2);
  });
});

describe('the step from version 2 to 3', () => {
  // A cut that does not say how is made against the fence, as every cut of version 2.
  it('changes the version and nothing else', () => {
    const version2 = {
      format: 'kerfweave-design',
      version: 2,
      sets: [{ id: 'S1', locked: true }],
      saw: { clamp_minutes: 10 },
      ofSomeoneElse: [1],
    };
    expect(migrate(version2, 2, MIGRATIONS, 3)).toEqual({
      format: 'kerfweave-design',
      version: 3,
      sets: [{ id: 'S1', locked: true }],
      saw: { clamp_minutes: 10 },
      ofSomeoneElse: [1],
    });
  });
});

describe('the step from version 3 to 4', () => {
  // Without offer, quote and choice nothing has been offered, reckoned or chosen.
  it('changes the version and nothing else', () => {
    const version3 = {
      format: 'kerfweave-design',
      version: 3,
      sets: [{ id: 'S1', cut: 'table' }],
      work: { done: ['cure'] },
      ofSomeoneElse: { price: 5 },
    };
    expect(migrate(version3, 3)).toEqual({
      format: 'kerfweave-design',
      version: 4,
      sets: [{ id: 'S1', cut: 'table' }],
      work: { done: ['cure'] },
      ofSomeoneElse: { price: 5 },
    });
  });
});

describe('fields that a later version added', () => {
  const document = {
    blank: { grain: 1 },
    sets: [{ locked: 1 }, 5, { strip: { layers: [{}, { grain: 1 }, null] } }],
    form: null,
    colors: null,
  };

  it('are found wherever they stand, whatever else is wrong', () => {
    expect(laterFields(document, 1).map(({ path, version }) => [path.join('.'), version])).toEqual([
      ['blank.grain', 2],
      ['sets.2.strip.layers.1.grain', 2],
      ['sets.0.locked', 2],
      ['colors', 2],
    ]);
    expect(laterFields(document, 2)).toEqual([]);
    const latest = {
      sets: [{ locked: 1, cut: 'table', web_side: null }],
      saw: { throat_mm: {} },
      made: 0,
      work: [],
    };
    expect(laterFields(latest, 2).map(({ path, version }) => [path.join('.'), version])).toEqual([
      ['sets.0.cut', 3],
      ['sets.0.web_side', 3],
      ['saw.throat_mm', 3],
      ['made', 3],
      ['work', 3],
    ]);
    expect(laterFields(latest, 3)).toEqual([]);
    const offered = { offer: {}, quote: null, choice: 0, sets: [{ offer: 1 }] };
    expect(laterFields(offered, 3).map(({ path, version }) => [path.join('.'), version])).toEqual([
      ['offer', 4],
      ['quote', 4],
      ['choice', 4],
    ]);
    expect(laterFields(offered, 4)).toEqual([]);
  });
});

describe('frozen files', () => {
  const folder = new URL('../fixtures/designs/', import.meta.url);
  const names = readdirSync(folder).filter((name) => name.endsWith('.design.json'));

  it('exist for every released version', () => {
    const versions = names.map((name) => /^v(\d+)-/.exec(name)?.[1]);
    for (let version = 1; version <= CURRENT_VERSION; version++) expect(versions).toContain(`${version}`);
  });

  it.each(names)('%s opens as it did when it was frozen', (name) => {
    const opened = new URL(name.replace('.design.json', '.opened.json'), folder);
    const result = parseDesign(readFileSync(new URL(name, folder)));
    expect(result).toEqual({ ok: true, design: JSON.parse(readFileSync(opened, 'utf8')) as unknown });
  });
});
