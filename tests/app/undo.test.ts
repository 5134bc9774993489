/**
 * n edits and n undos give the identical document, n redos the edited one again; also when the page is loaded
 * afresh from what is kept somewhere in between. The edits are those that the panels make.
 */
import { expect, test } from 'vitest';
import { historyFrom, timelineOf } from '../../src/app/keepHistory.ts';
import { createAppStore, type AppStore } from '../../src/app/store.ts';
import { workOf } from '../../src/app/work.ts';
import type { Design } from '../../src/design/document.ts';
import * as edits from '../../src/design/edits.ts';
import { serializeDesign } from '../../src/design/serialize.ts';
import { workChecker, type Timeline } from '../../src/files/kept.ts';
import { fourRings, randomDesign } from '../fixtures/designs.ts';
import { seededRandom, type Random } from '../fixtures/random.ts';
import { countFor, SEED } from '../soak/counts.ts';

function edited(random: Random, design: Design): Design {
  const set = design.sets.length > 0 ? random.pick(design.sets) : edits.addSet(design).sets[0];
  const made = design.sets.length > 0 ? design : edits.addSet(design);
  switch (random.whole(0, 11)) {
    case 0:
      return edits.setName(made, `Name ${random.whole(0, 9)}`);
    case 1:
      return edits.setNotes(made, random.pick(['', 'dry', 'wet']));
    case 2:
      return edits.setSaw(made, { clamp_minutes: random.whole(0, 60) });
    case 3:
      return edits.setBlank(made, { length_mm: random.between(50, 300) });
    case 4:
      return edits.addSet(made);
    case 5:
      return edits.removeSet(made, set.id);
    case 6:
      return edits.duplicateSet(made, set.id);
    case 7:
      // Now and then beyond what can be: the store refuses it, which is no step.
      return edits.updateSet(made, set.id, { angle_deg: random.between(20, 95) });
    case 8:
      return edits.addSlot(made, set.id, random.pick([0, 90, 45, 180]));
    case 9:
      return edits.mirrorSet(made, set.id);
    case 10:
      return edits.moveInOrder(made, random.pick(made.order), random.whole(0, made.order.length - 1));
    default:
      return edits.updateSet(made, set.id, { web_mm: random.between(0, 12) });
  }
}

function step(random: Random, store: AppStore): void {
  const state = store.getState();
  const gesture = random.pick([undefined, undefined, 'drag-1', 'drag-2']);
  const choice = random.next();
  if (choice < 0.08) state.addVariant();
  else if (choice < 0.16) state.setUnit(random.pick(['in', 'mm'] as const));
  else state.edit('edit', (design) => edited(random, design), gesture);
  if (random.chance(0.3)) store.getState().endGesture();
}

/** As the library gives it back: copied, and checked like a file. */
function readBack({ states, at }: Timeline): Timeline {
  const check = workChecker();
  const read = structuredClone(states).map(({ label, work }) => {
    const result = check(work);
    if (!result.ok) throw new Error(result.reason);
    return { label, work: result.work };
  });
  return { states: read, at };
}

function reloaded(store: AppStore): AppStore {
  const { history, document } = store.getState();
  const read = historyFrom(readBack(timelineOf(history)));
  return createAppStore(read.present, { document, history: read });
}

const text = (store: AppStore) => {
  const { variants } = store.getState().work;
  return variants.map(({ id, name, design }) => `${id} ${name} ${serializeDesign(design)}`).join('\n');
};

test('n edits and n undos give the identical document', () => {
  const rounds = countFor('undo', 200, 10_000);
  let steps = 0;
  for (let round = 0; round < rounds; round++) {
    const random = seededRandom(SEED + round);
    const first = randomDesign(SEED + round, { maxSlots: 5 });
    let store = createAppStore(workOf(first));
    const firstText = text(store);
    const count = random.whole(1, 14);
    for (let n = 0; n < count; n++) step(random, store);
    const last = store.getState().work;
    const lastText = text(store);
    const n = store.getState().history.past.length;
    const reload = random.chance(0.25) ? random.whole(0, n) : -1;
    for (let i = 0; i < n; i++) {
      if (i === reload) store = reloaded(store);
      store.getState().undo();
    }
    const name = `round ${round}, seed ${SEED}`;
    expect(text(store), name).toBe(firstText);
    expect(store.getState().design, name).toEqual(first);
    if (reload < 0) expect(store.getState().design, name).toBe(first);
    for (let i = 0; i < n; i++) store.getState().redo();
    expect(text(store), name).toBe(lastText);
    expect(store.getState().work, name).toEqual(last);
    if (reload < 0) expect(store.getState().work, name).toBe(last);
    steps += n;
  }
  console.log(`${steps} steps undone and redone`);
  expect(steps).toBeGreaterThan(rounds * 2);
});

test('what is typed into a field after the page was loaded again is a step of its own, and so is becoming a copy', () => {
  const store = createAppStore(workOf(fourRings({ name: 'Bowl' })));
  for (const name of ['Bowl t', 'Bowl tw', 'Bowl two']) store.getState().renameDesign(name);
  const again = reloaded(store);
  again.getState().renameDesign('Bowl three');
  again.getState().becomeCopy();
  again.getState().renameDesign('Vase');
  const names = ['Vase', 'Bowl three, copy', 'Bowl three', 'Bowl two', 'Bowl'];
  for (const name of names) {
    expect(again.getState().design.name).toBe(name);
    again.getState().undo();
  }
});
