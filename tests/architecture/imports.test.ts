/** The import arrows of the house hold in every file of src, and the check that says so can fail. */
import { readdirSync, readFileSync } from 'node:fs';
import { sep } from 'node:path';
import { expect, test } from 'vitest';
import { CLOSED_TO, importsOf, targetOf, violations, type Import } from './imports.ts';

const sources = new Map<string, readonly Import[]>(
  readdirSync('src', { recursive: true, encoding: 'utf8' })
    .map((path) => path.split(sep).join('/'))
    .filter((path) => /\.tsx?$/.test(path))
    .map((path) => [path, importsOf(path, readFileSync(`src/${path}`, 'utf8'))]),
);

test('the walk reaches the whole of src', () => {
  expect(sources.size).toBeGreaterThan(40);
  const imports = [...sources.values()].flat();
  expect(imports.length).toBeGreaterThan(2 * sources.size);
  expect(imports.some(({ lazy }) => lazy)).toBe(true);
  const folders = new Set([...sources.keys()].map((path) => path.split('/')[0]));
  for (const folder of ['geometry', 'blank', 'plan', 'meshes', 'stage', 'panels', 'files', 'app', 'cli'])
    expect(folders).toContain(folder);
});

test('every relative import names a file that is there', () => {
  const missing = [...sources].flatMap(([path, imports]) =>
    imports
      .filter(({ specifier }) => /^\..*\.tsx?(\?|$)/.test(specifier))
      .map(({ specifier }) => targetOf(path, specifier))
      .filter((target) => !sources.has(target))
      .map((target) => `${path}: ${target}`),
  );
  expect(missing).toEqual([]);
});

test('no import goes against the arrows', () => {
  expect([...sources].flatMap(([path, imports]) => violations(path, imports))).toEqual([]);
});

test('the command line reaches neither React nor the stage, however far the imports go', () => {
  const reached = new Map<string, string>([['cli/main.ts', '']]);
  const faults: string[] = [];
  for (const [path, trail] of reached) {
    for (const { specifier } of sources.get(path) ?? []) {
      const to = `${trail} → ${path}`;
      if (!specifier.startsWith('.')) {
        const [, react] = CLOSED_TO.cli;
        if (react.test(specifier)) faults.push(`${to} → ${specifier}`);
        continue;
      }
      const target = targetOf(path, specifier);
      if (/^(stage|panels|app)\//.test(target)) faults.push(`${to} → ${target}`);
      else if (!reached.has(target)) reached.set(target, to);
    }
  }
  expect(reached.size).toBeGreaterThan(20);
  expect(faults).toEqual([]);
});

test.each([
  ['geometry/plane.ts', `import { x } from '../blank/slots.ts';`],
  ['geometry/plane.ts', `import type { Design } from '../design/document.ts';`],
  ['timber/species.ts', `export * from '../geometry/angle.ts';`],
  ['blank/slots.ts', `const load = () => import('../plan/report.ts');`],
  ['blank/slots.ts', `type Report = import('../plan/report.ts').Report;`],
  ['plan/report.ts', `import { Vector3 } from 'three';`],
  ['panels/RingTable.tsx', `import { Canvas } from '@react-three/fiber'; export const a = <Canvas />;`],
  ['panels/RingTable.tsx', `import { Vector3 } from 'three/webgpu';`],
  ['panels/RingTable.tsx', `const w = new Worker(new URL('../meshes/worker.ts', import.meta.url));`],
  ['files/picture.ts', `import { Stage } from '../stage/Stage.tsx';`],
  ['cli/main.ts', `import { useState } from 'react';`],
  ['cli/main.ts', `const stage = await import('../stage/Stage.tsx');`],
  ['app/App.tsx', `import { designs } from '../../tests/fixtures/designs.ts';`],
  ['app/App.tsx', `const designs = import.meta.glob('../../tests/fixtures/*.json');`],
  ['elsewhere/a.ts', `import { x } from '../geometry/angle.ts';`],
])('a planted violation in %s is found: %s', (path, text) => {
  const imports = importsOf(path, text);
  expect(imports).toHaveLength(1);
  expect(violations(path, imports)).toHaveLength(1);
});

test.each([
  ['files/picture.ts', `const stage = await import('../stage/Stage.tsx');`],
  ['stage/Stage.tsx', `const w = new Worker(new URL('../meshes/worker.ts', import.meta.url));`],
  ['app/starter.ts', `import starter from '../../assets/starters/candle-stick.json';`],
  [
    'app/starters.ts',
    `const designs = import.meta.glob<string>('../../assets/designs/*.json', { query: '?raw' });`,
  ],
  ['main.tsx', `import './app/theme.css';`],
])('an import along the arrows passes in %s: %s', (path, text) => {
  const imports = importsOf(path, text);
  expect(imports).toHaveLength(1);
  expect(violations(path, imports)).toEqual([]);
});
