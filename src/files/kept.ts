/**
 * What the browser's database holds of a design: a line of states that undo and redo walk along, and which of
 * them is the present. What is read back is checked as a file is, because disks fail and versions change.
 */
import type { Design } from '../design/document.ts';
import { faultLine } from '../design/faults.ts';
import { MAX_NAME_CHARACTERS } from '../design/limits.ts';
import { CURRENT_VERSION } from '../design/migrations.ts';
import { checkDesign, type NewerFile } from '../design/parse.ts';
import { withoutTurns } from '../design/plainText.ts';
import { crc32 } from './crc32.ts';

export interface KeptVariant {
  readonly id: string;
  readonly name: string;
  readonly design: Design;
}

/** Every variant of a design, and which one is edited. */
export interface KeptWork {
  readonly variants: readonly KeptVariant[];
  readonly active: number;
}

export interface KeptState {
  /** What the change that led here did; null for the first state. */
  readonly label: string | null;
  readonly work: KeptWork;
}

/** `states` from the oldest that can be undone to, to the newest that can be redone to. */
export interface Timeline {
  readonly states: readonly KeptState[];
  /** Index of the present. */
  readonly at: number;
}

/** Where a design came from. `beside`: a copy of one that another tab had open. */
export type Origin = 'starter' | 'empty' | 'beside' | 'file' | 'link' | 'copy';

const ORIGINS: readonly string[] = ['starter', 'empty', 'beside', 'file', 'link', 'copy'] satisfies Origin[];

/** A design's own record; its states stand in records of their own. */
export interface KeptHeader {
  readonly id: string;
  /** Layout of these records; a later Kerfweave may write a higher one. */
  readonly layout: number;
  readonly name: string;
  readonly origin: Origin;
  /** The link that it came by; the same link then opens the same design while it is untouched. */
  readonly link: string | null;
  readonly edited_ms: number;
  /** When it was deleted; null while it was not. */
  readonly removed_ms: number | null;
  /** Counts the writings, so that one tab notices another's. */
  readonly revision: number;
  /** Number of the first state's record, of how many there are, and of the present's. */
  readonly first: number;
  readonly count: number;
  readonly at: number;
}

export const LAYOUT = 1;

/** A header from whatever a record holds; what is not there or not sound is filled in, so that it can be listed. */
export function headerFrom(record: unknown): KeptHeader | null {
  if (typeof record !== 'object' || record === null) return null;
  const value = record as Record<keyof KeptHeader, unknown>;
  if (typeof value.id !== 'string') return null;
  const whole = (n: unknown, otherwise: number) => (Number.isSafeInteger(n) ? (n as number) : otherwise);
  return {
    id: value.id,
    layout: whole(value.layout, LAYOUT),
    name: typeof value.name === 'string' ? withoutTurns(value.name.slice(0, MAX_NAME_CHARACTERS)) : '',
    origin: ORIGINS.includes(value.origin as string) ? (value.origin as Origin) : 'copy',
    link: typeof value.link === 'string' ? value.link : null,
    edited_ms: whole(value.edited_ms, 0),
    removed_ms: typeof value.removed_ms === 'number' ? value.removed_ms : null,
    revision: whole(value.revision, 0),
    first: whole(value.first, 0),
    count: whole(value.count, 0),
    at: whole(value.at, 0),
  };
}

/** Opened from what is there anyway and never changed: nothing of the maker's is in it. */
export function isUntouched(header: Pick<KeptHeader, 'origin' | 'count'>): boolean {
  return header.count <= 1 && ['starter', 'empty', 'beside'].includes(header.origin);
}

/**
 * Put on a work that has been checked, when it is written. A history of a thousand states is read by its seals in
 * the time that checking a few of them takes; one that does not fit, or is of another version, is checked in full.
 */
export function sealOf(work: KeptWork): string {
  return `${CURRENT_VERSION} ${crc32(new TextEncoder().encode(JSON.stringify(work)))}`;
}

export type WorkCheck =
  | { readonly ok: true; readonly work: KeptWork }
  | { readonly ok: false; readonly reason: string; readonly newer?: NewerFile };

/** Checks stored works; designs that are alike are checked once and are one document afterwards. */
export function workChecker(): (value: unknown) => WorkCheck {
  const known = new Map<string, ReturnType<typeof checkDesign>>();
  const checked = (design: unknown) => {
    const text = JSON.stringify(design) ?? '';
    const before = known.get(text);
    if (before) return before;
    const result = checkDesign(design);
    known.set(text, result);
    return result;
  };
  return (value) => {
    if (typeof value !== 'object' || value === null) return { ok: false, reason: 'the record is no object' };
    const { variants, active } = value as { variants?: unknown; active?: unknown };
    if (!Array.isArray(variants) || variants.length === 0)
      return { ok: false, reason: 'the record has no variants' };
    const read: KeptVariant[] = [];
    for (const [i, variant] of (variants as unknown[]).entries()) {
      const { id, name, design } = (variant ?? {}) as Record<string, unknown>;
      const result = checked(design);
      if (!result.ok) {
        const fault = result.faults.map(faultLine)[0] ?? 'wrong';
        const reason = variants.length === 1 ? fault : `variant ${i + 1}: ${fault}`;
        return { ok: false, reason, ...(result.newer ? { newer: result.newer } : {}) };
      }
      read.push({
        id: typeof id === 'string' && id !== '' ? id : `v${i + 1}`,
        name:
          typeof name === 'string' ? withoutTurns(name.slice(0, MAX_NAME_CHARACTERS)) : `Variant ${i + 1}`,
        design: result.design,
      });
    }
    const index = Number.isInteger(active) ? (active as number) : 0;
    return { ok: true, work: { variants: read, active: Math.min(Math.max(index, 0), read.length - 1) } };
  };
}
