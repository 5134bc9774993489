/** Edits of cutting, measures and progress, by hand; and that they follow their slots through edits of the sets. */
import { describe, expect, it } from 'vitest';
import type { Design } from '../../src/design/document.ts';
import {
  addSlot,
  duplicateSet,
  removeSet,
  removeSlot,
  renameSet,
  setSaw,
  updateSet,
} from '../../src/design/edits.ts';
import { faultLine } from '../../src/design/faults.ts';
import { checkDesign } from '../../src/design/parse.ts';
import { clearWork, setCut, setMade, setWorkDone } from '../../src/design/sawEdits.ts';
import { fourRings, slotSet } from '../fixtures/designs.ts';
import { seededRandom } from '../fixtures/random.ts';
import { SEED } from '../soak/counts.ts';

const plain = fourRings();
const twoSets = fourRings({ sets: [slotSet({ id: 'A' }), slotSet({ id: 'B', center_mm: 40 })] });

const faults = (design: unknown): string[] => {
  const result = checkDesign(design);
  return result.ok ? [] : result.faults.map(faultLine);
};

describe('how a set is cut', () => {
  it('says the table and a web behind, and nothing of the fence and a web ahead', () => {
    const behind = setCut(plain, 'S1', 'table', 'behind');
    expect(behind.sets[0]).toEqual({ ...plain.sets[0], cut: 'table', web_side: 'behind' });
    expect(setCut(behind, 'S1', 'table').sets[0]).toEqual({ ...plain.sets[0], cut: 'table' });
    expect(setCut(behind, 'S1', 'fence')).toEqual(plain);
    expect(setCut(plain, 'S9', 'table')).toBe(plain);
    expect(updateSet(behind, 'S1', { cut: 'fence' })).toEqual(plain);
  });
});

describe('the saw', () => {
  it('keeps what is known, and forgets what is known no more', () => {
    const known = setSaw(plain, { throat_mm: 340, blade_kerf_mm: 0.9 });
    expect(known.saw).toEqual({ ...plain.saw, throat_mm: 340, blade_kerf_mm: 0.9 });
    expect(setSaw(known, { throat_mm: undefined }).saw).toEqual({ ...plain.saw, blade_kerf_mm: 0.9 });
    expect(Object.keys(setSaw(known, { throat_mm: undefined }).saw)).not.toContain('throat_mm');
  });
});

describe('what was measured', () => {
  it('is kept field by field until it is forgotten', () => {
    const kerf = setMade(plain, 'S1.2', { kerf_mm: 1.1 });
    expect(kerf.made).toEqual({ 'S1.2': { kerf_mm: 1.1 } });
    const both = setMade(kerf, 'S1.2', { web_mm: 2.3 });
    expect(both.made).toEqual({ 'S1.2': { kerf_mm: 1.1, web_mm: 2.3 } });
    expect(setMade(both, 'S1.2', { kerf_mm: undefined }).made).toEqual({ 'S1.2': { web_mm: 2.3 } });
    expect(setMade(kerf, 'S1.2', { kerf_mm: undefined })).toEqual(plain);
    expect(setMade(both, 'S1.2', null)).toEqual(plain);
    expect(setMade(plain, 'S1.9', { kerf_mm: 1 })).toBe(plain);
  });
});

describe('steps done', () => {
  it('are ticked once and taken away again', () => {
    const cut = setWorkDone(plain, 'S1.1:cut', true);
    expect(cut.work).toEqual({ done: ['S1.1:cut'] });
    expect(setWorkDone(cut, 'S1.1:cut', true)).toBe(cut);
    expect(setWorkDone(cut, 'cure', true).work?.done).toEqual(['S1.1:cut', 'cure']);
    expect(setWorkDone(cut, 'S1.1:cut', false)).toEqual(plain);
    expect(setWorkDone(plain, 'S7.1:cut', true)).toBe(plain);
    expect(clearWork(setMade(cut, 'S1.1', { web_mm: 2 }))).toEqual(setMade(plain, 'S1.1', { web_mm: 2 }));
  });
});

describe('measures and steps follow their slots', () => {
  const begun: Design = ['A.1:cut', 'A.2:cut', 'A.3:strip', 'B.1:cut', 'squared'].reduce(
    (design, step) => setWorkDone(design, step, true),
    setMade(setMade(twoSets, 'A.3', { kerf_mm: 1.2 }), 'B.2', { web_mm: 2 }),
  );

  it('to another name of their set', () => {
    const named = renameSet(begun, 'A', 'Ring');
    expect(named.made).toEqual({ 'Ring.3': { kerf_mm: 1.2 }, 'B.2': { web_mm: 2 } });
    expect(named.work?.done).toEqual(['Ring.1:cut', 'Ring.2:cut', 'Ring.3:strip', 'B.1:cut', 'squared']);
  });

  it('to another number when a slot before them goes, and go with their own', () => {
    const fewer = removeSlot(begun, 'A.2');
    expect(fewer.made).toEqual({ 'A.2': { kerf_mm: 1.2 }, 'B.2': { web_mm: 2 } });
    expect(fewer.work?.done).toEqual(['A.1:cut', 'A.2:strip', 'B.1:cut', 'squared']);
    expect(removeSet(begun, 'A').made).toEqual({ 'B.2': { web_mm: 2 } });
    expect(removeSet(begun, 'A').work?.done).toEqual(['B.1:cut', 'squared']);
  });

  it('and are not copied with a set', () => {
    const copied = duplicateSet(begun, 'A');
    expect(copied.made).toEqual(begun.made);
    expect(copied.work).toEqual(begun.work);
  });

  it('so that every sequence of edits leaves a sound file', () => {
    for (let n = 0; n < 40; n++) {
      const random = seededRandom(SEED + n);
      let design = twoSets;
      for (let step = 0; step < 25; step++) {
        const slot = random.pick([...design.order, 'A.1']);
        const set = slot.slice(0, slot.indexOf('.'));
        design = random.pick<() => Design>([
          () => setWorkDone(design, `${slot}:${random.pick(['cut', 'strip'])}`, random.chance(0.8)),
          () => setMade(design, slot, random.chance(0.2) ? null : { kerf_mm: random.between(0.5, 2) }),
          () => removeSlot(design, slot),
          () => addSlot(design, set, random.pick([0, 90, 45])),
          () => renameSet(design, set, random.pick(['A', 'B', 'C'])),
          () => setCut(design, set, random.pick(['fence', 'table']), random.pick(['ahead', 'behind'])),
        ])();
        const ids = design.sets.map((one) => one.id);
        // A name that is taken is for checkDesign to refuse; here the names stay apart.
        if (new Set(ids).size < ids.length || design.sets.length === 0) design = twoSets;
        expect(faults(design), `seed ${SEED + n}`).toEqual([]);
      }
    }
  });
});

describe('a file that is wrong in what version 3 added', () => {
  it.each<[string, Partial<Design>, string]>([
    [
      'a side of the web without the table',
      { sets: [slotSet({ web_side: 'behind' })] },
      'sets[0].web_side: only a cut with the table tilted chooses the side of its web',
    ],
    [
      'another way of cutting',
      { sets: [{ ...slotSet(), cut: 'laser' } as unknown as Design['sets'][number]] },
      'sets[0].cut: "laser" is none of fence, table',
    ],
    [
      'a measure of no slot',
      { made: { 'S1.5': { kerf_mm: 1 } } },
      'made["S1.5"]: "S1.5" is no slot of this design',
    ],
    ['a kerf of nothing', { made: { 'S1.1': { kerf_mm: 0 } } }, 'made["S1.1"].kerf_mm: 0 is not above 0'],
    [
      'a step of no slot',
      { work: { done: ['S1.1:cut', 'S2.1:cut'] } },
      'work.done[1]: "S2.1" is no slot of this design',
    ],
    [
      'a step twice',
      { work: { done: ['cure', 'cure'] } },
      'work.done[1]: "cure" stands at work.done[0] already',
    ],
    [
      'no step',
      { work: { done: ['S1.1: cut'] } },
      'work.done[0]: "S1.1: cut" is not a step such as S1.1:cut',
    ],
  ])('%s', (_, change, line) => {
    expect(faults({ ...plain, ...change })).toEqual([line]);
  });

  it('a measure under a key that objects are made with', () => {
    const made = JSON.parse('{ "__proto__": { "kerf_mm": 1 } }') as Design['made'];
    expect(faults({ ...plain, made })).toEqual(['made.__proto__: "__proto__" is no slot of this design']);
  });

  it('a web as wide as the blank the way it is left: across the blade, not toward the fence', () => {
    const section = { shape: 'rectangle', width_mm: 80, depth_mm: 30 } as const;
    const set = { fence_azimuths_deg: [0], web_mm: 40 };
    expect(faults(fourRings({ section, set }))).toEqual([]);
    expect(faults(fourRings({ section, set: { ...set, cut: 'table' } }))).toEqual([
      'sets[0].web_mm: 40 is not below the depth across, 30 at azimuth 0',
    ]);
  });
});
