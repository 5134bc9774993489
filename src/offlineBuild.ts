/**
 * Two steps of the build, for the app's own page only: the content policy in its head, and the service worker
 * with the list of all files of the build. The development server has neither: it needs inline scripts.
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
        await buildWorker(config.root, outDir, filesIn(outDir));
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

async function buildWorker(root: string, outDir: string, files: ReturnType<typeof filesIn>): Promise<void> {
  await build({
    configFile: false,
    root,
    publicDir: false,
    logLevel: 'warn',
    define: { 'process.env.NODE_ENV': '"production"', KERFWEAVE_FILES: JSON.stringify(files) },
    build: {
      outDir,
      emptyOutDir: false,
      copyPublicDir: false,
      target: 'es2022',
      // One plain script: not every browser takes a module as a service worker.
      lib: {
        entry: join(root, 'serviceWorker.ts'),
        formats: ['iife'],
        name: 'kerfweave',
        fileName: () => WORKER,
      },
    },
  });
}
