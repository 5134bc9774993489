/**
 * The designs kept in this browser (IndexedDB): a header and the states of each. Every change is one
 * transaction, so that what is on the disk is always the last complete state; it counts as kept when the
 * transaction has completed with strict durability. Nothing here rejects: what went wrong is a value.
 */
import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import {
  headerFrom,
  isUntouched,
  type KeptHeader,
  type KeptState,
  type KeptWork,
  LAYOUT,
  type Origin,
  type Timeline,
  sealOf,
  type WorkCheck,
  workChecker,
} from './kept.ts';
import type { NewerFile } from '../design/parse.ts';

/** Why something was not kept or not read. `full` and `blocked` are the browser's doing, `taken` another tab's. */
export interface KeepFault {
  readonly code: 'full' | 'blocked' | 'newer' | 'taken' | 'failed';
  readonly reason: string;
}

export type Outcome<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly fault: KeepFault };

export interface StateRecord extends KeptState {
  readonly seal: string;
  readonly id: string;
  readonly seq: number;
}

/** What one writing changes of a design. */
export interface KeptChange {
  readonly header: KeptHeader;
  readonly put: readonly StateRecord[];
  /** Numbers of states that are no longer there: before the first, after the last. */
  readonly outside: readonly [first: number, last: number];
}

export type ReadBack =
  | { readonly state: 'none' }
  | {
      readonly state: 'good';
      readonly header: KeptHeader;
      readonly timeline: Timeline;
      /** Numbers of the states in the records. */
      readonly seqs: readonly number[];
      /** What could not be read and was set aside; the timeline is the rest. */
      readonly lost: string | null;
    }
  | { readonly state: 'newer'; readonly header: KeptHeader; readonly newer: NewerFile }
  | { readonly state: 'damaged'; readonly header: KeptHeader | null; readonly reason: string };

interface Schema extends DBSchema {
  designs: { key: string; value: KeptHeader };
  states: { key: [string, number]; value: StateRecord };
  /** Records that could not be read, as they were found. */
  aside: { key: number; value: { readonly at_ms: number; readonly reason: string; readonly found: unknown } };
}

const DATABASE = 'kerfweave-designs';
const DATABASE_VERSION = 1;
const DAY_MS = 24 * 3_600_000;
/** Deleted designs can be put back for this long. */
const REMOVED_FOR_MS = 30 * DAY_MS;

const all = (id: string) => IDBKeyRange.bound([id, -Infinity], [id, Infinity]);

export class Library {
  #database: Promise<IDBPDatabase<Schema>> | null = null;

  /** What is kept, newest first, without what was deleted or never touched. */
  list(): Promise<Outcome<KeptHeader[]>> {
    return this.#attempt(async (database) => {
      const records: unknown[] = await database.getAll('designs');
      return records
        .map(headerFrom)
        .filter((header) => header !== null)
        .filter((header) => header.removed_ms === null && !isUntouched(header))
        .sort((a, b) => b.edited_ms - a.edited_ms);
    });
  }

  /** The present state of a design alone; null when it cannot be shown. */
  present(id: string): Promise<Outcome<KeptWork | null>> {
    return this.#attempt(async (database) => {
      const transaction = database.transaction(['designs', 'states'], 'readonly');
      const header = headerFrom(await transaction.objectStore('designs').get(id));
      const record: unknown = header && (await transaction.objectStore('states').get([id, header.at]));
      const result = workChecker()((record as StateRecord | undefined)?.work);
      return result.ok ? result.work : null;
    });
  }

  read(id: string): Promise<Outcome<ReadBack>> {
    return this.#attempt(async (database) => {
      const { header, records } = await found(database, id);
      const result = readBack(header, records);
      if (result.state === 'damaged' || (result.state === 'good' && result.lost !== null)) {
        const reason = result.state === 'damaged' ? result.reason : (result.lost ?? '');
        await database.put('aside', { at_ms: Date.now(), reason, found: { header, records } }, Date.now());
      }
      return result;
    });
  }

  /**
   * Writes a change. `known`: the revision that the design must still have, else the writing is refused as
   * `taken`; null when nobody else can have written, which saves the way there and back as the page goes.
   */
  write(change: KeptChange, known: number | null): Promise<Outcome<null>> {
    return this.#attempt(async (database) => {
      const transaction = database.transaction(['designs', 'states'], 'readwrite', { durability: 'strict' });
      const designs = transaction.objectStore('designs');
      const states = transaction.objectStore('states');
      const { header, put, outside } = change;
      if (known !== null) {
        const there = headerFrom(await designs.get(header.id));
        if ((there?.revision ?? 0) !== known) {
          transaction.abort();
          await transaction.done.catch(() => undefined);
          throw new TakenError();
        }
      }
      const requests: Promise<unknown>[] = [];
      try {
        requests.push(
          designs.put(header),
          states.delete(IDBKeyRange.bound([header.id, -Infinity], [header.id, outside[0]], false, true)),
          states.delete(IDBKeyRange.bound([header.id, outside[1]], [header.id, Infinity], true, false)),
        );
        for (const state of put) requests.push(states.put(state));
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
      return null;
    });
  }

  /** Renames in the present state, as an edit that can be undone. Not for a design that is open somewhere. */
  async rename(id: string, name: string): Promise<Outcome<null>> {
    const read = await this.read(id);
    if (!read.ok) return read;
    if (read.value.state !== 'good') return failed('it cannot be read');
    const { header, timeline, seqs } = read.value;
    const present = timeline.states[timeline.at];
    const variants = present.work.variants.map((v) => ({ ...v, design: { ...v.design, name } }));
    const seq = seqs[timeline.at] + 1;
    const work = { ...present.work, variants };
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
    return this.write({ header: { ...header, revision: 1, count: 1 }, put: [state], outside: [0, 0] }, 0);
  }

  /** Marks as deleted, or takes the mark back. */
  setRemoved(id: string, removed: boolean): Promise<Outcome<null>> {
    return this.#attempt(async (database) => {
      const transaction = database.transaction('designs', 'readwrite', { durability: 'strict' });
      const header = headerFrom(await transaction.store.get(id));
      if (header)
        await transaction.store.put({
          ...header,
          removed_ms: removed ? Date.now() : null,
          revision: header.revision + 1,
        });
      await transaction.done;
      return null;
    });
  }

  /**
   * Takes out what was deleted long ago, and starters that were looked at and left: the one just left, and those
   * of other days. `open`: designs that some tab has open.
   */
  tidy(open: ReadonlySet<string>, left: string | null): Promise<Outcome<null>> {
    return this.#attempt(async (database) => {
      const transaction = database.transaction(['designs', 'states'], 'readwrite');
      const now_ms = Date.now();
      const records: unknown[] = await transaction.objectStore('designs').getAll();
      for (const record of records) {
        const header = headerFrom(record);
        if (!header || open.has(header.id)) continue;
        const removed = header.removed_ms !== null && header.removed_ms < now_ms - REMOVED_FOR_MS;
        const looked = isUntouched(header) && (header.id === left || header.edited_ms < now_ms - DAY_MS);
        if (!removed && !looked) continue;
        void transaction.objectStore('designs').delete(header.id);
        void transaction.objectStore('states').delete(all(header.id));
      }
      await transaction.done;
      return null;
    });
  }

  /** Everything that is stored of a design, as it is found, for a file that someone may repair by hand. */
  raw(id: string): Promise<Outcome<unknown>> {
    return this.#attempt((database) => found(database, id));
  }

  async #attempt<T>(act: (database: IDBPDatabase<Schema>) => Promise<T>): Promise<Outcome<T>> {
    try {
      this.#database ??= this.#open();
      return { ok: true, value: await act(await this.#database) };
    } catch (error) {
      if (error instanceof DOMException && error.name === 'InvalidStateError') this.#database = null;
      return { ok: false, fault: faultOf(error) };
    }
  }

  async #open(): Promise<IDBPDatabase<Schema>> {
    try {
      const database = await openDB<Schema>(DATABASE, DATABASE_VERSION, {
        upgrade: (fresh) => {
          fresh.createObjectStore('designs', { keyPath: 'id' });
          fresh.createObjectStore('states', { keyPath: ['id', 'seq'] });
          fresh.createObjectStore('aside');
        },
        // A newer Kerfweave in another tab waits for this one to let go.
        blocking: (_, __, event) => {
          (event.target as IDBDatabase).close();
          this.#database = null;
        },
        terminated: () => {
          this.#database = null;
        },
      });
      return database;
    } catch (error) {
      this.#database = null;
      if (error instanceof DOMException && error.name === 'VersionError') throw error;
      throw new BlockedError(error);
    }
  }
}

class TakenError extends Error {}

/** The database could not be opened at all. */
class BlockedError extends Error {
  constructor(cause: unknown) {
    super(cause instanceof Error ? cause.message : String(cause), { cause });
  }
}

function faultOf(error: unknown): KeepFault {
  const name = error instanceof DOMException ? error.name : '';
  const cause = error instanceof BlockedError && error.cause instanceof DOMException ? error.cause.name : '';
  if (name === 'QuotaExceededError' || cause === 'QuotaExceededError')
    return { code: 'full', reason: 'the storage of this browser is full' };
  if (error instanceof TakenError) return { code: 'taken', reason: 'the design was changed in another tab' };
  if (name === 'VersionError')
    return { code: 'newer', reason: 'a newer Kerfweave has used the storage of this browser' };
  if (error instanceof BlockedError)
    return {
      code: 'blocked',
      reason: `this browser does not let the page store anything (${error.message})`,
    };
  return { code: 'failed', reason: error instanceof Error ? error.message : String(error) };
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

async function found(
  database: IDBPDatabase<Schema>,
  id: string,
): Promise<{ header: unknown; records: unknown[] }> {
  const transaction = database.transaction(['designs', 'states'], 'readonly');
  const header: unknown = await transaction.objectStore('designs').get(id);
  const records: unknown[] = await transaction.objectStore('states').getAll(all(id));
  return { header, records };
}

/** The timeline in the records of a design: the present, and as much on both sides of it as can be read. */
export function readBack(headerRecord: unknown, records: readonly unknown[]): ReadBack {
  const header = headerFrom(headerRecord);
  if (!header && records.length === 0) return { state: 'none' };
  if (!header) return { state: 'damaged', header, reason: 'its record is no record of a design' };
  if (header.layout > LAYOUT)
    return {
      state: 'damaged',
      header,
      reason: 'it was kept by a newer Kerfweave; update this one to open it',
    };
  const check = workChecker();
  const states = records.map((record) => {
    const { seq, label, work, seal } = (record ?? {}) as Record<string, unknown>;
    // The present is always checked in full.
    const sealed = seq !== header.at && typeof seal === 'string' && seal === sealOf(work as KeptWork);
    const result: WorkCheck = sealed ? { ok: true, work: work as KeptWork } : check(work);
    return { seq: seq as number, label: typeof label === 'string' ? label : 'edit', result };
  });
  const present = states.findIndex(({ seq }) => seq === header.at);
  const { result } = states[present] ?? {};
  if (result && !result.ok && result.newer) return { state: 'newer', header, newer: result.newer };
  // The state nearest to the present that can be read; before it rather than after it.
  const from = present >= 0 ? present : states.length - 1;
  const before = states.findLastIndex((state, i) => i <= from && state.result.ok);
  const at = before >= 0 ? before : states.findIndex((state) => state.result.ok);
  if (at < 0) {
    const reason = result && !result.ok ? result.reason : 'its states are missing';
    return { state: 'damaged', header, reason };
  }
  let first = at;
  while (first > 0 && states[first - 1].result.ok && states[first - 1].seq === states[first].seq - 1) first--;
  let last = at;
  while (states[last + 1]?.result.ok && states[last + 1].seq === states[last].seq + 1) last++;
  const good = states.slice(first, last + 1);
  const lost =
    at !== present
      ? `the last state could not be read (${result && !result.ok ? result.reason : 'it is missing'})`
      : good.length < Math.max(states.length, header.count)
        ? 'a part of its undo history could not be read'
        : null;
  return {
    state: 'good',
    header,
    timeline: {
      states: good.map(({ label, result: read }, i) => ({
        label: i === 0 ? null : label,
        work: (read as Extract<typeof read, { ok: true }>).work,
      })),
      at: at - first,
    },
    seqs: good.map(({ seq }) => seq),
    lost,
  };
}
