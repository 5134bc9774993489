/**
 * Reading design files: what the format's description (docs/file-format.md) demands, fault by fault. The
 * expected sentences are written out here, not taken from the code.
 */
import { describe, expect, it } from 'vitest';
import type { Design } from '../../src/design/document.ts';
import { faultLine } from '../../src/design/faults.ts';
import { checkDesign, parseDesign } from '../../src/design/parse.ts';
import { serializeDesign } from '../../src/design/serialize.ts';
import { decorated } from '../fixtures/decorated.ts';
import { fourRings, randomDesign } from '../fixtures/designs.ts';
import { SEED } from '../soak/counts.ts';
import { changed, TAKEN_OUT } from './changed.ts';
import { SHORTEST, faultsAfter, linesOf } from './shortest.ts';

describe('a valid file', () => {
  it('is filled with every default of the description', () => {
    const result = parseDesign(SHORTEST);
    expect(result).toEqual({
      ok: true,
      design: {
        format: 'kerfweave-design',
        version: 4,
        name: 'Four rings',
        unit: 'in',
        blank: { section: { shape: 'square', width_mm: 76.2 }, length_mm: 203.2, timber: 'black-walnut' },
        sets: [
          {
            id: 'S1',
            angle_deg: 45,
            center_mm: 101.6,
            fence_azimuths_deg: [0, 90, 180, 270],
            high_side: 'fence',
            kerf_mm: 1.016,
            web_mm: 2.54,
            strip: { layers: [{ timber: 'hard-maple', thickness_mm: 1.016 }] },
          },
        ],
        order: ['S1.1', 'S1.2', 'S1.3', 'S1.4'],
        form: null,
        saw: {
          stop_side: 'acute',
          fence_min_deg: 30,
          fence_max_deg: 90,
          max_cut_height_mm: 150,
          strip_overhang_mm: 3,
          angle_tolerance_deg: 0.1,
          stop_tolerance_mm: 0.1,
          strip_tolerance_mm: 0.0508,
          max_open_slots: 1,
          clamp_minutes: 20,
          table_tilt_max_deg: 45,
        },
      },
    });
  });

  it('may leave out any single field of the saw', () => {
    expect(faultsAfter(['saw', {}])).toEqual([]);
    expect(faultsAfter(['saw', { clamp_minutes: 15 }])).toEqual([]);
  });

  it.each([
    ['as bytes', new TextEncoder().encode(SHORTEST)],
    ['with a byte order mark', `\ufeff${SHORTEST}`],
    ['with a byte order mark, as bytes', new TextEncoder().encode(`\ufeff${SHORTEST}`)],
    ['with Windows line ends', SHORTEST.replaceAll('\n', '\r\n')],
    ['with both alias and proper name of a timber', SHORTEST.replace('hard-maple', 'sugar-maple')],
    ['with notes', SHORTEST.replace('"unit"', '"notes": "two\\nlines", "unit"')],
    ['with an angle just above nothing', SHORTEST.replace('"angle_deg": 45', '"angle_deg": 0.001')],
    ['square across', SHORTEST.replace('"angle_deg": 45', '"angle_deg": 90')],
    ['without a web', SHORTEST.replace('"web_mm": 2.54', '"web_mm": 0')],
    ['with azimuths out of one turn', SHORTEST.replace('[0, 90, 180, 270]', '[-90, 450, 720.5, 1]')],
    ['with a cut repeated', SHORTEST.replace('[0, 90, 180, 270]', '[90, 90]')],
    ['without sets', JSON.stringify({ ...(JSON.parse(SHORTEST) as object), sets: [] })],
  ])('%s is read', (_, input) => {
    expect(linesOf(input)).toEqual([]);
  });

  it('keeps the timber name that it uses', () => {
    const result = parseDesign(SHORTEST);
    expect(result.ok && result.design.sets[0].strip.layers[0].timber).toBe('hard-maple');
  });

  it('round-trips, and writing it again gives the same bytes', () => {
    const designs: Design[] = [
      fourRings(),
      ...Array.from({ length: 200 }, (_, n) => decorated(SEED + n, randomDesign(SEED + n))),
    ];
    for (const design of designs) {
      const text = serializeDesign(design);
      const result = parseDesign(text);
      expect(result, design.name).toEqual({ ok: true, design });
      expect(result.ok && serializeDesign(result.design)).toBe(text);
    }
  });

  it('is written alike however its keys were arranged', () => {
    const shuffle = (value: unknown): unknown => {
      if (Array.isArray(value)) return value.map(shuffle);
      if (typeof value !== 'object' || value === null) return value;
      return Object.fromEntries(
        Object.entries(value)
          .toReversed()
          .map(([key, field]) => [key, shuffle(field)]),
      );
    };
    const design = fourRings({ notes: 'a note', set: { notes: 'another' } });
    const text = serializeDesign(design);
    const reversed = JSON.stringify(shuffle(JSON.parse(text)));
    expect(reversed).not.toBe(JSON.stringify(JSON.parse(text)));
    const result = parseDesign(reversed);
    expect(result.ok && serializeDesign(result.design)).toBe(text);
  });
});

describe('one wrong field gets one fault with its path', () => {
  it.each<[line: string, path: string, value: unknown]>([
    ['sets[0].angle_deg: 95 is above 90', 'sets[0].angle_deg', 95],
    ['sets[0].angle_deg: 0 is not above 0', 'sets[0].angle_deg', 0],
    ['sets[0].angle_deg: -45 is not above 0', 'sets[0].angle_deg', -45],
    ['sets[0].angle_deg: "45" is not a number', 'sets[0].angle_deg', '45'],
    ['sets[0].angle_deg: null is not a number', 'sets[0].angle_deg', null],
    ['sets[0].angle_deg: is missing', 'sets[0].angle_deg', TAKEN_OUT],
    ['sets[0].kerf_mm: 0 is not above 0', 'sets[0].kerf_mm', 0],
    ['sets[0].kerf_mm: 1e-9 is below 0.001', 'sets[0].kerf_mm', 1e-9],
    ['sets[0].web_mm: -0.1 is below 0', 'sets[0].web_mm', -0.1],
    ['sets[0].web_mm: 76.2 is not below the depth across, 76.2 at azimuth 0', 'sets[0].web_mm', 76.2],
    ['sets[0].strip.layers: has 0 entries; at least 1', 'sets[0].strip.layers', []],
    ['sets[0].strip.layers[0].thickness_mm: 0 is not above 0', 'sets[0].strip.layers[0].thickness_mm', 0],
    ['sets[0].strip.layers[0].timber: "oak" is not a known timber', 'sets[0].strip.layers[0].timber', 'oak'],
    ['blank.timber: "constructor" is not a known timber', 'blank.timber', 'constructor'],
    ['blank.length_mm: 10001 is above 10000', 'blank.length_mm', 10_001],
    [
      'blank.section.shape: "pentagon" is none of square, rectangle, hexagon, octagon, round',
      'blank.section.shape',
      'pentagon',
    ],
    [
      'blank.section.depth_mm: only a rectangle has a depth, not a square blank',
      'blank.section.depth_mm',
      50,
    ],
    [
      'blank.section.depth_mm: is missing: a rectangle has a width and a depth',
      'blank.section.shape',
      'rectangle',
    ],
    ['sets[0].fence_azimuths_deg: has 0 entries; at least 1', 'sets[0].fence_azimuths_deg', []],
    ['sets[0].fence_azimuths_deg[1]: 3601 is above 3600', 'sets[0].fence_azimuths_deg[1]', 3601],
    ['sets[0].high_side: "left" is none of fence, entry', 'sets[0].high_side', 'left'],
    ['sets[0].id: "body" is the name of the blank itself', 'sets[0].id', 'body'],
    [
      'sets[0].id: "1st" is not an id: a letter, then up to 15 letters, digits, hyphens or underscores',
      'sets[0].id',
      '1st',
    ],
    ['sets: has 201 entries; at most 200', 'sets', Array.from({ length: 201 }, () => null)],
    ['unit: "cm" is none of in, mm', 'unit', 'cm'],
    ['name: holds a control character', 'name', 'two\nlines'],
    ['name: is 201 characters long; at most 200', 'name', 'n'.repeat(201)],
    ['notes: holds a control character', 'notes', '\u0000'],
    ['notes: 5 is not a text', 'notes', 5],
    ['version: is missing', 'version', TAKEN_OUT],
    ['version: "1" is not a whole number from 1 up', 'version', '1'],
    ['version: 0 is not a whole number from 1 up', 'version', 0],
    ['format: "kerfweave" is not "kerfweave-design"', 'format', 'kerfweave'],
    ['format: is missing', 'format', TAKEN_OUT],
    ['blank: a list is not an object', 'blank', []],
    ['sets: is missing', 'sets', TAKEN_OUT],
    ['saw: null is not an object', 'saw', null],
    ['saw.max_open_slots: 1.5 is not a whole number', 'saw', { max_open_slots: 1.5 }],
    ['saw.max_open_slots: 0 is below 1', 'saw', { max_open_slots: 0 }],
    ['saw.fence_min_deg: 91 is above 90', 'saw', { fence_min_deg: 91 }],
    ['saw.fence_max_deg: 50 is below fence_min_deg, 60', 'saw', { fence_min_deg: 60, fence_max_deg: 50 }],
    ['saw.fence_max_deg: 20 is below fence_min_deg, 30', 'saw', { fence_max_deg: 20 }],
    ['order: "S1.4" is missing', 'order', ['S1.1', 'S1.2', 'S1.3']],
    ['order[3]: "S1.1" stands at order[0] already', 'order', ['S1.1', 'S1.2', 'S1.3', 'S1.1', 'S1.4']],
    ['order[4]: "S1.5" is no slot of this design', 'order', ['S1.4', 'S1.3', 'S1.2', 'S1.1', 'S1.5']],
    ['order[0]: 1 is not a text', 'order', [1, 'S1.2', 'S1.3', 'S1.4']],
  ])('%s', (line, path, value) => {
    expect(faultsAfter([path, value])).toEqual([line]);
  });

  it.each([
    ['at the top', 'colour', 'colour'],
    ['in a set', 'sets[0].grain', 'sets[0].grain'],
    ['in a layer', 'sets[0].strip.layers[0].x', 'sets[0].strip.layers[0].x'],
    ['in the section', 'blank.section.radius_mm', 'blank.section.radius_mm'],
    ['with an odd name', 'blank.a b', 'blank["a b"]'],
  ])('an unknown field %s is named', (_, place, path) => {
    expect(faultsAfter([place, 1])).toEqual([`${path}: is not a field of a design file`]);
  });

  it('__proto__ is a field like any other, and an unknown one', () => {
    const text = SHORTEST.replace('"id": "S1"', '"__proto__": { "angle_deg": 1 }, "id": "S1"');
    expect(linesOf(text)).toEqual(['sets[0].__proto__: is not a field of a design file']);
  });

  it('a number that no computer holds is refused at its place', () => {
    const text = SHORTEST.replace('"kerf_mm": 1.016', '"kerf_mm": 1e999');
    expect(linesOf(text)).toEqual(['sets[0].kerf_mm: is too large for a number']);
    expect(linesOf(SHORTEST.replace('"center_mm": 101.6', '"center_mm": -1e999'))).toEqual([
      'sets[0].center_mm: is too large for a number',
    ]);
  });

  it('a key given twice is refused at its place, whichever value is right', () => {
    const twice = SHORTEST.replace('"kerf_mm": 1.016', '"kerf_mm": 9, "kerf_mm": 1.016');
    expect(linesOf(twice)).toEqual(['sets[0].kerf_mm: is given twice']);
    const escaped = SHORTEST.replace('"kerf_mm": 1.016', '"\\u006berf_mm": 9, "kerf_mm": 1.016');
    expect(linesOf(escaped)).toEqual(['sets[0].kerf_mm: is given twice']);
  });

  it('two sets cannot have one id, and 201 slots are too many', () => {
    const [set] = (JSON.parse(SHORTEST) as { sets: object[] }).sets;
    expect(faultsAfter(['sets[1]', set])).toEqual(['sets[1].id: "S1" is the id of sets[0] already']);
    const azimuths = Array.from({ length: 101 }, (_, n) => n);
    expect(
      faultsAfter(
        ['sets[0].fence_azimuths_deg', azimuths],
        ['sets[1]', { ...set, id: 'S2', fence_azimuths_deg: azimuths.slice(1) }],
      ),
    ).toEqual(['sets: have 201 slots; at most 200']);
  });

  it('the depth across is that of the azimuth: corner to corner at 45° of a square', () => {
    // 60 mm is more than the 50 across the faces and less than 50 √2 = 70.7 across the corners.
    const at = (azimuth: number) =>
      faultsAfter(
        ['blank.section.width_mm', 50],
        ['sets[0].web_mm', 60],
        ['sets[0].fence_azimuths_deg', [azimuth]],
      );
    expect(at(45)).toEqual([]);
    expect(at(90)).toEqual(['sets[0].web_mm: 60 is not below the depth across, 50 at azimuth 90']);
  });
});

describe('several faults', () => {
  it('are all reported, the structural ones and those between fields', () => {
    const [set] = (JSON.parse(SHORTEST) as { sets: object[] }).sets;
    const outline = [5, 10, 5].map((r_mm, n) => ({ z_mm: 10 * n, r_mm }));
    const lines = faultsAfter(
      ['name', TAKEN_OUT],
      ['blank.timber', 'plastic'],
      ['sets[1]', { ...set, angle_deg: 95, strip: { layers: [] } }],
      ['order', ['S1.1']],
      ['form', { outline }],
      ['saw', { fence_min_deg: 80, fence_max_deg: 40, laser: true }],
    );
    expect(lines.toSorted()).toEqual(
      [
        'name: is missing',
        'blank.timber: "plastic" is not a known timber',
        'sets[1].angle_deg: 95 is above 90',
        'sets[1].strip.layers: has 0 entries; at least 1',
        'sets[1].id: "S1" is the id of sets[0] already',
        'order: "S1.2" is missing',
        'order: "S1.3" is missing',
        'order: "S1.4" is missing',
        'form.outline[0].r_mm: 5 is not 0: the outline starts on the axis',
        'form.outline[2].r_mm: 5 is not 0: the outline ends on the axis',
        'saw.laser: is not a field of a design file',
        'saw.fence_max_deg: 40 is below fence_min_deg, 80',
      ].toSorted(),
    );
  });

  it('are at most 50, then counted', () => {
    const lines = faultsAfter(...Array.from({ length: 60 }, (_, n): [string, unknown] => [`extra${n}`, n]));
    expect(lines).toHaveLength(51);
    expect(lines[50]).toBe('and 10 more faults');
    const versionToo = Array.from({ length: 60 }, (_, n): [string, unknown] => [`extra${n}`, n]);
    expect(faultsAfter(['version', -1], ...versionToo).at(-1)).toBe('and 11 more faults');
  });
});

describe('a value that claims to be a design', () => {
  it('is checked as a file is', () => {
    expect(checkDesign(fourRings())).toEqual({ ok: true, design: fourRings() });
    const result = checkDesign({ ...fourRings(), unit: 'cm' });
    expect(!result.ok && result.faults.map(faultLine)).toEqual(['unit: "cm" is none of in, mm']);
    for (const value of [undefined, null, 5, 'text', [], () => 1]) expect(checkDesign(value).ok).toBe(false);
  });
});

it('leaves out marks that turn the direction of writing round, and keeps every other letter', () => {
  // Unicode Standard Annex 9, table 4: the explicit embeddings, overrides and isolates with their ends.
  const marks = '\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069';
  const name = 'קערה \u200fBowl \u{1f9d1}\u200d\u{1f527} \u0645\u061c';
  const read = parseDesign(
    JSON.stringify(changed(changed(JSON.parse(SHORTEST), 'name', marks + name), 'notes', `a\n${marks}b`)),
  );
  expect(read).toMatchObject({ ok: true, design: { name, notes: 'a\nb' } });
});
