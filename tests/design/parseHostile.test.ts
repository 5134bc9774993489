/**
 * Reading what is no design: other formats, broken and cut-off text, and files made to take forever. Time is that of
 * the processor (cpu.ts).
 */
import { describe, expect, it } from 'vitest';
import { faultLine } from '../../src/design/faults.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { serializeDesign } from '../../src/design/serialize.ts';
import { fourRings } from '../fixtures/designs.ts';
import { cpuMilliseconds } from './cpu.ts';
import { SHORTEST, linesOf } from './shortest.ts';

describe('what is no design at all', () => {
  it.each([
    ['nothing', '', 'the file is empty'],
    ['blanks', ' \n\t ', 'the file is empty'],
    ['a byte order mark alone', '\ufeff', 'the file is empty'],
    ['a list', '[]', 'a design is one object, not a list'],
    ['null', 'null', 'a design is one object, not null'],
    ['a number', '1e999', 'a design is one object, not Infinity'],
    [
      'another format',
      '{"format":"kerfweave-report"}',
      'format: "kerfweave-report" is not "kerfweave-design"',
    ],
    ['no format', '{}', 'format: is missing'],
    ['words', 'hello', 'not JSON: unexpected "h" at line 1, column 1'],
    ['a trailing comma', '{\n "a": 1,\n}', 'not JSON: unexpected "}" at line 3, column 1'],
    ['single quotes', "{'a': 1}", 'not JSON: unexpected "\'" at line 1, column 2'],
    ['a comment', '{} // end', 'not JSON: unexpected "/" at line 1, column 4'],
    ['a line break in a text', '{"a":"b\nc"}', 'not JSON: unexpected U+000A at line 1, column 8'],
    ['a wrong escape', '{"a":"\\x"}', 'not JSON: unexpected "x" at line 1, column 8'],
    ['a number with a leading zero', '{"a":01}', 'not JSON: unexpected "1" at line 1, column 7'],
    ['NaN', '{"a":NaN}', 'not JSON: unexpected "N" at line 1, column 6'],
    ['mismatched brackets', '{"a":[1}', 'not JSON: unexpected "}" at line 1, column 8'],
    ['a zero byte', '\u0000', 'not JSON: unexpected U+0000 at line 1, column 1'],
  ])('%s', (_, text, line) => {
    expect(linesOf(text)).toEqual([line]);
  });

  it.each([
    ['binary', Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a), 'the file is not text (UTF-8)'],
    [
      'Latin-1',
      new Uint8Array(Buffer.from(SHORTEST.replace('Four', 'F\u00fcnf'), 'latin1')),
      'the file is not text (UTF-8)',
    ],
    [
      'UTF-16',
      new Uint8Array(Buffer.from(`\ufeff${SHORTEST}`, 'utf16le')),
      'the file is UTF-16, not UTF-8: save it as UTF-8',
    ],
    [
      'UTF-16 unmarked',
      new Uint8Array(Buffer.from(SHORTEST, 'utf16le')),
      'the file is UTF-16, not UTF-8: save it as UTF-8',
    ],
  ])('%s bytes', (_, bytes, line) => {
    expect(linesOf(bytes)).toEqual([line]);
  });

  it('a file cut off anywhere says so', () => {
    const text = serializeDesign(fourRings()).trimEnd();
    for (let length = 1; length < text.length; length++) {
      const lines = linesOf(text.slice(0, length));
      expect(lines, text.slice(0, length)).toHaveLength(1);
      expect(lines[0]).toMatch(
        /^the file ends in the middle of the design \(line \d+, column \d+\): it looks cut off$/,
      );
    }
  });
});

describe('hostile files are refused within a second', () => {
  const big = 1_990_000;
  it.each<[string, () => string | Uint8Array]>([
    ['100,000 lists deep', () => '['.repeat(100_000) + ']'.repeat(100_000)],
    ['100,000 objects deep', () => `${'{"a":'.repeat(100_000)}1${'}'.repeat(100_000)}`],
    ['deep inside a design', () => SHORTEST.replace('45', '['.repeat(100_000) + ']'.repeat(100_000))],
    ['a number of two million digits', () => '9'.repeat(big)],
    ['a text of two million characters', () => `"${'a'.repeat(big)}"`],
    ['two million backslashes', () => `"${'\\'.repeat(big)}"`],
    ['a million zeros', () => `[${'0,'.repeat(big / 2)}0]`],
    [
      '50,000 fields of a later version',
      () => {
        const layers = '{"grain":0},'.repeat(50_000);
        return SHORTEST.replace('"version": 4', '"version": 1').replace(
          '"layers": [',
          `"layers": [${layers}`,
        );
      },
    ],
    ['600,000 empty sets', () => SHORTEST.replace('"sets": [', `"sets": [${'{},'.repeat(600_000)}`)],
    [
      'every entry of every list wrong',
      () => {
        const set = `{"fence_azimuths_deg": [${'"",'.repeat(199)}0], "strip": {"layers": [${'{},'.repeat(19)}{}]}},`;
        return SHORTEST.replace('"sets": [', `"sets": [${set.repeat(199)}`);
      },
    ],
    ['a key given 280,000 times', () => `{${'"a":1,'.repeat(280_000)}"a":1}`],
    ['150,000 keys', () => `{${Array.from({ length: 150_000 }, (_, n) => `"k${n}":1`).join(',')}}`],
    ['100 MB', () => new Uint8Array(100_000_000).fill(0x20)],
  ])('%s', (_, make) => {
    const input = make();
    const begun = cpuMilliseconds();
    const result = parseDesign(input);
    // The one promise about time: "refused within one second of being read".
    expect(cpuMilliseconds() - begun).toBeLessThan(1000);
    expect(result.ok).toBe(false);
    if (!result.ok) for (const fault of result.faults) expect(faultLine(fault)).not.toMatch(/\n/);
  });
});
