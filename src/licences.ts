/**
 * A step of the build: one text file beside the app's page with the licences of all that it is made with, because most of
 * them ask to go wherever the code goes. It is made from the installed packages: what package.json lists under
 * `dependencies`, and what that depends on in turn. That is a little more than ends up in the build; nothing is missing
 * that only a worker, the service worker or a typeface brings, as it is in the bundler's own list (`build.license`).
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Plugin, ResolvedConfig } from 'vite';

/** Beside index.html; app/KeyTable.tsx links to it. */
export const NOTICE_FILE = 'licences.txt';

interface Manifest {
  readonly name: string;
  readonly version: string;
  readonly license?: string;
  readonly author?: string | { readonly name: string };
  readonly repository?: string | { readonly url: string };
  readonly dependencies?: Readonly<Record<string, string>>;
}

export function licenceFile(appRoot: string): Plugin {
  let config: ResolvedConfig;
  const top = dirname(appRoot);
  return {
    name: 'kerfweave-licences',
    configResolved: (resolved) => {
      config = resolved;
    },
    configureServer: ({ middlewares }) => {
      middlewares.use(`/${NOTICE_FILE}`, (_, response) => {
        response.setHeader('Content-Type', 'text/plain; charset=utf-8');
        response.end(licenceNotice(top));
      });
    },
    generateBundle() {
      if (join(config.root) !== join(appRoot)) return;
      this.emitFile({ type: 'asset', fileName: NOTICE_FILE, source: licenceNotice(top) });
    },
  };
}

/** The whole notice, for the repository at `top`: our own licence, then package by package in the order of names. */
export function licenceNotice(top: string): string {
  const own = readFileSync(join(top, 'LICENSE'), 'utf8').trim();
  const folders = new Set<string>();
  const visit = (folder: string): void => {
    for (const name of Object.keys(manifestOf(folder).dependencies ?? {})) {
      // Types are read by the compiler and shipped with nothing.
      if (name.startsWith('@types/')) continue;
      const found = installedFor(name, folder);
      if (folders.has(found)) continue;
      folders.add(found);
      visit(found);
    }
  };
  visit(top);
  const entries = [...folders]
    .map((folder) => ({ folder, manifest: manifestOf(folder) }))
    .sort((a, b) => (a.manifest.name < b.manifest.name ? -1 : 1))
    .map(({ folder, manifest }) => entryOf(folder, manifest, own));
  return `${[
    `Kerfweave\n\n${own}`,
    'It is made with the packages below, each as it is published and under the licence that stands with it. ' +
      'Their source is at the address given.',
    ...entries,
  ].join(`\n\n${'-'.repeat(80)}\n\n`)}\n`;
}

function entryOf(folder: string, manifest: Manifest, mit: string): string {
  const { name, version, license, author } = manifest;
  if (license === undefined) throw new Error(`the package ${name} names no licence`);
  const texts = readdirSync(folder)
    .filter((file) => /^(licen[cs]e|copying|notice)/i.test(file))
    .sort()
    .map((file) => readFileSync(join(folder, file), 'utf8').trim());
  if (texts.length === 0) {
    if (license !== 'MIT') throw new Error(`the package ${name} (${license}) has no licence file`);
    const by = typeof author === 'string' ? author : author?.name;
    // The terms are the same words for everybody; who grants them is not.
    const terms = mit.slice(mit.indexOf('Permission is hereby granted'));
    texts.push(`Copyright (c) ${by ?? `the contributors to ${name}`}\n\n${terms}`);
  }
  return [`${name} ${version} (${license})`, addressOf(manifest), ...texts].join('\n\n');
}

/** Where the source is: package.json gives it as an address of git's, by ssh or https, or as `owner/name` on GitHub. */
function addressOf({ name, repository }: Manifest): string {
  const url = typeof repository === 'string' ? repository : (repository?.url ?? '');
  const parts = /^(?:.*[/@])?([\w-]+\.[\w.-]+)[:/]([\w.-]+\/[\w.-]+?)(?:\.git)?$/.exec(url);
  if (parts) return `https://${parts[1]}/${parts[2]}`;
  const short = /^(?:github:)?([\w-]+\/[\w.-]+)$/.exec(url);
  if (!short) throw new Error(`the package ${name} says nowhere where its source is`);
  return `https://github.com/${short[1]}`;
}

/** The folder that `name` means where it is imported from `folder`: nearest node_modules first. */
function installedFor(name: string, folder: string): string {
  for (let at = folder; ; at = dirname(at)) {
    const candidate = join(at, 'node_modules', name);
    if (existsSync(candidate)) return candidate;
    if (at === dirname(at)) throw new Error(`the package ${name} is not installed`);
  }
}

function manifestOf(folder: string): Manifest {
  return JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as Manifest;
}
