/** docs/report.md, "Messages", against the code: every message has its row in the table, with the levels that it can have. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { messagesOf } from '../../src/plan/messages.ts';
import { measuresOf } from '../../src/plan/measures.ts';
import { decorated } from '../fixtures/decorated.ts';
import { randomDesign } from '../fixtures/designs.ts';
import { SEED } from '../soak/counts.ts';

const PAGE = readFileSync('docs/report.md', 'utf8');
const TABLE = PAGE.slice(PAGE.indexOf('## Messages'));
const levels = new Map(
  Array.from(TABLE.matchAll(/^\| ((?:`[a-z-]+`(?:, )?)+) +\| ([a-z]+(?:, [a-z]+)?) +\|/gm)).flatMap(
    ([, codes, level]) => codes.split(', ').map((code) => [code.slice(1, -1), level.split(', ')] as const),
  ),
);

test('the table names the codes of the code, and no other', () => {
  const source = readFileSync('src/plan/messages.ts', 'utf8');
  const union = /export type MessageCode =([^;]+);/.exec(source)?.[1] ?? '';
  const codes = Array.from(union.matchAll(/'([a-z-]+)'/g), ([, code]) => code);
  expect(codes.length).toBeGreaterThan(15);
  expect([...levels.keys()].toSorted()).toEqual(codes.toSorted());
});

test('messages of random designs have the level that the table says', () => {
  const seen = new Set<string>();
  for (let n = 0; n < 60; n++) {
    const design = decorated(SEED + n, randomDesign(SEED + n));
    for (const { code, level } of messagesOf(design, measuresOf(design))) {
      seen.add(code);
      expect(levels.get(code), `${code} of random design ${SEED + n}`).toContain(level);
    }
  }
  expect(seen.size).toBeGreaterThan(12);
});
