/** Reading the design that a command is called with. */
import { closeSync, openSync, readSync } from 'node:fs';
import { faultLine } from '../design/faults.ts';
import { MAX_FILE_BYTES } from '../design/limits.ts';
import { parseDesign } from '../design/parse.ts';
import type { Design } from '../design/document.ts';

export type DesignInput =
  | { readonly ok: true; readonly design: Design }
  /** `lines` for standard error; `exit` 1 when the design is wrong, 2 when the file cannot be read. */
  | { readonly ok: false; readonly exit: 1 | 2; readonly lines: readonly string[] };

/** Reads and checks a design file. At most one byte more than a design may have is read, whatever the path names. */
export function readDesignFile(path: string): DesignInput {
  let bytes: Uint8Array;
  try {
    bytes = readAtMost(path, MAX_FILE_BYTES + 1);
  } catch (error) {
    return { ok: false, exit: 2, lines: [`cannot read ${path}: ${reasonOf(error)}`] };
  }
  const result = parseDesign(bytes);
  if (result.ok) return { ok: true, design: result.design };
  return { ok: false, exit: 1, lines: result.faults.map(faultLine) };
}

/**
 * The design of a command that takes one file and nothing else, or the exit code after every reason has gone to
 * standard error.
 */
export function onlyDesign(args: readonly string[], usage: string): Design | number {
  const [path, ...more] = args;
  if (path === undefined || path.startsWith('-') || more.length > 0) {
    console.error(usage);
    return 2;
  }
  const input = readDesignFile(path);
  if (input.ok) return input.design;
  for (const line of input.lines) console.error(line);
  return input.exit;
}

function readAtMost(path: string, most: number): Uint8Array {
  const file = openSync(path, 'r');
  try {
    const buffer = new Uint8Array(most);
    let length = 0;
    while (length < most) {
      const read = readSync(file, buffer, length, most - length, null);
      if (read === 0) break;
      length += read;
    }
    return buffer.subarray(0, length);
  } finally {
    closeSync(file);
  }
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  ENOTDIR: 'a folder in its path is a file',
  EISDIR: 'it is a folder',
  EACCES: 'permission denied',
  EPERM: 'permission denied',
  ENAMETOOLONG: 'the name is too long',
};

function reasonOf(error: unknown): string {
  if (!(error instanceof Error) || !('code' in error)) throw error;
  return REASONS[String(error.code)] ?? String(error.code).toLowerCase();
}
