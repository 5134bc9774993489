/**
 * A short name for the state of a design, so that paper and file can be told to belong together: eight hexadecimal digits
 * that follow from all that decides what is cut and turned. By chance one in four billion pairs of states share them; two
 * that differ within four bytes of their file never do (what a CRC is for, crc32.ts).
 * Worked out without the browser's cryptography, which pages have only where they are served over a secure connection.
 */
import type { Design } from '../design/document.ts';
import { serializeDesign } from '../design/serialize.ts';
import { crc32 } from './crc32.ts';

/**
 * `3F9A-C21E`. Left out is what changes no cut: name, unit, notes, colours, finish, locks, ticks of the work, and what the
 * client is told. A file of an older version and the same file migrated have one fingerprint.
 */
export function fingerprintOf({ format, blank, sets, order, form, saw, made = {} }: Design): string {
  const cut: Design = {
    format,
    version: 1,
    name: '',
    unit: 'mm',
    blank,
    sets: sets.map((set) => ({ ...set, locked: undefined, notes: undefined })),
    order,
    form: form && { ...form, finish: undefined },
    saw,
    made: Object.keys(made).length > 0 ? made : undefined,
  };
  const digits = crc32(new TextEncoder().encode(serializeDesign(cut)))
    .toString(16)
    .toUpperCase()
    .padStart(8, '0');
  return `${digits.slice(0, 4)}-${digits.slice(4)}`;
}
