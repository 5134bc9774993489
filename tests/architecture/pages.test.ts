/** Pages that are named are there: relative links of every page, and pages of docs that the code refers to. */
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { posix } from 'node:path';
import { expect, test } from 'vitest';

const files = execFileSync('git', ['ls-files', '-z', '--cached', '--others', '--exclude-standard'], {
  encoding: 'utf8',
})
  .split('\0')
  .filter((path) => /\.(md|tsx?|json)$/.test(path) && path !== 'package-lock.json' && existsSync(path));

/** Paths from the repository's top that a file names. */
function pagesNamedIn(path: string, text: string): string[] {
  const mentions = [...text.matchAll(/\bdocs\/[\w/-]+\.(?:md|png)/g)].map(([name]) => name);
  if (!path.endsWith('.md')) return mentions;
  const links = [...text.matchAll(/\]\((?![a-z]+:|#)([^)#\s]+)/g)].map(([, target]) =>
    posix.normalize(posix.join(posix.dirname(path), target)),
  );
  return [...mentions, ...links];
}

const named = files.flatMap((path) =>
  pagesNamedIn(path, readFileSync(path, 'utf8')).map((page) => ({ path, page })),
);

test('every page that is named exists', () => {
  expect(named.length).toBeGreaterThan(30);
  const missing = named
    .filter(({ page }) => !existsSync(page))
    .map(({ path, page }) => `${page} (in ${path})`);
  expect([...new Set(missing)]).toEqual([]);
});

test('a page of docs that nothing leads to is found by nobody', () => {
  const reached = new Set(named.map(({ page }) => page));
  const pages = files.filter((path) => /^docs\/[^/]+\.md$/.test(path));
  expect(pages.length).toBeGreaterThan(2);
  expect(pages.filter((page) => !reached.has(page))).toEqual([]);
});

test('links and mentions are found', () => {
  const text =
    'See [the changes](../CHANGELOG.md#0-1), [elsewhere](https://example.org/a.md) and docs/report.md.';
  expect(pagesNamedIn('notes/a.md', text)).toEqual(['docs/report.md', 'CHANGELOG.md']);
  expect(pagesNamedIn('src/a.ts', text)).toEqual(['docs/report.md']);
});
