/** `check` as it is called: the real command in a process of its own. */
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { fingerprintOf } from '../../src/files/fingerprint.ts';
import { cylinderForm, fourRings } from '../fixtures/designs.ts';
import { kerfweave, MAIN } from './kerfweave.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'kerfweave-check-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function file(name: string, content: unknown): string {
  const path = join(folder, name);
  const raw = typeof content === 'string' || content instanceof Uint8Array;
  writeFileSync(path, raw ? content : JSON.stringify(content));
  return path;
}

describe('check FILE', () => {
  it('says that a valid design is valid', async () => {
    // A cylinder of 30 mm lies well clear of the webs, which begin at 38.1 − 2.54 mm.
    const design = fourRings({ form: cylinderForm(203.2, 30) });
    const path = file('good.json', design);
    expect(await kerfweave('check', path)).toEqual({
      exit: 0,
      // How the fingerprint comes about: tests/files/fingerprint.test.ts; that the sheet bears it: tests/cli/sheet.test.ts.
      out: `valid: 1 set, 4 slots, 0 warnings\nfingerprint ${fingerprintOf(design)}\n`,
      errors: [],
    });
  });

  it('prints warnings and still exits 0', async () => {
    // 37 mm lies beyond 38.1 − 2.54 mm: every ring shows its web.
    const path = file('warned.json', fourRings({ form: cylinderForm(203.2, 37) }));
    const { exit, out, errors } = await kerfweave('check', path);
    expect([exit, errors]).toEqual([0, []]);
    const lines = out.split('\n');
    expect(lines[0]).toMatch(/^valid: 1 set, 4 slots, \d+ warnings$/);
    for (const slot of ['S1.1', 'S1.2', 'S1.3', 'S1.4'])
      expect(lines.filter((line) => line.startsWith(`warning ring-not-whole ${slot}: `))).toHaveLength(1);
  });

  it('prints one line per fault to standard error and exits 1', async () => {
    const path = file('bad.json', { ...fourRings({ set: { angle_deg: 95 } }), unit: 'furlong' });
    expect(await kerfweave('check', path)).toEqual({
      exit: 1,
      out: '',
      errors: ['unit: "furlong" is none of in, mm', 'sets[0].angle_deg: 95 is above 90'],
    });
  });

  it.each<[string, string | Uint8Array, string]>([
    ['empty', '', 'the file is empty'],
    ['binary', Uint8Array.of(0xff, 0x00, 0xd8, 0x80), 'the file is not text (UTF-8)'],
    ['deep', '['.repeat(100_000), 'nested more than 32 deep at line 1, column 33'],
    ['huge', ' '.repeat(3_000_000), 'the file is larger than 2 MB, the most a design may have'],
    ['newer', JSON.stringify({ ...fourRings(), version: 9999 }), 'version: 9999 is newer than '],
  ])('a file that is %s is refused in one line', async (name, content, line) => {
    const { exit, out, errors } = await kerfweave('check', file(`${name}.json`, content));
    expect([exit, out, errors.length]).toEqual([1, '', 1]);
    expect(errors[0].startsWith(line), errors[0]).toBe(true);
  });
});

describe('a wrong call', () => {
  it.each([
    [[], /^no command given: COMMAND FILE/],
    [['saw'], /^"saw" is no command; there are check/],
    [['constructor'], /^"constructor" is no command/],
    [['check'], /^check takes one design file: check FILE$/],
    [['check', 'a.json', 'b.json'], /^check takes one design file/],
    [['check', '--all'], /^check takes one design file/],
    [['check', join('no', 'such', 'file.json')], /^cannot read no.such.file\.json: there is no such file$/],
    [['check', '.'], /^cannot read \.: it is a folder$/],
  ])('%j exits 2 with one line', async (args, line) => {
    const { exit, out, errors } = await kerfweave(...args);
    expect([exit, out, errors.length]).toEqual([2, '', 1]);
    expect(errors[0]).toMatch(line);
  });
});

it('a reader that closes the pipe early ends the command quietly', async () => {
  const path = file('piped.json', fourRings());
  const child = spawn(process.execPath, ['--import', 'tsx', MAIN, 'check', path]);
  child.stdout.destroy();
  let errors = '';
  child.stderr.on('data', (chunk: Buffer) => (errors += chunk.toString()));
  const exit = await new Promise((resolve) => child.on('close', resolve));
  expect([exit, errors]).toEqual([0, '']);
});
