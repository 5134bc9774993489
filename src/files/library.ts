/**
 * The designs kept in this browser (IndexedDB): a header and the states of each. Every change is one
 * transaction, so that what is on the disk is always the last complete state; it counts as kept when the
 * transaction has completed with strict durability. Nothing here rejects: what went wrong is a value.
 */
import { faultLine } from '../design/faults.ts';
import { checkDesign } from '../design/parse.ts';
import {
  headerFrom,
  isUntouched,
  type KeptHeader,
  type KeptWork,
  LAYOUT,
  type Origin,
  sealOf,
  workChecker,
} from './kept.ts';
import {
  DatabaseDoor,
  GoneError,
  isClosed,
  type KeepFault,
  type KeptDatabase,
  type Outcome,
  SILENCE_MS,
  type Spoilt,
  type StateRecord,
  TakenError,
} from './keptDatabase.ts';
import { readBack, type ReadBack } from './readBack.ts';

/** What one writing changes of a design. */
export interface KeptChange {
  readonly header: KeptHeader;
  readonly put: readonly StateRecord[];
  /** Numbers of states that are no longer there: before the first, after the last. */
  readonly outside: readonly [first: number, last: number];
  /** What the change would otherwise overwrite for good. */
  readonly aside: Spoilt | null;
}

/** A design of the list. `spoilt`: something of it could not be read once, and was set aside. */
export interface Listed extends KeptHeader {
  readonly spoilt: boolean;
}

/** A history of a thousand states is read in about a second; a slow disk has ten times as long. */
const READ_PATIENCE_MS = 15_000;
const DAY_MS = 24 * 3_600_000;
/** Deleted designs can be put back for this long. */
const REMOVED_FOR_MS = 30 * DAY_MS;

const all = (id: string) => IDBKeyRange.bound([id, -Infinity], [id, Infinity]);

export class Library {
  readonly #door = new DatabaseDoor();
  /** Deleted by this page: a clock that leaps ahead must not take away the way back. */
  readonly #removedHere = new Set<string>();

  /** What is kept, newest first, without what was deleted or never touched. */
  list(): Promise<Outcome<Listed[]>> {
    return this.#door.attempt(async (database) => {
      const aside = new Set((await database.getAllKeys('aside')).map(([id]) => id));
      return (await everything(database, 'designs'))
        .map(headerFrom)
        .filter((header) => header !== null)
        .filter((header) => header.removed_ms === null && !isUntouched(header))
        .sort((a, b) => b.edited_ms - a.edited_ms)
        .map((header) => ({ ...header, spoilt: aside.has(header.id) }));
    }, SILENCE_MS);
  }

  /** The present state of a design alone; null when it cannot be shown. */
  present(id: string): Promise<Outcome<KeptWork | null>> {
    return this.#door.attempt(async (database) => {
      const transaction = database.transaction(['designs', 'states'], 'readonly');
      const header = headerFrom(await transaction.objectStore('designs').get(id));
      const record: unknown = header && (await transaction.objectStore('states').get([id, header.at]));
      const result = workChecker()((record as StateRecord | undefined)?.work);
      return result.ok ? result.work : null;
    });
  }

  read(id: string): Promise<Outcome<ReadBack>> {
    return this.#door.attempt(async (database) => {
      const { header, records } = await found(database, id);
      return readBack(header, records);
    }, READ_PATIENCE_MS);
  }

  /**
   * Writes a change. `known`: the revision that the design must still have, else the writing is refused as
   * `taken`; null when nobody else can have written, which saves the way there and back as the page goes. `gone`:
   * the states that the change leaves as they are are not all there; it must be written with every state.
   */
  write(change: KeptChange, known: number | null): Promise<Outcome<null>> {
    return this.#door.attempt(async (database) => {
      const { header, put, outside, aside } = change;
      // No store more than is written to: readers of the others need not wait.
      const stores = aside ? (['designs', 'states', 'aside'] as const) : (['designs', 'states'] as const);
      const transaction = database.transaction(stores, 'readwrite', { durability: 'strict' });
      const designs = transaction.objectStore('designs');
      const states = transaction.objectStore('states');
      if (known !== null) {
        const there = headerFrom(await designs.get(header.id));
        const gone = !there && known > 0 && put.length < header.count;
        if (gone || (there && there.revision !== known)) {
          transaction.abort();
          await transaction.done.catch(() => undefined);
          throw gone ? new GoneError() : new TakenError();
        }
      }
      const requests: Promise<unknown>[] = [];
      let kept: Promise<number>;
      try {
        requests.push(
          designs.put(header),
          states.delete(IDBKeyRange.bound([header.id, -Infinity], [header.id, outside[0]], false, true)),
          states.delete(IDBKeyRange.bound([header.id, outside[1]], [header.id, Infinity], true, false)),
        );
        for (const state of put) requests.push(states.put(state));
        const at_ms = Date.now();
        if (aside)
          requests.push(transaction.objectStore('aside').put({ ...aside, at_ms }, [header.id, at_ms]));
        kept = states.count(all(header.id));
        requests.push(kept);
      } catch (error) {
        // A value that cannot be stored at all: nothing of the change may stay behind.
        const done = transaction.done.catch((reason: unknown) => reason);
        if (transaction.error === null) transaction.abort();
        await Promise.allSettled([...requests, done]);
        throw error;
      }
      transaction.commit();
      // Why a transaction failed is said by itself; its requests only say that it did.
      await Promise.all([transaction.done, Promise.allSettled(requests)]);
      // Browsers clear what pages have stored, also under an open page.
      if ((await kept) !== header.count) throw new GoneError();
      return null;
    });
  }

  /** Renames in the present state, as an edit that can be undone. Not for a design that is open somewhere. */
  async rename(id: string, name: string): Promise<Outcome<null>> {
    const read = await this.read(id);
    if (!read.ok) return read;
    if (read.value.state !== 'good') return failed('it cannot be read');
    const { header, timeline, seqs, lost } = read.value;
    const present = timeline.states[timeline.at];
    const variants = present.work.variants.map((v) => ({ ...v, design: { ...v.design, name } }));
    const seq = seqs[timeline.at] + 1;
    const work = { ...present.work, variants };
    const wrong = variants.map(({ design }) => checkDesign(design)).find((result) => !result.ok);
    if (wrong) return failed(wrong.faults.map(faultLine)[0] ?? 'it is no valid name');
    const state: StateRecord = { id, seq, label: 'rename', work, seal: sealOf(work) };
    return this.write(
      {
        header: {
          ...header,
          name,
          edited_ms: Date.now(),
          revision: header.revision + 1,
          count: timeline.at + 2,
          at: seq,
        },
        put: [state],
        outside: [seqs[0], seq],
        aside: lost,
      },
      header.revision,
    );
  }

  /** A copy of the present state under another id and name. */
  async duplicate(id: string, copy: { readonly id: string; readonly name: string }): Promise<Outcome<null>> {
    const read = await this.read(id);
    if (!read.ok) return read;
    if (read.value.state !== 'good') return failed('it cannot be read');
    const { work } = read.value.timeline.states[read.value.timeline.at];
    const variants = work.variants.map((v) => ({ ...v, design: { ...v.design, name: copy.name } }));
    const copied = { ...work, variants };
    const header = newHeader(copy.id, copy.name, 'copy');
    const state: StateRecord = {
      id: copy.id,
      seq: 0,
      label: null,
      work: copied,
      seal: sealOf(copied),
    };
    const kept = { ...header, revision: 1, count: 1 };
    return this.write({ header: kept, put: [state], outside: [0, 0], aside: null }, 0);
  }

  /** Marks as deleted, or takes the mark back. */
  setRemoved(id: string, removed: boolean): Promise<Outcome<null>> {
    if (removed) this.#removedHere.add(id);
    return this.#door.attempt(async (database) => {
      const transaction = database.transaction('designs', 'readwrite', { durability: 'strict' });
      const record = await transaction.store.get(id);
      const header = headerFrom(record);
      // Whatever else a newer Kerfweave has written there stays.
      if (record && header)
        await transaction.store.put({
          ...record,
          removed_ms: removed ? Date.now() : null,
          revision: header.revision + 1,
        });
      await transaction.done;
      if (!header && !removed) throw new Error('it is no longer there');
      return null;
    });
  }

  /**
   * Takes out what was deleted long ago, and starters that were looked at and left: the one just left, and those
   * of other days. `open`: designs that some tab has open.
   */
  tidy(open: ReadonlySet<string>, left: string | null): Promise<Outcome<null>> {
    return this.#door.attempt(async (database) => {
      const transaction = database.transaction(['designs', 'states', 'aside'], 'readwrite');
      const now_ms = Date.now();
      const records: unknown[] = await transaction.objectStore('designs').getAll();
      for (const record of records) {
        const header = headerFrom(record);
        if (!header || header.layout > LAYOUT || open.has(header.id)) continue;
        if (this.#removedHere.has(header.id)) continue;
        const removed = header.removed_ms !== null && header.removed_ms < now_ms - REMOVED_FOR_MS;
        const looked = isUntouched(header) && (header.id === left || header.edited_ms < now_ms - DAY_MS);
        if (!removed && !looked) continue;
        void transaction.objectStore('designs').delete(header.id);
        void transaction.objectStore('states').delete(all(header.id));
        void transaction.objectStore('aside').delete(all(header.id));
      }
      await transaction.done;
      return null;
    });
  }

  /** Everything that is stored of a design, as it is found, for a file that someone may repair by hand. */
  raw(id: string): Promise<Outcome<unknown>> {
    return this.#door.attempt(async (database) => {
      const aside = await everything(database, 'aside', all(id));
      return { ...(await found(database, id)), ...(aside.length > 0 ? { aside } : {}) };
    });
  }
}

function failed(reason: string): { ok: false; fault: KeepFault } {
  return { ok: false, fault: { code: 'failed', reason } };
}

export function newHeader(id: string, name: string, origin: Origin, link: string | null = null): KeptHeader {
  return {
    id,
    layout: LAYOUT,
    name,
    origin,
    link,
    edited_ms: Date.now(),
    removed_ms: null,
    revision: 0,
    first: 0,
    count: 0,
    at: 0,
  };
}

async function found(database: KeptDatabase, id: string): Promise<{ header: unknown; records: unknown[] }> {
  try {
    // Of one moment, whoever else is writing.
    const transaction = database.transaction(['designs', 'states'], 'readonly');
    const header: unknown = await transaction.objectStore('designs').get(id);
    const records: unknown[] = await transaction.objectStore('states').getAll(all(id));
    return { header, records };
  } catch (error) {
    if (isClosed(error)) throw error;
    const [header] = await everything(database, 'designs', IDBKeyRange.only(id));
    return { header, records: await everything(database, 'states', all(id)) };
  }
}

/** All records of a store, or those in a range; where they do not come together, those that come one by one. */
async function everything(
  database: KeptDatabase,
  store: 'designs' | 'states' | 'aside',
  range?: IDBKeyRange,
): Promise<unknown[]> {
  try {
    return await database.getAll(store, range);
  } catch (error) {
    if (isClosed(error)) throw error;
    // One value whose file on the disk is damaged spoils the whole answer.
    const keys = await database.getAllKeys(store, range);
    return Promise.all(
      keys.map(async (key) => {
        try {
          return await database.get(store, key);
        } catch (reason) {
          if (isClosed(reason)) throw reason;
          const [id, seq] = typeof key === 'string' ? [key] : key;
          return { id, seq, unreadable: String(reason) };
        }
      }),
    );
  }
}
