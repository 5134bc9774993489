/**
 * What a kind of cut decides stands in records and switches over all kinds, so that the compiler finds every place when
 * there is another (DEVELOPERS.md, "How to add a kind of cut"). A question for one kind would give all others one answer.
 */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { CUT_KINDS } from '../../src/design/document.ts';

const kinds = CUT_KINDS.join('|');
const ASKED = new RegExp(
  [
    `\\bcut\\)? *[!=]==? *'(${kinds})'`,
    `'(${kinds})' *[!=]==? *[\\w.]*\\bcut\\b`,
    `!?\\w*[sS]etup\\.table\\)? *[?&]`,
  ].join('|'),
);

/** Columns of a table that a cut of another kind leaves empty. */
const EMPTY_CELLS = /^src\/files\/csv\.ts: .*cellOf/;

function questionsIn(path: string, text: string): string[] {
  return text
    .split('\n')
    .filter((line) => ASKED.test(line))
    .map((line) => `${path}: ${line.trim()}`)
    .filter((line) => !EMPTY_CELLS.test(line));
}

test('no source asks for one kind of cut', () => {
  const paths = execFileSync('git', ['ls-files', '-z', '--cached', '--others', '--exclude-standard', 'src'], {
    encoding: 'utf8',
  })
    .split('\0')
    .filter((path) => /\.tsx?$/.test(path));
  expect(paths.length).toBeGreaterThan(200);
  expect(paths.flatMap((path) => questionsIn(path, readFileSync(path, 'utf8')))).toEqual([]);
});

test.each([
  "if (slot.cut === 'table') return null;",
  "setups.filter(({ cut }) => cut !== 'fence')",
  "const place = 'table' === set.cut ? 90 : 0;",
  'const end = setup.table ? 1 : 2;',
])('a planted question is found: %s', (line) => {
  expect(questionsIn('src/a.ts', line)).toHaveLength(1);
});
