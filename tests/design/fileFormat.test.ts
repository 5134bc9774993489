/** docs/file-format.md against the program: its example opens, its fields and timbers are all there, its codes happen. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseDesign } from '../../src/design/parse.ts';
import { CURRENT_VERSION } from '../../src/design/migrations.ts';
import { TIMBER_ALIASES, timberById, TIMBERS } from '../../src/timber/timbers.ts';
import { changed, TAKEN_OUT } from './changed.ts';

const PAGE = readFileSync(new URL('../../docs/file-format.md', import.meta.url), 'utf8');
const EXAMPLE = /```json\n([\s\S]*?)```/.exec(PAGE)![1];
const SECTION = (title: string) => PAGE.slice(PAGE.indexOf(title)).split(/\n##+ /)[0];

describe('the page on the design file', () => {
  it('has an example that opens', () => {
    expect(parseDesign(EXAMPLE).ok).toBe(true);
    expect((JSON.parse(EXAMPLE) as { version: number }).version).toBe(CURRENT_VERSION);
  });

  it('names every field of a file that has them all', () => {
    const text = readFileSync(
      new URL(`../fixtures/designs/v${CURRENT_VERSION}-everything.design.json`, import.meta.url),
      'utf8',
    );
    const isName = (key: string) => timberById(key) !== undefined || /\.\d+$/.test(key);
    const fields = new Set<string>();
    JSON.parse(text, (key, value: unknown) => {
      if (key !== '' && !/^\d+$/.test(key) && !isName(key)) fields.add(key);
      return value;
    });
    expect(fields.size).toBeGreaterThan(50);
    const named = new Set(
      Array.from(PAGE.matchAll(/^\|.*\|$/gm), ([row]) => row)
        .flatMap((row) => row.match(/`[^`]+`/g) ?? [])
        .flatMap((code) => code.match(/\w+/g) ?? []),
    );
    expect([...fields].filter((field) => !named.has(field))).toEqual([]);
  });

  it('lists the timbers', () => {
    const listed = Array.from(SECTION('### Timbers').matchAll(/`([a-z-]+)`/g), (match) => match[1]);
    const known = [...TIMBERS.map((timber) => timber.id), ...TIMBER_ALIASES.keys()];
    expect(listed.toSorted()).toEqual(known.toSorted());
  });

  /** One wrong file per code: the example with a change, or a text of its own. */
  const wrong: Readonly<Record<string, string | readonly [path: string, value: unknown]>> = {
    'too-large': ['sets[0].angle_deg', 91],
    'too-small': ['sets[0].kerf_mm', 0],
    'too-long': ['name', 'n'.repeat(201)],
    'too-short': ['sets[0].strip.layers', []],
    'not-finite': EXAMPLE.replace('76.2', '1e999'),
    missing: ['unit', TAKEN_OUT],
    'unknown-field': ['colour', 'red'],
    'wrong-type': ['blank.length_mm', '203'],
    'wrong-value': ['unit', 'ell'],
    'wrong-format': ['format', 'other'],
    'wrong-version': ['version', 1.5],
    'newer-version': ['version', CURRENT_VERSION + 1],
    'later-field': EXAMPLE.replace('"version": 4', '"version": 1'),
    'unknown-timber': ['blank.timber', 'plastic'],
    'wrong-color': ['colors.hard-maple', 'red'],
    'wrong-id': ['sets[0].id', '1'],
    'reserved-id': ['sets[0].id', 'body'],
    'id-taken': ['sets[1]', (JSON.parse(EXAMPLE) as { sets: unknown[] }).sets[0]],
    'not-plain-text': ['name', 'a\u0007b'],
    'azimuth-not-used': ['blank.grain.azimuth_deg', 5],
    'z-not-used': ['form.holes[0].z_mm', 5],
    'depth-not-used': ['blank.section.depth_mm', 5],
    'web-too-wide': ['sets[0].web_mm', 80],
    'web-side-not-used': ['sets[0].web_side', 'ahead'],
    'made-unknown': ['made', { 'S9.1': { kerf_mm: 1 } }],
    'wrong-step': ['work', { done: ['Cut it'] }],
    'work-unknown': ['work', { done: ['S9.1:cut'] }],
    'work-repeats': ['work', { done: ['cure', 'cure'] }],
    'wrong-currency': ['offer', { price: 5, currency: 'euro' }],
    'wrong-date': ['choice', { made_on: '2027-02-29' }],
    'too-many-slots': [
      'sets',
      ['A', 'B'].map((id) => ({
        ...(JSON.parse(EXAMPLE) as { sets: object[] }).sets[0],
        id,
        fence_azimuths_deg: Array(150).fill(0),
      })),
    ],
    'order-repeats': ['order[1]', 'S1.1'],
    'order-unknown': ['order[1]', 'S2.1'],
    'order-lacks': ['order', []],
    'outline-off-axis': ['form.outline[0].r_mm', 3],
    'outline-on-axis': ['form.loop', true],
    'outline-direction': [
      'form',
      { loop: true, outline: [30, 25, 20].map((r_mm) => ({ z_mm: (r_mm - 25) ** 2, r_mm })) },
    ],
    'outline-empty': ['form.outline', [0, 1, 2].map((z_mm) => ({ z_mm, r_mm: 0 }))],
    'outline-meets-axis': ['form.outline[2].r_mm', 0],
    'outline-ends': ['form.outline[4].z_mm', -5],
    'outline-crosses': ['form.outline[3]', { z_mm: -10, r_mm: 10 }],
    'outline-touches': ['form.outline[2]', { z_mm: 0, r_mm: 20 }],
    'fence-range': ['saw.fence_max_deg', 20],
    'duplicate-key': EXAMPLE.replace('"unit"', '"name": "x", "unit"'),
    empty: '',
    'cut-off': EXAMPLE.slice(0, 100),
    'not-json': EXAMPLE.replace('{', '('),
    'not-utf8': '',
    'too-deep': '['.repeat(50),
    'more-faults': ['sets[0].fence_azimuths_deg', Array(60).fill('x')],
  };

  it('lists every code, and each happens', () => {
    const listed = Array.from(
      SECTION('## Faults').matchAll(/`([a-z]+(?:-[a-z0-9]+)*)`/g),
      (match) => match[1],
    );
    const table = listed.filter(
      (word) => !['order', 'body', 'colors', 'made', 'work', 'done', 'step', 'quote'].includes(word),
    );
    expect(new Set(table)).toEqual(new Set(Object.keys(wrong)));
  });

  it.each(Object.entries(wrong))('%s', (code, file) => {
    const input =
      code === 'not-utf8'
        ? Uint8Array.of(0xc3, 0x28)
        : typeof file === 'string'
          ? file
          : JSON.stringify(changed(JSON.parse(EXAMPLE), ...file));
    const result = parseDesign(input);
    expect(result.ok ? [] : result.faults.map((fault) => fault.code)).toContain(code);
  });
});
