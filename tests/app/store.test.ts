/** The store: edits that cannot be are refused, drags fold, the moment stays where the maker left it. */
import { beforeEach, expect, test } from 'vitest';
import { newDocument } from '../../src/app/openDocument.ts';
import { createAppStore, type AppStore } from '../../src/app/store.ts';
import { workOf } from '../../src/app/work.ts';
import { nearestCut, positionAfter } from '../../src/app/position.ts';
import { historyOf } from '../../src/app/history.ts';
import { addSet, setLocked, setSaw, updateSet } from '../../src/design/edits.ts';
import { momentsOf } from '../../src/blank/moments.ts';
import { fourRings } from '../fixtures/designs.ts';

let store: AppStore;
const state = () => store.getState();

beforeEach(() => {
  store = createAppStore(workOf(fourRings()));
});

test('an edit that makes no valid design is refused with its reason and leaves everything as it was', () => {
  const before = state();
  const reason = state().edit('angle', (design) => updateSet(design, 'S1', { angle_deg: 95 }));
  expect(reason).toMatch(/angle_deg/);
  expect(state().design).toBe(before.design);
  expect(state().history).toBe(before.history);
});

test('a drag of many moves is one undo step', () => {
  const first = state().design;
  for (const angle_deg of [46, 47, 48, 49])
    state().edit('angle', (design) => updateSet(design, 'S1', { angle_deg }), 'drag');
  state().endGesture();
  expect(state().design.sets[0].angle_deg).toBe(49);
  state().undo();
  expect(state().design).toBe(first);
  state().redo();
  expect(state().design.sets[0].angle_deg).toBe(49);
});

test('a ring dragged on the stage moves its set within the blank, is one step, and a cancelled drag none', () => {
  const drag = (center_mm: number, phase: 'start' | 'move' | 'end' | 'cancel') =>
    state().dragRing({ variant: state().work.variants[0].id, slot: 'S1.2', center_mm, phase });
  drag(101.6, 'start');
  drag(110.04, 'move');
  drag(500, 'move');
  drag(500, 'end');
  expect(state().design.sets[0].center_mm).toBe(203.2);
  expect(state().history.past).toHaveLength(1);
  drag(203.2, 'start');
  drag(20, 'move');
  drag(20, 'cancel');
  expect(state().design.sets[0].center_mm).toBe(203.2);
  expect(state().history.past).toHaveLength(1);
});

test('what was pointed at at one station is not pointed at at the next', () => {
  state().setStation('plan');
  state().point({ kind: 'ring', slot: 'S1.2' });
  state().setStation('show');
  expect(state().pointed).toBeNull();
});

test('the view at the saw opens at the nearest cut', () => {
  const cuts = momentsOf(state().design).flatMap(({ kind }, i) => (kind === 'cut' ? [i] : []));
  state().setView({ atTheSaw: true });
  expect(state().position).toBe(cuts.at(-1));
  state().setView({ atTheSaw: false });
  state().setPosition(0);
  state().setView({ atTheSaw: true });
  expect(state().position).toBe(cuts[0]);
  expect(nearestCut(state().design, cuts[1] - 0.5)).toBe(cuts[1] - 0.5);
  expect(nearestCut({ ...state().design, sets: [], order: [] }, 0)).toBe(0);
});

test('a locked set is not moved', () => {
  state().edit('lock', (design) => setLocked(design, 'S1', true));
  state().moveSet('S1', 20, 'g');
  expect(state().design.sets[0].center_mm).toBe(101.6);
});

test('the finished piece stays finished when cuts are added, and a cut stays the same cut', () => {
  const before = fourRings();
  const after = addSet(before);
  const last = momentsOf(before).length - 1;
  expect(positionAfter(before, after, last)).toBe(momentsOf(after).length - 1);
  const cut = momentsOf(before).findIndex(({ kind, slot }) => kind === 'cut' && slot === 2);
  const there = momentsOf(after)[positionAfter(before, after, cut)];
  expect(there).toMatchObject({ kind: 'cut', slot: 2 });
  expect(positionAfter(before, after, cut - 0.25)).toBeCloseTo(positionAfter(before, after, cut) - 0.25, 12);
});

test('45° against 60° is one click and one undo step', () => {
  state().compareAngles(45, [45, 60]);
  expect(state().work.variants.map(({ design }) => design.sets[0].angle_deg)).toEqual([45, 60]);
  expect(state().view.compare).toBe(true);
  state().undo();
  expect(state().work.variants).toHaveLength(1);
  expect(state().view.compare).toBe(false);
});

test('a design at neither angle stays, as the first of three', () => {
  state().edit('angle', (design) => updateSet(design, 'S1', { angle_deg: 50 }));
  const before = state().design;
  state().compareAngles(50, [45, 60]);
  expect(state().work.variants.map(({ design }) => design.sets[0].angle_deg)).toEqual([50, 45, 60]);
  expect(state().design).toBe(before);
});

test('a comparison brings its table into sight', () => {
  state().setView({ map: false, sheetTall: true });
  state().compareAngles(45, [45, 60]);
  expect(state().view).toMatchObject({ compare: true, map: true, sheetTall: false });
  state().setView({ map: false });
  state().addVariant();
  expect(state().view.map).toBe(true);
});

test('edits go to the variant that is chosen, and no more than four stand side by side', () => {
  state().compareAngles(45, [45, 60]);
  state().chooseVariant(1);
  state().edit('web', (design) => updateSet(design, 'S1', { web_mm: 4 }));
  expect(state().work.variants.map(({ design }) => design.sets[0].web_mm)).toEqual([2.54, 4]);
  for (let i = 0; i < 5; i++) state().addVariant();
  expect(state().work.variants).toHaveLength(4);
  expect(new Set(state().work.variants.map(({ id }) => id)).size).toBe(4);
});

test('an opened design is a document of its own, with a history of its own', () => {
  state().renameDesign('Mine');
  const before = state();
  state().openDesign(fourRings({ name: 'Another' }), 'file');
  expect(state().design.name).toBe('Another');
  expect(state().document.id).not.toBe(before.document.id);
  state().undo();
  expect(state().design.name).toBe('Another');
  state().openDocument(before.document, before.history);
  expect(state().design.name).toBe('Mine');
  state().undo();
  expect(state().design).toEqual(fourRings());
});

test('a file of a later version is for reading only', () => {
  const newer = { version: 99, raw: {}, design: fourRings(), unknown: [] };
  state().openDocument(newDocument('file', { newer }), historyOf(workOf(fourRings())));
  const reason = state().edit('angle', (design) => updateSet(design, 'S1', { angle_deg: 50 }));
  expect(reason).toMatch(/newer Kerfweave \(version 99\): open for reading only/);
  expect(state().design.sets[0].angle_deg).toBe(45);
});

test('steps of the line of moments stop at whole moments and at its ends', () => {
  state().setPosition(2.4);
  state().stepMoment(1);
  expect(state().position).toBe(3);
  state().setPosition(2.4);
  state().stepMoment(-1);
  expect(state().position).toBe(2);
  state().setPosition(-5);
  expect(state().position).toBe(0);
  state().stepMoment(-1);
  expect(state().position).toBe(0);
});

test('the saw is the maker’s: variants for the same one follow it in one step, one for another keeps its own', () => {
  state().addVariant();
  state().addVariant();
  state().edit('another saw', (design) => ({ ...design, saw: { ...design.saw, clamp_minutes: 90 } }));
  expect(state().work.variants.map(({ design }) => design.saw.clamp_minutes)).toEqual([90, 90, 90]);
  const other = state().work.variants.map((variant, i) =>
    i === 0
      ? { ...variant, design: { ...variant.design, saw: { ...variant.design.saw, clamp_minutes: 5 } } }
      : variant,
  );
  state().editWork('as from a file', (work) => ({ ...work, variants: other }));
  state().edit('saw', (design) => setSaw(design, { clamp_minutes: 30, throat_mm: 300 }));
  const saws = state().work.variants.map(({ design }) => design.saw);
  expect(saws.map((saw) => [saw.clamp_minutes, saw.throat_mm])).toEqual([
    [5, undefined],
    [30, 300],
    [30, 300],
  ]);
  state().undo();
  expect(state().work.variants.map(({ design }) => design.saw.clamp_minutes)).toEqual([5, 90, 90]);
  const before = state().work.variants[1].design;
  state().edit('same saw', (design) => setSaw(design, {}));
  expect(state().work.variants[1].design).toBe(before);
});
