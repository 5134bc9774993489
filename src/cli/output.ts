/**
 * Writing a file so that it is either there whole or not touched at all: the bytes go to a new file in the
 * same folder, are flushed to the disk, and take the place of an existing file in one step.
 */
import { randomUUID } from 'node:crypto';
import {
  chmodSync,
  closeSync,
  existsSync,
  fsyncSync,
  openSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';

/**
 * Writes the bytes to `path`. Returns null when the file is complete, else one line that says why not; then
 * an existing file is as it was and nothing is left behind. A device or a pipe is written to directly.
 */
export function writeAtomically(path: string, bytes: Uint8Array): string | null {
  let scratch: string | null = null;
  try {
    const present = existsSync(path) ? statSync(path) : null;
    if (present?.isDirectory()) return `cannot write ${path}: it is a folder`;
    if (present && !present.isFile()) {
      writeWhole(openSync(path, 'w'), bytes, false);
      return null;
    }
    // A link stays a link: the file it points to is the one to replace.
    const target = present ? realpathSync(path) : path;
    if (present) closeSync(openSync(target, 'r+'));
    const name = join(dirname(target), `.${basename(target).slice(0, 100)}.${randomUUID().slice(0, 8)}.part`);
    const file = openSync(name, 'wx', 0o666);
    scratch = name;
    writeWhole(file, bytes, true);
    if (present) chmodSync(name, present.mode & 0o777);
    renameSync(name, target);
    return null;
  } catch (error) {
    if (scratch !== null) rmSync(scratch, { force: true });
    return `cannot write ${path}: ${reason(error)}`;
  }
}

function writeWhole(file: number, bytes: Uint8Array, flush: boolean) {
  try {
    for (let written = 0; written < bytes.length;)
      written += writeSync(file, bytes, written, bytes.length - written);
    if (flush) fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such folder',
  ENOTDIR: 'the folder in its path is a file',
  EACCES: 'permission denied',
  EPERM: 'permission denied',
  EROFS: 'the disk is read-only',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk quota is used up',
  EFBIG: 'the file would be larger than allowed',
  ENAMETOOLONG: 'the name is too long',
};

function reason(error: unknown): string {
  if (error instanceof Error && 'code' in error && typeof error.code === 'string')
    return REASONS[error.code] ?? `${error.code.toLowerCase()}, ${error.message.split('\n')[0]}`;
  throw error;
}
