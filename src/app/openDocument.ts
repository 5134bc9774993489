/** The open design as a document of this browser: its id, where it came from, whether it is kept, what was refused. */
import type { Fault } from '../design/faults.ts';
import { MAX_NAME_CHARACTERS } from '../design/limits.ts';
import type { NewerFile } from '../design/parse.ts';
import type { Origin } from '../files/kept.ts';

/** The open design as the library of this browser knows it. */
export interface OpenDocument {
  readonly id: string;
  readonly origin: Origin;
  /** The link that it came by. */
  readonly link: string | null;
  /** A file of a later version: open for reading only, and saved as it came. */
  readonly newer: NewerFile | null;
}

/** Whether the last edit is in this browser's storage. */
export type KeptState =
  | { readonly state: 'kept' }
  | { readonly state: 'keeping' }
  | { readonly state: 'failed'; readonly reason: string };

export const NEWER_WORDS =
  'This design was made with a newer Kerfweave. It is open for reading only; saved to a file it keeps all that it holds. ' +
  'To change it, make an editable copy, by the button beside its name.';

export interface Refused {
  readonly fileName: string;
  readonly faults: readonly Fault[];
}

export function newDocument(origin: Origin, more: Partial<OpenDocument> = {}): OpenDocument {
  return { id: newId(), origin, link: null, newer: null, ...more };
}

/** A random id. (randomUUID is there only for pages that came over https or from this machine.) */
export function newId(): string {
  return Array.from(crypto.getRandomValues(new Uint8Array(12)), (byte) =>
    byte.toString(36).padStart(2, '0'),
  ).join('');
}

/** `Bowl, copy`, within the length that a name may have. */
export function copyName(name: string): string {
  return `${name.slice(0, MAX_NAME_CHARACTERS - 6).replace(/[\ud800-\udbff]$/, '')}, copy`;
}
