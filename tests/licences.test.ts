/** The notice of licences against npm's own record of what is installed for the app (package-lock.json). */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { licenceNotice } from '../src/licences.ts';

interface Locked {
  readonly version: string;
  readonly license?: string;
  readonly dev?: boolean;
  readonly optional?: boolean;
  readonly peer?: boolean;
}

const notice = licenceNotice(process.cwd());
const entries = notice.split(`\n\n${'-'.repeat(80)}\n\n`);

const { packages } = JSON.parse(readFileSync('package-lock.json', 'utf8')) as {
  readonly packages: Readonly<Record<string, Locked>>;
};

test('every package that is installed for use stands in the notice with its version, licence, address and text', () => {
  const installed = Object.entries(packages)
    .filter(([path, { dev, optional }]) => path !== '' && !dev && !optional)
    .map(([path, locked]) => ({ name: path.slice(path.lastIndexOf('node_modules/') + 13), ...locked }))
    // Types alone, of which nothing is shipped.
    .filter(({ name }) => !name.startsWith('@types/') && name !== 'csstype');
  expect(installed.length).toBeGreaterThan(20);
  for (const { name, version, license } of installed) {
    const entry = entries.find((text) => text.startsWith(`${name} ${version} (${license})\n\nhttps://`));
    expect(entry, `${name} ${version} (${license})`).toBeDefined();
    expect(entry?.split('\n')[2], name).toMatch(/^https:\/\/[a-z.]+\.[a-z]+\/[\w.-]+\/[\w.-]+(?<!\.git)$/);
    expect(entry?.length, name).toBeGreaterThan(600);
  }
  // Our own licence and the sentence about the others stand first.
  expect(entries).toHaveLength(installed.length + 2);
});

test.each([
  ['mediabunny', 'Mozilla Public License Version 2.0'],
  ['comlink', 'Apache License'],
  ['@fontsource-variable/archivo', 'SIL OPEN FONT LICENSE Version 1.1'],
  ['@expo-google-fonts/archivo', 'SIL OPEN FONT LICENSE Version 1.1'],
  ['dejavu-fonts-ttf', 'Bitstream Vera'],
  ['fontkit', 'Permission is hereby granted'],
])('%s comes with the words that its licence asks to be kept: %s', (name, words) => {
  const entry = entries.find((text) => text.startsWith(`${name} `));
  expect(entry?.replace(/\s+/g, ' ')).toContain(words);
});
