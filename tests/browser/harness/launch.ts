/**
 * Starts Chromium and opens pages that are watched: any console message beyond the two known ones, any
 * uncaught error and any request to another host becomes a complaint. Used by the tests (browser.ts) and by
 * the script that takes the pictures.
 */
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright-core';
import type { FoundChromium } from './chromium.ts';

const FLAGS = [
  '--no-sandbox',
  '--enable-unsafe-swiftshader',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--no-first-run',
  // No name resolves but this machine's own: a remote request fails, and is reported besides.
  '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1, EXCLUDE localhost',
];

/** The only console messages allowed. */
const KNOWN_MESSAGES = [
  // React Three Fiber and three-bvh-csg print these with the pinned versions of three and three-mesh-bvh.
  /^THREE\.Clock: This module has been deprecated/,
  /"maxLeafSize" option has been deprecated/,
  // The software renderer's own remark whenever pixels are read back, which is how these tests look at a canvas.
  /^\[\.WebGL-0x[0-9a-f]+\]GL Driver Message \(OpenGL, Performance, GL_CLOSE_PATH_NV, High\): GPU stall due to ReadPixels/,
];

export interface PageOptions {
  /** Size of the viewport in CSS pixels; 1024 × 768 if left out. */
  readonly width?: number;
  readonly height?: number;
  /** Path or fragment under the served app (`#/rings`), or a whole address. */
  readonly url?: string;
  readonly dark?: boolean;
  readonly touch?: boolean;
  /** Device pixels per CSS pixel; 1 if left out. */
  readonly pixelRatio?: number;
  readonly reducedMotion?: boolean;
  /** Continue in the context of an earlier page (its storage, its cache) instead of a fresh one. */
  readonly context?: BrowserContext;
  /** As a browser without WebGL: for tests in which the stage's drawing would only take time. */
  readonly withoutWebGL?: boolean;
  /** What is to be in place before the page is asked for: init scripts, bindings, a clock. */
  readonly prepare?: (page: Page) => Promise<unknown>;
}

export interface WatchedPage {
  readonly page: Page;
  /** Complaints so far, oldest first; a test that provokes one on purpose takes it out. */
  readonly complaints: string[];
}

/** Starts the browser and makes sure that it has WebGL2; throws with the reason if not. */
export async function launchChromium(found: FoundChromium): Promise<Browser> {
  let browser: Browser;
  try {
    browser = await chromium.launch({
      executablePath: found.executablePath,
      args: FLAGS,
      env: { ...environment(), ...found.env },
    });
  } catch (error) {
    throw new Error(
      `Chromium (${found.source}) does not start. Set CHROME_PATH to another Chrome or Chromium.`,
      {
        cause: error,
      },
    );
  }
  const page = await browser.newPage();
  const version = await page.evaluate(() => {
    const gl = document.createElement('canvas').getContext('webgl2');
    return gl ? String(gl.getParameter(gl.VERSION)) : '';
  });
  await page.close();
  if (version === '') {
    await browser.close();
    throw new Error(
      `Chromium (${found.source}) has no WebGL2, which the tests need. Set CHROME_PATH to one that has.`,
    );
  }
  return browser;
}

/** A browser with its profile in a folder, for what must outlive the browser itself. Its pages are not watched. */
export function launchProfile(found: FoundChromium, folder: string): Promise<BrowserContext> {
  return chromium.launchPersistentContext(folder, {
    executablePath: found.executablePath,
    args: FLAGS,
    env: { ...environment(), ...found.env },
  });
}

/** Opens a page and waits until it is loaded. `baseUrl` is the served app. */
export async function openWatchedPage(
  browser: Browser,
  baseUrl: string,
  options: PageOptions = {},
): Promise<WatchedPage> {
  const context =
    options.context ??
    (await browser.newContext({
      viewport: { width: options.width ?? 1024, height: options.height ?? 768 },
      deviceScaleFactor: options.pixelRatio ?? 1,
      hasTouch: options.touch ?? false,
      colorScheme: options.dark ? 'dark' : 'light',
      reducedMotion: options.reducedMotion ? 'reduce' : 'no-preference',
    }));
  const page = await context.newPage();
  const complaints: string[] = [];
  const { host } = new URL(options.url ?? '', baseUrl);
  page.on('console', (message) => {
    const text = message.text();
    if (KNOWN_MESSAGES.some((known) => known.test(text))) return;
    complaints.push(`console ${message.type()}: ${text} (${message.location().url})`);
  });
  page.on('pageerror', (error) => complaints.push(`uncaught: ${error.stack ?? error.message}`));
  page.on('crash', () => complaints.push('the page crashed'));
  page.on('websocket', (socket) => complaints.push(`opened a web socket: ${socket.url()}`));
  page.on('request', (request) => {
    const url = new URL(request.url());
    if (['data:', 'blob:', 'about:'].includes(url.protocol) || url.host === host) return;
    complaints.push(`asked another host: ${request.url()}`);
  });
  if (options.withoutWebGL) await page.addInitScript(withholdWebGL);
  await options.prepare?.(page);
  await page.goto(new URL(options.url ?? '', baseUrl).href, { waitUntil: 'load' });
  return { page, complaints };
}

/** Runs in the page. */
function withholdWebGL(): void {
  const getContext = Reflect.get(HTMLCanvasElement.prototype, 'getContext');
  HTMLCanvasElement.prototype.getContext = function (
    this: HTMLCanvasElement,
    kind: string,
    ...rest: unknown[]
  ) {
    return kind === 'webgl2' ? null : (Reflect.apply(getContext, this, [kind, ...rest]) as unknown);
  } as typeof HTMLCanvasElement.prototype.getContext;
}

function environment(): Record<string, string> {
  const entries: [string, string][] = [];
  for (const [name, value] of Object.entries(process.env))
    if (value !== undefined) entries.push([name, value]);
  return Object.fromEntries(entries);
}
