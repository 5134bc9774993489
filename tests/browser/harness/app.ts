/**
 * Builds a site once with the product's own Vite configuration and serves it on this machine. The build goes
 * to a folder of this process under tests/out, so that a running `npm start` keeps its own.
 */
import { readdirSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build, preview } from 'vite';

const REPOSITORY = resolve(dirname(fileURLToPath(import.meta.url)), '../../..');

export interface ServedSite {
  /** Address with a trailing slash, such as http://127.0.0.1:41873/ */
  readonly baseUrl: string;
  /** Where the build lies. */
  readonly folder: string;
  readonly close: () => Promise<void>;
}

/** The app as `npm start` serves it. */
export async function serveApp(): Promise<ServedSite> {
  return buildAndServe('app', join(REPOSITORY, 'src'), ['index.html']);
}

/** The pages of tests/browser/fixtures, each an entry of its own; they may import from src. */
export async function serveFixtures(): Promise<ServedSite> {
  const root = join(REPOSITORY, 'tests', 'browser', 'fixtures');
  return buildAndServe(
    'fixtures',
    root,
    readdirSync(root).filter((file) => file.endsWith('.html')),
  );
}

async function buildAndServe(name: string, root: string, pages: readonly string[]): Promise<ServedSite> {
  const outDir = join(REPOSITORY, 'tests', 'out', `${name}-${process.pid}`);
  const shared = { configFile: join(REPOSITORY, 'vite.config.ts'), root, logLevel: 'error' } as const;
  // The test runner sets NODE_ENV to test, with which the libraries would come in their development builds.
  const nodeEnv = process.env.NODE_ENV;
  process.env.NODE_ENV = 'production';
  try {
    await build({
      ...shared,
      build: { outDir, emptyOutDir: true, rolldownOptions: { input: pages.map((page) => join(root, page)) } },
    });
  } finally {
    if (nodeEnv === undefined) delete process.env.NODE_ENV;
    else process.env.NODE_ENV = nodeEnv;
  }
  const server = await preview({
    ...shared,
    build: { outDir },
    preview: { host: '127.0.0.1', port: 0, open: false },
  });
  const baseUrl = server.resolvedUrls?.local[0];
  if (!baseUrl) throw new Error(`The built ${name} is not served: the preview server reports no address.`);
  return {
    baseUrl,
    folder: outDir,
    close: async () => {
      await server.close();
      await rm(outDir, { recursive: true, force: true });
    },
  };
}
