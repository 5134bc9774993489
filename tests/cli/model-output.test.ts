/** A file is written whole or not at all. */
import {
  chmodSync,
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { spawnSync } from 'node:child_process';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { writeAtomically } from '../../src/cli/output.ts';

const bytes = Uint8Array.from({ length: 100_000 }, (_, i) => i % 251);
let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'kerfweave-output-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe('writing a file', () => {
  it('writes a new file and leaves nothing beside it', () => {
    expect(writeAtomically(join(folder, 'a.stl'), bytes)).toBeNull();
    expect(Uint8Array.from(readFileSync(join(folder, 'a.stl')))).toEqual(bytes);
    expect(readdirSync(folder)).toEqual(['a.stl']);
  });

  it('replaces an existing file and keeps its permissions', () => {
    writeFileSync(join(folder, 'a.stl'), 'old');
    chmodSync(join(folder, 'a.stl'), 0o640);
    expect(writeAtomically(join(folder, 'a.stl'), bytes)).toBeNull();
    expect(statSync(join(folder, 'a.stl')).size).toBe(bytes.length);
    expect(statSync(join(folder, 'a.stl')).mode & 0o777).toBe(0o640);
  });

  it('writes through a link to the file it points to', () => {
    mkdirSync(join(folder, 'real'));
    writeFileSync(join(folder, 'real', 'a.stl'), 'old');
    symlinkSync(join('real', 'a.stl'), join(folder, 'a.stl'));
    expect(writeAtomically(join(folder, 'a.stl'), bytes)).toBeNull();
    expect(lstatSync(join(folder, 'a.stl')).isSymbolicLink()).toBe(true);
    expect(statSync(join(folder, 'real', 'a.stl')).size).toBe(bytes.length);
    expect(readdirSync(join(folder, 'real'))).toEqual(['a.stl']);
  });

  it('says in one line that a folder is missing, is a file, or is where the file should go', () => {
    writeFileSync(join(folder, 'file'), '');
    expect(writeAtomically(join(folder, 'no', 'a.stl'), bytes)).toMatch(
      /^cannot write .*: there is no such folder$/,
    );
    expect(writeAtomically(join(folder, 'file', 'a.stl'), bytes)).toMatch(/in its path is a file$/);
    expect(writeAtomically(folder, bytes)).toMatch(/it is a folder$/);
    expect(readdirSync(folder)).toEqual(['file']);
  });

  it('leaves an existing file as it was when the disk takes no more', () => {
    writeFileSync(join(folder, 'a.stl'), 'old');
    const script = [
      `import { writeAtomically } from ${JSON.stringify(join(process.cwd(), 'src/cli/output.ts'))};`,
      `console.log(writeAtomically(${JSON.stringify(join(folder, 'a.stl'))}, new Uint8Array(5_000_000)));`,
    ].join('\n');
    writeFileSync(join(folder, 'run.mts'), script);
    // The shell's limit on the size of a file stands in for a full disk: 1,000 blocks of 1,024 bytes.
    const run = spawnSync(
      'bash',
      ['-c', 'ulimit -f 1000; exec "$0" --import tsx "$1"', process.execPath, join(folder, 'run.mts')],
      { encoding: 'utf8' },
    );
    expect(run.stdout).toMatch(/^cannot write .*a\.stl: the file would be larger than allowed\n$/);
    expect(readFileSync(join(folder, 'a.stl'), 'utf8')).toBe('old');
    expect(readdirSync(folder).toSorted()).toEqual(['a.stl', 'run.mts']);
    // Where the system has a device that is always full, it is written to as it stands.
    if (existsSync('/dev/full')) {
      expect(writeAtomically('/dev/full', bytes)).toMatch(/the disk is full$/);
      expect(statSync('/dev/full').isCharacterDevice()).toBe(true);
    }
  });
});
