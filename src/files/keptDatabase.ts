/**
 * The browser's database of designs: opened when it is first needed, and again when the browser has closed it.
 * What goes wrong is a value with a reason that can be shown.
 */
import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { KeptHeader, KeptState } from './kept.ts';

/** Why something was not kept or not read. `full` and `blocked` are the browser's doing, `taken` another tab's. */
export interface KeepFault {
  readonly code: 'full' | 'blocked' | 'newer' | 'taken' | 'gone' | 'failed';
  readonly reason: string;
}

export type Outcome<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly fault: KeepFault };

export interface StateRecord extends KeptState {
  readonly seal: string;
  readonly id: string;
  readonly seq: number;
}

/** Records of a design that could not be read, as they were found. */
export interface Spoilt {
  readonly reason: string;
  readonly found: unknown;
}

export interface Schema extends DBSchema {
  designs: { key: string; value: KeptHeader };
  states: { key: [string, number]; value: StateRecord };
  /** By the design's id and the time. */
  aside: { key: [string, number]; value: Spoilt & { readonly at_ms: number } };
}

export type KeptDatabase = IDBPDatabase<Schema>;

const DATABASE = 'kerfweave-designs';
const DATABASE_VERSION = 1;
/**
 * A browser that has not opened the database by then, or not said what is in it, may never do so. The app goes on without
 * it until it answers, ms.
 */
export const SILENCE_MS = 4_000;
/** How often a thing is tried when the browser closes the database in its middle. */
const TRIES = 3;

export class DatabaseDoor {
  #opening: Promise<KeptDatabase> | null = null;
  #open: KeptDatabase | null = null;

  /**
   * Acts on the database; does it again where the browser had closed it, or closed it under way. Where the database is
   * open the act begins before this returns: what it asks for is on its way even if the page dies in the next line.
   * `patience_ms`: for how long the act may be without an answer; left out, for ever.
   */
  async attempt<T>(act: (database: KeptDatabase) => Promise<T>, patience_ms = Infinity): Promise<Outcome<T>> {
    for (let tries = 1; ; tries++) {
      try {
        const database = this.#open ?? (await answered((this.#opening ??= this.#enter()), SILENCE_MS));
        return { ok: true, value: await answered(act(database), patience_ms) };
      } catch (error) {
        if (!isClosed(error) || tries >= TRIES) return { ok: false, fault: faultOf(error) };
        if (error.name === 'InvalidStateError') this.#shut();
      }
    }
  }

  #shut(): void {
    this.#opening = null;
    this.#open = null;
  }

  async #enter(): Promise<KeptDatabase> {
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
          this.#shut();
        },
        terminated: () => this.#shut(),
      });
      this.#open = database;
      return database;
    } catch (error) {
      this.#shut();
      if (error instanceof DOMException && error.name === 'VersionError') throw error;
      throw new BlockedError(error);
    }
  }
}

/** Whether the browser had closed the database, or closed it under way. */
export function isClosed(error: unknown): error is DOMException {
  return error instanceof DOMException && ['InvalidStateError', 'AbortError'].includes(error.name);
}

/** What the browser was asked for; it may still answer after this has given up on it. */
async function answered<T>(asked: Promise<T>, patience_ms: number): Promise<T> {
  if (patience_ms === Infinity) return asked;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const silence = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new BlockedError(new Error('it does not answer'))), patience_ms);
  });
  try {
    return await Promise.race([asked, silence]);
  } finally {
    clearTimeout(timer);
  }
}

export class TakenError extends Error {}

/** Some of the records that a writing built on are not there any more. */
export class GoneError extends Error {}

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
  if (error instanceof GoneError)
    return { code: 'gone', reason: 'this browser has cleared what was stored of the design' };
  if (name === 'VersionError')
    return { code: 'newer', reason: 'a newer Kerfweave has used the storage of this browser' };
  if (error instanceof BlockedError)
    return {
      code: 'blocked',
      // Where there is no database at all, the engine's own sentence says nothing to a maker.
      reason: `this browser does not let the page store anything${error.cause instanceof TypeError ? '' : ` (${error.message})`}`,
    };
  return { code: 'failed', reason: error instanceof Error ? error.message : String(error) };
}
