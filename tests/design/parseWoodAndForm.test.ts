/**
 * Reading grain, colours, finish, holes and loops of a design file (docs/file-format.md): one fault per place, in
 * sentences written out here.
 */
import { describe, expect, it } from 'vitest';
import { parseDesign } from '../../src/design/parse.ts';
import { changed, TAKEN_OUT } from './changed.ts';
import { DRILLED, SHORTEST, faultsAfter } from './shortest.ts';

const BANGLE = [
  { z_mm: 5, r_mm: 36 },
  { z_mm: 17, r_mm: 36 },
  { z_mm: 17, r_mm: 30 },
  { z_mm: 5, r_mm: 30 },
];

describe('grain, colours, finish, holes and loops', () => {
  it.each<[line: string, path: string, value: unknown]>([
    ['blank.grain.along: is missing', 'blank.grain', {}],
    ['blank.grain.along: "up" is none of axis, across', 'blank.grain', { along: 'up' }],
    [
      'blank.grain.azimuth_deg: only a fibre that runs across has a direction, not one along the axis',
      'blank.grain',
      { along: 'axis', azimuth_deg: 0 },
    ],
    ['blank.grain.pith_mm: has 1 entry; at least 2', 'blank.grain', { along: 'axis', pith_mm: [5] }],
    ['blank.grain.pith_mm: has 3 entries; at most 2', 'blank.grain', { along: 'axis', pith_mm: [5, 5, 5] }],
    ['blank.grain.pith_mm[1]: null is not a number', 'blank.grain', { along: 'axis', pith_mm: [5, null] }],
    [
      'sets[0].strip.layers[0].grain: "across" is none of length, depth',
      'sets[0].strip.layers[0].grain',
      'across',
    ],
    ['sets[0].locked: 1 is not true or false', 'sets[0].locked', 1],
    ['colors["red oak"]: "red oak" is not a known timber', 'colors', { 'red oak': '#aa5533' }],
    ['colors.oak: "oak" is not a known timber', 'colors', { oak: '#aa5533' }],
    ['colors.constructor: "constructor" is not a known timber', 'colors', { constructor: '#aa5533' }],
    ['colors.wenge: "#a53" is not a colour: # and six hexadecimal digits', 'colors', { wenge: '#a53' }],
    ['colors.teak: "aa5533" is not a colour: # and six hexadecimal digits', 'colors', { teak: 'aa5533' }],
    ['colors.teak: 255 is not a text', 'colors', { teak: 255 }],
    ['form.finish: "wax" is none of raw, oiled, gloss', 'form', { ...DRILLED, finish: 'wax' }],
    ['form.loop: "yes" is not true or false', 'form', { ...DRILLED, loop: 'yes' }],
    ['form.holes: an object is not a list', 'form', { ...DRILLED, holes: {} }],
    [
      'form.holes: has 21 entries; at most 20',
      'form',
      { ...DRILLED, holes: Array.from({ length: 21 }, () => DRILLED.holes[0]) },
    ],
  ])('%s', (line, path, value) => {
    expect(faultsAfter([path, value])).toEqual([line]);
  });

  it.each<[line: string, field: string, value: unknown]>([
    ['form.holes[0].from: "top" is none of head, foot, side', '[0].from', 'top'],
    ['form.holes[0].diameter_mm: 0 is not above 0', '[0].diameter_mm', 0],
    ['form.holes[0].diameter_mm: null is not a number', '[0].diameter_mm', null],
    ['form.holes[0].depth_mm: 0 is not above 0', '[0].depth_mm', 0],
    ['form.holes[0].depth_mm: -3 is not above 0', '[0].depth_mm', -3],
    ['form.holes[0].depth_mm: "through" is not a number', '[0].depth_mm', 'through'],
    ['form.holes[0].depth_mm: is missing', '[0].depth_mm', TAKEN_OUT],
    ['form.holes[0].offset_mm: 10001 is above 10000', '[0].offset_mm', 10_001],
    ['form.holes[0].azimuth_deg: -3601 is below -3600', '[0].azimuth_deg', -3601],
    ['form.holes[0].z_mm: only a hole from the side has a height, not one from the head', '[0].z_mm', 5],
    ['form.holes[1].z_mm: is missing: a hole from the side has a height', '[1].z_mm', TAKEN_OUT],
    [
      'form.holes[1].z_mm: is missing: a hole from the side has a height',
      '[0]',
      { from: 'foot', diameter_mm: 1, depth_mm: 1 },
    ],
    ['form.holes[1].angle_deg: is not a field of a design file', '[1].angle_deg', 5],
  ])('%s', (line, field, value) => {
    const change: [string, unknown][] = [
      ['form', DRILLED],
      [`form.holes${field}`, value],
    ];
    if (field === '[0]') change.push(['form.holes[1].z_mm', TAKEN_OUT]);
    expect(faultsAfter(...change)).toEqual([line]);
  });

  it('one wrong hole hides neither another nor the outline', () => {
    const lines = faultsAfter(
      ['form', DRILLED],
      ['form.holes[0].diameter_mm', -1],
      ['form.holes[1].z_mm', TAKEN_OUT],
      ['form.outline[0].r_mm', 5],
    );
    expect(lines.toSorted()).toEqual([
      'form.holes[0].diameter_mm: -1 is not above 0',
      'form.holes[1].z_mm: is missing: a hole from the side has a height',
      'form.outline[0].r_mm: 5 is not 0: the outline starts on the axis',
    ]);
  });

  it('a loop keeps off the axis and goes along the outside first', () => {
    const loop = (...outline: object[]) => faultsAfter(['form', { outline, loop: true }]);
    expect(loop(...BANGLE)).toEqual([]);
    // Wherever it starts.
    expect(loop(BANGLE[2], BANGLE[3], BANGLE[0], BANGLE[1])).toEqual([]);
    expect(loop(...BANGLE.toReversed())).toEqual([
      'form.outline: runs the wrong way round: a loop goes from the foot along the outside first',
    ]);
    expect(loop(...DRILLED.outline)).toEqual([
      'form.outline[0].r_mm: 0 is not above 0: a loop keeps off the axis',
      'form.outline[3].r_mm: 0 is not above 0: a loop keeps off the axis',
    ]);
    expect(faultsAfter(['form', { outline: BANGLE }])).toHaveLength(2);
  });

  it('a colour is kept in small letters; what says nothing is left out', () => {
    const text = JSON.stringify(
      changed(
        changed(changed(JSON.parse(SHORTEST), 'colors', { wenge: '#AbCdEf' }), 'sets[0].locked', false),
        'form',
        { ...DRILLED, holes: [], loop: false },
      ),
    );
    const result = parseDesign(text);
    expect(result).toMatchObject({ ok: true, design: { colors: { wenge: '#abcdef' } } });
    expect(result.ok && 'locked' in result.design.sets[0]).toBe(false);
    expect(result.ok && result.design.form).toEqual({ outline: DRILLED.outline });
    const none = parseDesign(JSON.stringify(changed(JSON.parse(SHORTEST), 'colors', {})));
    expect(none.ok && 'colors' in none.design).toBe(false);
  });
});
