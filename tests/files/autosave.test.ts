/** Keeping: any run of edits, undos and redos is read back as it was, and an edit writes no more than itself. */
import { openDB } from 'idb';
import { expect, test, vi } from 'vitest';
import { changed, gestureEnded, historyOf, redone, undone, type History } from '../../src/app/history.ts';
import { historyFrom, timelineOf } from '../../src/app/keepHistory.ts';
import { changeTo, Keeper } from '../../src/files/autosave.ts';
import { Library, newHeader } from '../../src/files/library.ts';
import type { Work } from '../../src/panels/bench.ts';
import { fourRings } from '../fixtures/designs.ts';
import { seededRandom, type Random } from '../fixtures/random.ts';
import { SEED } from '../soak/counts.ts';
import { useMemoryDatabase } from './memoryDatabase.ts';

function work(n: number): Work {
  return { variants: [{ id: 'v1', name: 'Variant 1', design: fourRings({ name: `Bowl ${n}` }) }], active: 0 };
}

function stepped(random: Random, history: History<Work>, n: number): History<Work> {
  switch (random.whole(0, 5)) {
    case 0:
      return undone(history);
    case 1:
      return redone(history);
    case 2:
      return gestureEnded(changed(history, `drag ${n}`, work(n), 'drag'));
    case 3:
      return changed(history, `drag ${n}`, work(n), 'drag');
    case 4:
      // Another variant is chosen: the present changes without a step.
      return { ...history, present: { ...history.present, active: 0 } };
    default:
      return changed(history, `edit ${n}`, work(n), null);
  }
}

const plain = ({ past, present, future }: History<Work>) => ({ past, present, future });

test('runs of edits, undos and redos are read back with their history at any moment', async () => {
  for (let run = 0; run < 4; run++) {
    useMemoryDatabase();
    const random = seededRandom(SEED + run);
    const library = new Library();
    const write = vi.spyOn(library, 'write');
    const keeper = Keeper.forNew(library, { id: 'a', origin: 'file' });
    let history = historyOf(work(-1));
    for (let n = 0; n < 40; n++) {
      history = stepped(random, history, n);
      if (random.chance(0.4)) continue;
      const now = random.chance(0.3);
      const fails = now && random.chance(0.5);
      if (fails)
        write.mockResolvedValueOnce({ ok: false, fault: { code: 'full', reason: 'the storage is full' } });
      const outcomes = [keeper.keep(timelineOf(history), true)];
      // The page goes while a writing is still on its way.
      if (now) {
        history = stepped(random, history, 1000 + n);
        outcomes.push(keeper.keep(timelineOf(history), true));
      }
      const done = (await Promise.all(outcomes)).map(({ ok }) => ok);
      expect(done).toEqual(now ? [!fails, true] : [true]);
      const read = await new Library().read('a');
      if (!read.ok || read.value.state !== 'good') throw new Error(`seed ${SEED + run}, step ${n}`);
      expect(read.value.lost, `seed ${SEED + run}, step ${n}`).toBeNull();
      expect(plain(historyFrom(read.value.timeline)), `seed ${SEED + run}, step ${n}`).toEqual(
        plain(history),
      );
    }
  }
  vi.unstubAllGlobals();
});

test('the last writing of a page that goes away wins over the one before it', async () => {
  useMemoryDatabase();
  const keeper = Keeper.forNew(new Library(), { id: 'a', origin: 'file' });
  const first = historyOf(work(0));
  const dragged = changed(first, 'drag', work(1), 'drag');
  await keeper.keep(timelineOf(dragged), true);
  const farther = changed(dragged, 'drag', work(2), 'drag');
  const back = { ...farther, present: dragged.present };
  await Promise.all([keeper.keep(timelineOf(farther), true), keeper.keep(timelineOf(back), true)]);
  const read = await new Library().read('a');
  expect(read.ok && read.value.state === 'good' && historyFrom(read.value.timeline).present).toEqual(work(1));
  vi.unstubAllGlobals();
});

test('a page that goes while a writing is on its way writes what that one may not bring, and nothing else', async () => {
  for (const arrives of [true, false]) {
    useMemoryDatabase();
    const library = new Library();
    const keeper = Keeper.forNew(library, { id: 'a', origin: 'file' });
    let history = historyOf(work(0));
    for (let n = 1; n <= 50; n++) history = changed(history, `edit ${n}`, work(n), null);
    await keeper.keep(timelineOf(history), true);
    const write = vi.spyOn(library, 'write');
    if (!arrives)
      write.mockResolvedValueOnce({ ok: false, fault: { code: 'full', reason: 'the storage is full' } });
    // It replaces states 49 and 50 by another 49.
    const edited = changed(undone(undone(history)), 'another way', work(51), null);
    const later = changed(edited, 'next', work(52), null);
    await Promise.all([keeper.keep(timelineOf(edited), true), keeper.keep(timelineOf(later), true)]);
    expect(write.mock.calls.map(([change]) => change.put.map(({ seq }) => seq))).toEqual([[49], [49, 50]]);
    const read = await new Library().read('a');
    if (!read.ok || read.value.state !== 'good') throw new Error('it could not be read');
    expect(read.value.lost).toBeNull();
    expect(plain(historyFrom(read.value.timeline))).toEqual(plain(later));
    vi.unstubAllGlobals();
  }
});

test.each([true, false])(
  'storage that is cleared under two writings is filled by the later (alone: %s)',
  async (alone) => {
    useMemoryDatabase();
    const library = new Library();
    const keeper = Keeper.forNew(library, { id: 'a', origin: 'file' });
    let history = changed(historyOf(work(0)), 'edit', work(1), null);
    await keeper.keep(timelineOf(history), alone);
    const database = await openDB('kerfweave-designs');
    await Promise.all([database.clear('designs'), database.clear('states')]);
    database.close();
    const outcomes = [2, 3].map((n) => {
      history = changed(history, 'edit', work(n), null);
      return keeper.keep(timelineOf(history), alone);
    });
    expect((await Promise.all(outcomes)).map(({ ok }) => ok)).toEqual([true, true]);
    const read = await new Library().read('a');
    if (!read.ok || read.value.state !== 'good') throw new Error('it could not be read');
    expect(read.value.lost).toBeNull();
    expect(plain(historyFrom(read.value.timeline))).toEqual(plain(history));
    vi.unstubAllGlobals();
  },
);

test('an edit writes one state, an undo none, and the states of a cut-off future are taken out', () => {
  let history = historyOf(work(0));
  for (let n = 1; n <= 50; n++) history = changed(history, `edit ${n}`, work(n), null);
  const before = timelineOf(history);
  const header = { ...newHeader('a', '', 'file'), count: 51, at: 50, revision: 7 };
  const edit = changeTo(header, before.states, timelineOf(changed(history, 'next', work(51), null)));
  expect(edit.put.map(({ seq }) => seq)).toEqual([51]);
  expect(edit.header).toMatchObject({ at: 51, count: 52, revision: 8, name: 'Bowl 51' });
  const back = undone(undone(history));
  expect(changeTo(header, before.states, timelineOf(back)).put).toEqual([]);
  const other = changeTo(header, before.states, timelineOf(changed(back, 'other', work(99), null)));
  expect(other.put.map(({ seq }) => seq)).toEqual([49]);
  expect(other.outside).toEqual([0, 49]);
});

test('a history that has lost its oldest steps keeps its numbers and takes the lost ones out', () => {
  let history = historyOf(work(0));
  for (let n = 1; n <= 1000; n++) history = changed(history, `edit ${n}`, work(n), null);
  const full = timelineOf(history);
  expect(full.states).toHaveLength(1001);
  const header = { ...newHeader('a', '', 'file'), count: 1001, at: 1000, revision: 7 };
  const change = changeTo(header, full.states, timelineOf(changed(history, 'next', work(1001), null)));
  expect(change.outside).toEqual([1, 1001]);
  expect(change.put.map(({ seq }) => seq)).toEqual([1, 1001]);
});
