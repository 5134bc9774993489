/**
 * Steps of the build, for the app's own page only: in its head the content policy and the script that loads a page again
 * that did not come whole, and the service worker with the list of all files of the build. The development server has
 * none of them: it needs inline scripts.
 */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { build, type Plugin, type ResolvedConfig } from 'vite';

/**
 * Nothing from anywhere but here, no inline script or style, no code from text. `blob:` and `data:` are what the
 * app makes itself: pictures to save, previews, textures of exported models.
 */
export const CONTENT_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "font-src 'self'",
  "img-src 'self' blob: data:",
  "media-src 'self' blob:",
  "connect-src 'self' blob: data:",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');

const WORKER = 'service-worker.js';
const LOAD_AGAIN = 'load-again.js';

export function offlineBuild(appRoot: string): Plugin {
  let config: ResolvedConfig;
  const isApp = () => join(config.root) === join(appRoot);
  return {
    name: 'kerfweave-offline',
    apply: 'build',
    configResolved: (resolved) => {
      config = resolved;
    },
    transformIndexHtml: {
      order: 'post',
      handler: () =>
        isApp()
          ? [
              {
                tag: 'meta',
                attrs: { 'http-equiv': 'Content-Security-Policy', content: CONTENT_POLICY },
                injectTo: 'head-prepend',
              },
              { tag: 'script', attrs: { src: `./${LOAD_AGAIN}` }, injectTo: 'head-prepend' },
            ]
          : [],
    },
    closeBundle: {
      sequential: true,
      order: 'post',
      handler: async () => {
        if (!isApp()) return;
        const folder = join(config.root, config.build.outDir);
        const outDir = config.build.outDir.startsWith(sep) ? config.build.outDir : folder;
        await buildScript(config.root, outDir, { entry: 'loadAgain.ts', file: LOAD_AGAIN });
        const files = JSON.stringify(filesIn(outDir));
        const define = { 'process.env.NODE_ENV': '"production"', KERFWEAVE_FILES: files };
        await buildScript(config.root, outDir, { entry: 'serviceWorker.ts', file: WORKER, define });
      },
    },
  };
}

/** Files with a hash in their name never change; the others go by what is in them. */
export function filesIn(folder: string): { url: string; revision: string | null }[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name !== WORKER)
    .map((entry) => join(entry.parentPath, entry.name))
    .sort()
    .map((path) => {
      const url = relative(folder, path).split(sep).join('/');
      const hashed = /^assets\/.*-[\w-]{8}\.\w+$/.test(url);
      const revision = hashed
        ? null
        : createHash('sha256').update(readFileSync(path)).digest('hex').slice(0, 16);
      return { url, revision };
    });
}

interface PlainScript {
  readonly entry: string;
  readonly file: string;
  readonly define?: Record<string, string>;
}

/** One plain script: not every browser takes a module as a service worker, and a module would wait for the whole page. */
async function buildScript(
  root: string,
  outDir: string,
  { entry, file, define }: PlainScript,
): Promise<void> {
  await build({
    configFile: false,
    root,
    publicDir: false,
    logLevel: 'warn',
    ...(define ? { define } : {}),
    build: {
      outDir,
      emptyOutDir: false,
      copyPublicDir: false,
      target: 'es2022',
      lib: { entry: join(root, entry), formats: ['iife'], name: 'kerfweave', fileName: () => file },
    },
  });
}
