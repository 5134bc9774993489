/** What may lie in the repository: the top level, the size of files, and text that must not land in it. */
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { longChecks } from '../soak/checks.ts';

const LAYOUT = [
  'README.md DEVELOPERS.md CHANGELOG.md LICENSE package.json package-lock.json tsconfig.json vite.config.ts',
  'src tests assets docs',
].flatMap((line) => line.split(' '));

const BINARY = /\.(png|jpg|woff2?|ttf|glb|3mf|stl|ico|pdf)$/;

/** Tracked files and new ones that git does not ignore. */
const files = execFileSync('git', ['ls-files', '-z', '--cached', '--others', '--exclude-standard'], {
  encoding: 'utf8',
})
  .split('\0')
  .filter((path) => path !== '' && existsSync(path));

const texts = new Map(
  files.filter((path) => !BINARY.test(path)).map((path) => [path, readFileSync(path, 'utf8')]),
);

/** `path:line: text` of every line that matches, in files whose path matches `where`. */
function linesMatching(
  pattern: RegExp,
  where: RegExp,
  searched: ReadonlyMap<string, string> = texts,
): string[] {
  return [...searched]
    .filter(([path]) => where.test(path))
    .flatMap(([path, text]) =>
      text
        .split('\n')
        .map((line, i) => (pattern.test(line) ? `${path}:${i + 1}: ${line.trim().slice(0, 120)}` : ''))
        .filter((row) => row !== ''),
    );
}

// A letter of each word stands in brackets, so that this file does not match itself.
const MACHINE_PATH = /\/(w[o]rk|f[a]rm|t[m]p|r[o]ot|h[o]me)\/[a-z]/;
const REGISTRY = /regist[r]y\.|"resolve[d]":/;
const MARKERS = /\b(it|test|describe)\.(s[k]ip|o[n]ly|t[o]do)\b|expect[(]true[)]|T[O]DO|F[I]XME|X[X]X/;
const OTHER_WORDS =
  /\b(t[r]anscript|s[e]ed document|t[h]e seed|C[E]O|s[u]bagent|t[h]is session|h[e]lper agent)\b/i;

test('the walk reaches the repository', () => {
  expect(texts.size).toBeGreaterThan(80);
  expect(texts.has('src/blank/slots.ts')).toBe(true);
});

test('the top level holds nothing but the layout', () => {
  const top = new Set(files.map((path) => path.split('/')[0]));
  expect([...top].filter((entry) => !entry.startsWith('.') && !LAYOUT.includes(entry))).toEqual([]);
});

test('no path of a machine', () => {
  expect(linesMatching(MACHINE_PATH, /^(?!package-lock\.json$)/)).toEqual([]);
});

test('no address of a package registry', () => {
  expect(linesMatching(REGISTRY, /^(package-lock\.json|package\.json|\.npmrc)$/)).toEqual([]);
});

test('no skipped check and no leftover marker', () => {
  expect(linesMatching(MARKERS, /^(src|tests)\//)).toEqual([]);
});

test('no word that is not about the product', () => {
  expect(
    linesMatching(OTHER_WORDS, /^(src|tests|docs|assets)\/|^(README|DEVELOPERS|CHANGELOG)\.md$/),
  ).toEqual([]);
});

test('planted lines are found', () => {
  const joined = (text: string) => text.replaceAll('~', '');
  const planted = new Map([
    ['src/a.ts', joined(`load('/ho~me/someone');\n// FIX~ME later\n// The s~eed\n`)],
    ['package-lock.json', joined('  "resol~ved": "https:"')],
  ]);
  expect(linesMatching(MACHINE_PATH, /./, planted)).toEqual([expect.stringContaining('src/a.ts:1:')]);
  expect(linesMatching(MARKERS, /./, planted)).toEqual([expect.stringContaining('src/a.ts:2:')]);
  expect(linesMatching(OTHER_WORDS, /./, planted)).toEqual([expect.stringContaining('src/a.ts:3:')]);
  expect(linesMatching(REGISTRY, /lock/, planted)).toHaveLength(1);
});

test('no source file is longer than 450 lines', () => {
  const long = [...texts]
    .filter(([path]) => /^src\/.*\.(tsx?|css)$/.test(path))
    .map(([path, text]) => [path, text.split('\n').length] as const)
    .filter(([, lines]) => lines > 450);
  expect(long).toEqual([]);
});

test('every source file says at its top what it is for', () => {
  const silent = [...texts]
    .filter(([path]) => /^src\/.*\.tsx?$/.test(path))
    .filter(([, text]) => !/^(\/\/\/ [^\n]*\n)?\/\*\*? /.test(text) && !text.startsWith('/**\n'))
    .map(([path]) => path);
  expect(silent).toEqual([]);
});

test('long checks have names of their own, and docs/reliability.md lists each with its counts', () => {
  const checks = longChecks();
  expect(checks.length).toBeGreaterThan(10);
  const listed = [
    ...(texts.get('docs/reliability.md') ?? '').matchAll(
      /^\| ([a-z0-9-]+) +\|[^|]*\| +([\d,]+) +\| +([\d,]+) +\|/gm,
    ),
  ].map(([, name, slice, full]) => `${name}: ${slice} of ${full}`.replaceAll(',', ''));
  expect(listed.sort()).toEqual(checks.map(({ name, slice, full }) => `${name}: ${slice} of ${full}`).sort());
});
