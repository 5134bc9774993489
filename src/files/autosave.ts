/**
 * Keeps the open work in this browser's own database, so that a reload or a crash loses nothing. What is read
 * back is checked like any file; a record that cannot be read is set aside, never deleted.
 */
import { createStore, get, set, type UseStore } from 'idb-keyval';
import { checkDesign } from '../design/parse.ts';
import type { Design } from '../design/document.ts';

/** What is kept: every variant of the open design, and which one was being edited. */
export interface KeptWork {
  readonly variants: readonly { readonly id: string; readonly name: string; readonly design: Design }[];
  readonly active: number;
}

export type Restored =
  | { readonly state: 'none' }
  | { readonly state: 'restored'; readonly work: KeptWork }
  | { readonly state: 'unreadable'; readonly reason: string };

export type KeepResult = { readonly ok: true } | { readonly ok: false; readonly reason: string };

const RECORD = 'open-work';
const SET_ASIDE = 'open-work-set-aside';

let opened: UseStore | null = null;

function database(): UseStore {
  opened ??= createStore('kerfweave', 'designs');
  return opened;
}

/** Writes the work; resolves when the storage transaction has completed. Never rejects. */
export async function keepWork(work: KeptWork): Promise<KeepResult> {
  try {
    await set(RECORD, { version: 1, ...work }, database());
    return { ok: true };
  } catch (error) {
    return { ok: false, reason: reasonOf(error) };
  }
}

/** Reads the kept work. Never rejects; storage that cannot be opened reads as unreadable with its reason. */
export async function restoreWork(): Promise<Restored> {
  let record: unknown;
  try {
    record = await get(RECORD, database());
  } catch (error) {
    return { state: 'unreadable', reason: reasonOf(error) };
  }
  if (record === undefined) return { state: 'none' };
  const work = checkedWork(record);
  if (typeof work !== 'string') return { state: 'restored', work };
  try {
    await set(SET_ASIDE, record, database());
  } catch (error) {
    return { state: 'unreadable', reason: `${work}; ${reasonOf(error)}` };
  }
  return { state: 'unreadable', reason: work };
}

/** The work in a stored record, or what is wrong with it. */
export function checkedWork(record: unknown): KeptWork | string {
  if (typeof record !== 'object' || record === null) return 'the record is no object';
  const { variants, active } = record as { variants?: unknown; active?: unknown };
  if (!Array.isArray(variants) || variants.length === 0) return 'the record has no variants';
  const checked: { id: string; name: string; design: Design }[] = [];
  for (const [i, variant] of variants.entries()) {
    const { id, name, design } = (variant ?? {}) as { id?: unknown; name?: unknown; design?: unknown };
    const result = checkDesign(design);
    if (!result.ok) return `variants[${i}].design: ${result.faults[0]?.message ?? 'wrong'}`;
    checked.push({
      id: typeof id === 'string' ? id : `v${i + 1}`,
      name: typeof name === 'string' ? name : String(i + 1),
      design: result.design,
    });
  }
  const index = typeof active === 'number' && Number.isInteger(active) ? active : 0;
  return { variants: checked, active: Math.min(Math.max(index, 0), checked.length - 1) };
}

function reasonOf(error: unknown): string {
  if (error instanceof DOMException && error.name === 'QuotaExceededError')
    return 'the storage of this browser is full';
  return error instanceof Error ? error.message : String(error);
}
