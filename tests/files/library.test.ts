/**
 * The library over an IndexedDB of its own in memory: what is read is what was written; full, blocked, newer and
 * damaged storage are said plainly, and the last good state is still there.
 */
import { deleteDB, openDB, unwrap } from 'idb';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { Keeper } from '../../src/files/autosave.ts';
import type { KeptState, KeptWork, Timeline } from '../../src/files/kept.ts';
import { Library } from '../../src/files/library.ts';
import type { ReadBack } from '../../src/files/readBack.ts';
import { fourRings, randomDesign } from '../fixtures/designs.ts';
import { useMemoryDatabase } from './memoryDatabase.ts';

const DATABASE = 'kerfweave-designs';

beforeEach(useMemoryDatabase);
afterEach(() => {
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

function work(name: string, angle_deg = 45): KeptWork {
  return {
    variants: [{ id: 'v1', name: 'Variant 1', design: fourRings({ name, set: { angle_deg } }) }],
    active: 0,
  };
}

function timeline(count: number, at = count - 1, name = 'Bowl'): Timeline {
  const states = Array.from({ length: count }, (_, i): KeptState => ({
    label: i === 0 ? null : `angle ${i}`,
    work: work(name, 40 + i / 100),
  }));
  return { states, at };
}

async function keep(library: Library, id: string, kept: Timeline): Promise<Keeper> {
  const keeper = Keeper.forNew(library, { id, origin: 'file' });
  expect(await keeper.keep(kept, true)).toEqual({ ok: true, value: null });
  return keeper;
}

/** As another page of the same browser reads it. */
async function readAfresh(id: string): Promise<ReadBack> {
  const read = await new Library().read(id);
  if (!read.ok) throw new Error(read.fault.reason);
  return read.value;
}

async function goodTimeline(id: string): Promise<Timeline> {
  const read = await readAfresh(id);
  if (read.state !== 'good') throw new Error(read.state);
  expect(read.lost).toBeNull();
  return read.timeline;
}

/** Changes stored records behind the library's back, as a failing disk or another program does. */
async function tamper(
  store: 'designs' | 'states',
  change: (record: Record<string, unknown>) => unknown,
): Promise<void> {
  const database = await openDB(DATABASE);
  for (const record of (await database.getAll(store)) as Record<string, unknown>[]) {
    const changed = change(structuredClone(record));
    if (changed !== undefined) await database.put(store, changed);
  }
  database.close();
}

test('a timeline comes back as it was, with several variants', async () => {
  const variants = [0, 1, 2].map((n) => ({ id: `v${n}`, name: `Variant ${n}`, design: randomDesign(n) }));
  const kept: Timeline = {
    states: [
      { label: null, work: { variants: variants.slice(0, 1), active: 0 } },
      { label: 'add a variant', work: { variants, active: 2 } },
    ],
    at: 1,
  };
  await keep(new Library(), 'a', kept);
  expect(await goodTimeline('a')).toEqual(kept);
});

test('the list has names and dates, newest first; deleted designs leave it and come back', async () => {
  const library = new Library();
  vi.spyOn(Date, 'now').mockReturnValueOnce(1000).mockReturnValueOnce(1000).mockReturnValue(2000);
  await keep(library, 'a', timeline(2, 1, 'Bowl'));
  await keep(library, 'b', timeline(1, 0, 'Vase'));
  const names = async () => {
    const list = await library.list();
    return list.ok && list.value.map(({ name, edited_ms }) => [name, edited_ms]);
  };
  expect(await names()).toEqual([
    ['Vase', 2000],
    ['Bowl', 1000],
  ]);
  await library.setRemoved('b', true);
  expect(await names()).toEqual([['Bowl', 1000]]);
  await library.setRemoved('b', false);
  expect(await names()).toHaveLength(2);
  expect(await goodTimeline('b')).toEqual(timeline(1, 0, 'Vase'));
});

test('a renamed design can have its old name back by undo, and a duplicate leaves the first alone', async () => {
  const library = new Library();
  await keep(library, 'a', timeline(3, 1));
  await library.rename('a', 'Salad bowl');
  await library.duplicate('a', { id: 'b', name: 'Salad bowl, copy' });
  const renamed = await goodTimeline('a');
  expect(renamed.states.map(({ work: { variants } }) => variants[0].design.name)).toEqual([
    'Bowl',
    'Bowl',
    'Salad bowl',
  ]);
  expect(renamed.at).toBe(2);
  expect((await goodTimeline('b')).states[0].work.variants[0].design).toEqual({
    ...renamed.states[2].work.variants[0].design,
    name: 'Salad bowl, copy',
  });
});

test('what was deleted a month ago and starters that were only looked at are taken out', async () => {
  const library = new Library();
  await Keeper.forNew(library, { id: 'starter', origin: 'starter' }).keep(timeline(1), true);
  await Keeper.forNew(library, { id: 'edited', origin: 'starter' }).keep(timeline(2), true);
  await keep(library, 'removed', timeline(1));
  await library.setRemoved('removed', true);
  await library.tidy(new Set(['starter']), 'starter');
  expect((await readAfresh('starter')).state).toBe('good');
  await library.tidy(new Set(), 'starter');
  expect((await readAfresh('starter')).state).toBe('none');
  expect((await readAfresh('removed')).state).toBe('good');
  await Keeper.forNew(library, { id: 'looked at', origin: 'starter' }).keep(timeline(1), true);
  const day_ms = 24 * 3_600_000;
  const now_ms = Date.now();
  const tidyAfter = async (time_ms: number) => {
    vi.spyOn(Date, 'now').mockReturnValue(now_ms + time_ms);
    // A page opened anew, which does not know what was deleted or looked at before.
    expect(await new Library().tidy(new Set(), null)).toEqual({ ok: true, value: null });
  };
  await tidyAfter(0.9 * day_ms);
  expect((await readAfresh('looked at')).state).toBe('good');
  await tidyAfter(1.1 * day_ms);
  expect((await readAfresh('looked at')).state).toBe('none');
  await tidyAfter(29 * day_ms);
  expect((await readAfresh('removed')).state).toBe('good');
  await tidyAfter(31 * day_ms);
  expect((await readAfresh('removed')).state).toBe('none');
  expect((await readAfresh('edited')).state).toBe('good');
});

describe('said plainly', () => {
  test('a full storage, and the last good state is untouched', async () => {
    const library = new Library();
    const keeper = await keep(library, 'a', timeline(2));
    // The browser aborts a transaction that would pass its quota (Indexed DB API 3.0, committing a transaction).
    const commit = vi.spyOn(IDBTransaction.prototype, 'commit').mockImplementation(function (
      this: IDBTransaction,
    ) {
      const abort = Reflect.get(this, '_abort') as (name: string) => void;
      Reflect.apply(abort, this, ['QuotaExceededError']);
    });
    const outcome = await keeper.keep(timeline(5), true);
    expect(outcome).toEqual({
      ok: false,
      fault: { code: 'full', reason: 'the storage of this browser is full' },
    });
    commit.mockRestore();
    expect(await goodTimeline('a')).toEqual(timeline(2));
    expect(await keeper.keep(timeline(5), true)).toEqual({ ok: true, value: null });
    expect(await goodTimeline('a')).toEqual(timeline(5));
  });

  test('a writing that breaks off in its middle leaves nothing behind', async () => {
    const library = new Library();
    const keeper = await keep(library, 'a', timeline(2));
    const broken = { label: 'x', work: { variants: [], active: () => 0 } } as unknown as KeptState;
    const { states } = timeline(4);
    const outcome = await keeper.keep({ states: [...states, broken], at: 3 }, true).catch((e: unknown) => e);
    expect(outcome).toMatchObject({ ok: false, fault: { code: 'failed' } });
    expect(await goodTimeline('a')).toEqual(timeline(2));
  });

  test('storage that the browser withholds', async () => {
    vi.stubGlobal('indexedDB', {
      open: () => {
        throw new DOMException('The operation is insecure.', 'SecurityError');
      },
    });
    expect(await new Library().list()).toMatchObject({
      ok: false,
      fault: {
        code: 'blocked',
        reason: expect.stringMatching(/does not let the page store anything/) as string,
      },
    });
    vi.stubGlobal('indexedDB', undefined);
    // None at all: the maker reads no sentence of the engine's.
    expect(await new Library().list()).toEqual({
      ok: false,
      fault: { code: 'blocked', reason: 'this browser does not let the page store anything' },
    });
  });

  test('a database of a newer Kerfweave', async () => {
    // Opened in another tab while this one has it open: this one lets go, and says why it keeps no more.
    const keeper = await keep(new Library(), 'a', timeline(2));
    (await openDB(DATABASE, 99)).close();
    expect(await keeper.keep(timeline(3), true)).toMatchObject({ ok: false, fault: { code: 'newer' } });
    expect(await new Library().list()).toMatchObject({ ok: false, fault: { code: 'newer' } });
  });

  test('a second writer', async () => {
    const here = await keep(new Library(), 'a', timeline(1));
    const library = new Library();
    const read = await library.read('a');
    if (!read.ok || read.value.state !== 'good') throw new Error('unreadable');
    const there = Keeper.forRead(library, read.value);
    expect(await there.keep(timeline(2), false)).toEqual({ ok: true, value: null });
    expect(await here.keep(timeline(3), false)).toMatchObject({ ok: false, fault: { code: 'taken' } });
    expect(await goodTimeline('a')).toEqual(timeline(2));
  });

  test('a design of a later version, with all that it holds', async () => {
    await keep(new Library(), 'a', timeline(1));
    await tamper('states', (record) => {
      const [variant] = (record.work as KeptWork).variants;
      return {
        ...record,
        work: { active: 0, variants: [{ ...variant, design: { ...variant.design, version: 99, hue: 1 } }] },
      };
    });
    const read = await readAfresh('a');
    expect(read).toMatchObject({
      state: 'newer',
      newer: { version: 99, raw: { hue: 1 }, design: { name: 'Bowl' } },
    });
  });
});

describe('damaged records', () => {
  const spoil = (seqs: readonly number[]) =>
    tamper('states', (record) =>
      seqs.includes(record.seq as number) ? { ...record, work: { variants: 'gone' } } : undefined,
    );
  const aside = async () => {
    const database = await openDB(DATABASE);
    const found: unknown[] = await database.getAll('aside');
    database.close();
    return found;
  };

  test('the present: the state before it is open, and what was found is set aside', async () => {
    await keep(new Library(), 'a', timeline(6, 3));
    await spoil([3]);
    const read = await readAfresh('a');
    if (read.state !== 'good') throw new Error(read.state);
    expect(read.lost?.reason).toMatch(/the last state could not be read \(the record has no variants\)/);
    expect(read.timeline.states).toEqual(timeline(6).states.slice(0, 3));
    expect(read.timeline.at).toBe(2);
    // However often it is read, nothing is copied; the writing that replaces what was found sets it aside.
    expect(await aside()).toEqual([]);
    const keeper = Keeper.forRead(new Library(), read);
    const next = { states: [...read.timeline.states, timeline(9).states[8]], at: 3 };
    expect(await keeper.keep(next, true)).toEqual({ ok: true, value: null });
    expect(await goodTimeline('a')).toEqual(next);
    expect(await keeper.keep(timeline(9), true)).toEqual({ ok: true, value: null });
    expect(await aside()).toMatchObject([{ found: { records: { length: 6 } } }]);
    const raw = await new Library().raw('a');
    expect(raw).toMatchObject({ ok: true, value: { aside: [{ found: { header: { name: 'Bowl' } } }] } });
    expect(await new Library().list()).toMatchObject({ ok: true, value: [{ id: 'a', spoilt: true }] });
  });

  test('the past and the future: the present opens with what can still be undone and redone', async () => {
    await keep(new Library(), 'a', timeline(8, 4));
    await spoil([1, 6]);
    const read = await readAfresh('a');
    if (read.state !== 'good') throw new Error(read.state);
    expect(read.lost?.reason).toBe('a part of its undo history could not be read');
    const { states } = timeline(8);
    expect(read.timeline).toEqual({ states: [{ ...states[2], label: null }, ...states.slice(3, 6)], at: 2 });
  });

  test('a state that is gone: nothing is undone or redone over the gap', async () => {
    await keep(new Library(), 'a', timeline(8, 4));
    const database = await openDB(DATABASE);
    const keys = await database.getAllKeys('states');
    for (const i of [2, 6]) await database.delete('states', keys[i]);
    database.close();
    const read = await readAfresh('a');
    if (read.state !== 'good') throw new Error(read.state);
    expect(read.lost?.reason).toBe('a part of its undo history could not be read');
    const { states } = timeline(8);
    expect(read.timeline).toEqual({ states: [{ ...states[3], label: null }, ...states.slice(4, 6)], at: 1 });
  });

  test('one record that the browser cannot give: the others are read', async () => {
    await keep(new Library(), 'a', timeline(5));
    await keep(new Library(), 'b', timeline(1, 0, 'Vase'));
    // As Chromium answers where the file of a large value is gone: the one by itself, and all that are asked with it.
    const get = Reflect.get(IDBObjectStore.prototype, 'get');
    const getAll = Reflect.get(IDBObjectStore.prototype, 'getAll');
    const unreadable = new DOMException('Failed to read large IndexedDB value', 'DataError');
    vi.spyOn(IDBObjectStore.prototype, 'getAll').mockImplementation(function (
      this: IDBObjectStore,
      ...rest: unknown[]
    ) {
      if (this.name === 'states') throw unreadable;
      return Reflect.apply(getAll, this, rest) as IDBRequest<unknown[]>;
    });
    vi.spyOn(IDBObjectStore.prototype, 'get').mockImplementation(function (
      this: IDBObjectStore,
      key: IDBValidKey | IDBKeyRange,
    ) {
      if (this.name === 'states' && Array.isArray(key) && key[1] === 4) throw unreadable;
      return Reflect.apply(get, this, [key]) as IDBRequest<unknown>;
    });
    const read = await readAfresh('a');
    if (read.state !== 'good') throw new Error(read.state);
    expect(read.timeline).toEqual({ states: timeline(5).states.slice(0, 4), at: 3 });
    expect(read.lost?.reason).toMatch(/^the last state could not be read/);
    expect(read.lost?.found).toMatchObject({
      records: { 4: { unreadable: expect.stringMatching(/large/) as string } },
    });
  });

  test('every state: nothing is opened and nothing is deleted', async () => {
    await keep(new Library(), 'a', timeline(3));
    await spoil([0, 1, 2]);
    expect(await readAfresh('a')).toMatchObject({ state: 'damaged', reason: 'the record has no variants' });
    const raw = await new Library().raw('a');
    expect(raw).toMatchObject({ ok: true, value: { header: { name: 'Bowl' }, records: { length: 3 } } });
  });

  test.each([
    [
      'an older design that is no longer sound',
      (r: Record<string, unknown>) => ({ ...r, work: work('x', 95) }),
      'damaged',
    ],
    ['a record without work', (r: Record<string, unknown>) => ({ id: r.id, seq: r.seq }), 'damaged'],
    ['a seal of another version', (r: Record<string, unknown>) => ({ ...r, seal: '0 0' }), 'good'],
    ['a label that is no text', (r: Record<string, unknown>) => ({ ...r, label: 5 }), 'good'],
  ])('%s', async (what, change, state) => {
    await keep(new Library(), 'a', timeline(1));
    await tamper('states', change);
    expect((await readAfresh('a')).state, what).toBe(state);
  });

  test('a header of which only the id is left still gives the design', async () => {
    await keep(new Library(), 'a', timeline(3));
    await tamper('designs', ({ id }) => ({ id }));
    const read = await readAfresh('a');
    expect(read.state === 'good' && read.timeline.states).toHaveLength(3);
  });
});

describe('storage that is cleared under an open page', () => {
  const clear = async (id?: string) => {
    const database = await openDB(DATABASE);
    for (const store of ['designs', 'states'] as const)
      for (const key of await database.getAllKeys(store))
        if (id === undefined || key === id || (Array.isArray(key) && key[0] === id))
          await database.delete(store, key);
    database.close();
  };

  test.each([true, false])('the next edit writes every state again (no other tab: %s)', async (alone) => {
    const keeper = await keep(new Library(), 'a', timeline(4));
    await clear();
    expect(await keeper.keep(timeline(5), alone)).toEqual({ ok: true, value: null });
    expect(await goodTimeline('a')).toEqual(timeline(5));
    // An undo writes no state of its own, and must not leave a header alone.
    await clear();
    expect(await keeper.keep(timeline(5, 2), alone)).toEqual({ ok: true, value: null });
    expect(await goodTimeline('a')).toEqual(timeline(5, 2));
  });

  test('a single state that is gone comes back with the next edit', async () => {
    const keeper = await keep(new Library(), 'a', timeline(4));
    const database = await openDB(DATABASE);
    await database.delete('states', ['a', 1]);
    database.close();
    expect(await keeper.keep(timeline(5), true)).toEqual({ ok: true, value: null });
    expect(await goodTimeline('a')).toEqual(timeline(5));
  });

  test('the whole database deleted, by the browser or by another page', async () => {
    const keeper = await keep(new Library(), 'a', timeline(4));
    await deleteDB(DATABASE);
    expect(await keeper.keep(timeline(5), true)).toEqual({ ok: true, value: null });
    expect(await goodTimeline('a')).toEqual(timeline(5));
  });

  test('a connection that the browser closes is opened again', async () => {
    const opened: IDBDatabase[] = [];
    const open = Reflect.get(IDBFactory.prototype, 'open');
    vi.spyOn(IDBFactory.prototype, 'open').mockImplementation(function (
      this: IDBFactory,
      ...rest: unknown[]
    ) {
      const request = Reflect.apply(open, this, rest) as IDBOpenDBRequest;
      request.addEventListener('success', () => opened.push(request.result));
      return request;
    });
    const keeper = await keep(new Library(), 'a', timeline(2));
    // Closed without a word, as a page finds it that was frozen for long.
    opened[0].close();
    expect(await keeper.keep(timeline(3), true)).toEqual({ ok: true, value: null });
    expect(opened).toHaveLength(2);
    expect(await goodTimeline('a')).toEqual(timeline(3));
  });
});

test('a browser that does not open the database does not hold up the app; once it does, all is there', async () => {
  await keep(new Library(), 'a', timeline(2));
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  const listeners = new Map<string, (event: Event) => void>();
  const silent = Object.create(IDBOpenDBRequest.prototype, {
    addEventListener: {
      value: (kind: string, listener: (event: Event) => void) => listeners.set(kind, listener),
    },
    removeEventListener: { value: () => undefined },
  }) as IDBOpenDBRequest;
  const open = vi.spyOn(IDBFactory.prototype, 'open').mockReturnValue(silent);
  const library = new Library();
  const list = library.list();
  await vi.advanceTimersByTimeAsync(10_000);
  vi.useRealTimers();
  expect(await list).toMatchObject({
    ok: false,
    fault: { code: 'blocked', reason: expect.stringMatching(/it does not answer/) as string },
  });
  open.mockRestore();
  Object.defineProperty(silent, 'result', { value: unwrap(await openDB(DATABASE)) });
  listeners.get('success')?.(new Event('success'));
  expect(await library.list()).toMatchObject({ ok: true, value: [{ id: 'a' }] });
});

test('a writing of a dead page that does not end does not hold up the app; once it has ended, all is there', async () => {
  await keep(new Library(), 'a', timeline(2));
  const library = new Library();
  expect(await library.list()).toMatchObject({ ok: true });
  const other = await openDB(DATABASE);
  const stuck = other.transaction(['designs', 'states', 'aside'], 'readwrite');
  const hold = { on: true };
  const holding = (async () => {
    while (hold.on) await stuck.objectStore('designs').get('a');
  })();
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  const list = library.list();
  const read = library.read('a');
  await vi.advanceTimersByTimeAsync(20_000);
  vi.useRealTimers();
  const silent = {
    ok: false,
    fault: { code: 'blocked', reason: expect.stringMatching(/it does not answer/) as string },
  };
  expect(await list).toMatchObject(silent);
  expect(await read).toMatchObject(silent);
  hold.on = false;
  await holding;
  await stuck.done;
  other.close();
  expect(await library.list()).toMatchObject({ ok: true, value: [{ id: 'a' }] });
});

test('a clock that leaps ahead does not take away the way back from a deletion', async () => {
  const library = new Library();
  await keep(library, 'a', timeline(2));
  await library.setRemoved('a', true);
  vi.spyOn(Date, 'now').mockReturnValue(Date.now() + 400 * 24 * 3_600_000);
  await library.tidy(new Set(), null);
  expect(await library.setRemoved('a', false)).toEqual({ ok: true, value: null });
  expect((await goodTimeline('a')).states).toHaveLength(2);
  expect(await library.setRemoved('b', false)).toMatchObject({
    ok: false,
    fault: { reason: 'it is no longer there' },
  });
});

test('what a newer Kerfweave keeps is neither opened, nor tidied away, nor cut short by deleting it', async () => {
  const library = new Library();
  await Keeper.forNew(library, { id: 'a', origin: 'starter' }).keep(timeline(1), true);
  await tamper('designs', (record) => ({ ...record, layout: 99, colour: 'red' }));
  expect(await readAfresh('a')).toMatchObject({
    state: 'damaged',
    reason: expect.stringMatching(/newer Kerfweave/) as string,
  });
  await library.tidy(new Set(), 'a');
  await library.setRemoved('a', true);
  await library.setRemoved('a', false);
  const raw = await library.raw('a');
  expect(raw).toMatchObject({ ok: true, value: { header: { layout: 99, colour: 'red', removed_ms: null } } });
});

test('a name that no design can have is refused, and the design is as it was', async () => {
  await keep(new Library(), 'a', timeline(2));
  expect(await new Library().rename('a', 'x'.repeat(5000))).toMatchObject({
    ok: false,
    fault: { reason: expect.stringMatching(/^name: /) as string },
  });
  expect(await goodTimeline('a')).toEqual(timeline(2));
});
