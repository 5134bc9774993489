/**
 * Finds a Chromium for the tests, in this order: $CHROME_PATH; an installed Chrome or Chromium; on Linux the
 * one inside the npm package @sparticuz/chromium, unpacked once per version into node_modules/.cache. No
 * other download, and no skipping: where none can be had, the tests fail and say why
 * (docs/decisions/browser-for-tests.md).
 */
import { execFileSync } from 'node:child_process';
import {
  accessSync,
  constants,
  existsSync,
  mkdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { delimiter, dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

export interface FoundChromium {
  readonly executablePath: string;
  /** Variables to add to the environment of the browser's process. */
  readonly env: Readonly<Record<string, string>>;
  /** How it was found, for messages. */
  readonly source: string;
}

const REPOSITORY = resolve(dirname(fileURLToPath(import.meta.url)), '../../..');
const COMMANDS = ['google-chrome-stable', 'google-chrome', 'chromium', 'chromium-browser', 'chrome'];
const FONT_SETTINGS = 'kerfweave-fonts.conf';
const PROGRAM_PATHS: Partial<Record<NodeJS.Platform, readonly string[]>> = {
  darwin: [
    '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
    '/Applications/Chromium.app/Contents/MacOS/Chromium',
  ],
  win32: ['ProgramFiles', 'ProgramFiles(x86)', 'LOCALAPPDATA'].flatMap((variable) => {
    const folder = process.env[variable];
    return folder ? [join(folder, 'Google', 'Chrome', 'Application', 'chrome.exe')] : [];
  }),
};

export async function findChromium(): Promise<FoundChromium> {
  const chosen = process.env.CHROME_PATH;
  if (chosen) {
    if (!isExecutable(chosen)) throw new Error(`CHROME_PATH names ${chosen}, which cannot be run`);
    return { executablePath: chosen, env: {}, source: 'CHROME_PATH' };
  }
  const installed = installedChromium();
  if (installed) return { executablePath: installed, env: {}, source: 'installed' };
  if (process.platform === 'linux') return packagedChromium();
  throw new Error('No Chrome or Chromium found: install one, or set CHROME_PATH to its program.');
}

function installedChromium(): string | undefined {
  const folders = (process.env.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
  const candidates = [
    ...COMMANDS.flatMap((command) => folders.map((folder) => join(folder, command))),
    ...(PROGRAM_PATHS[process.platform] ?? []),
  ];
  return candidates.find(isExecutable);
}

function isExecutable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    // Not there or not executable: both mean "look further" to every caller.
    return false;
  }
}

/** The package unpacks into $TMPDIR and reuses what it finds there, so every version gets a folder of its own. */
async function packagedChromium(): Promise<FoundChromium> {
  const version = packagedVersion();
  const cache = join(REPOSITORY, 'node_modules', '.cache');
  const folder = join(cache, `chromium-${version}`);
  if (!existsSync(join(folder, 'chromium'))) {
    // Unpacked under a name of this process and then renamed: test runs side by side never see half a browser.
    const own = `${folder}-${process.pid}`;
    mkdirSync(own, { recursive: true });
    await unpackInto(own);
    writeFileSync(join(own, FONT_SETTINGS), fontSettings(folder));
    try {
      renameSync(own, folder);
    } catch (error) {
      rmSync(own, { recursive: true, force: true });
      if (!existsSync(join(folder, 'chromium'))) throw error;
    }
  }
  const executablePath = join(folder, 'chromium');
  const libraries = join(folder, 'al2023', 'lib');
  const env = {
    LD_LIBRARY_PATH: [libraries, process.env.LD_LIBRARY_PATH].filter(Boolean).join(delimiter),
    FONTCONFIG_FILE: join(folder, FONT_SETTINGS),
  };
  const missing = missingLibraries(executablePath, env);
  if (missing.length > 0)
    throw new Error(
      `The packaged Chromium ${version} cannot start here: shared libraries ${missing.join(', ')} are missing. ` +
        'Install Chrome or Chromium, or set CHROME_PATH to its program.',
    );
  return { executablePath, env, source: `@sparticuz/chromium ${version}` };
}

/**
 * The package's own font settings name a fixed folder, and a Chromium that finds no font at all crashes at
 * the first text field. These name the folder that the package's font was really unpacked to.
 */
function fontSettings(folder: string): string {
  return `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig>
  <dir>${join(folder, 'fonts')}</dir>
  <include ignore_missing="yes">/etc/fonts/fonts.conf</include>
  <cachedir>${join(folder, 'fonts-cache')}</cachedir>
</fontconfig>
`;
}

function packagedVersion(): string {
  const manifest: unknown = JSON.parse(
    readFileSync(join(REPOSITORY, 'node_modules/@sparticuz/chromium/package.json'), 'utf8'),
  );
  if (typeof manifest === 'object' && manifest !== null && 'version' in manifest)
    return String(manifest.version);
  throw new Error('@sparticuz/chromium has no version; run npm ci');
}

async function unpackInto(folder: string): Promise<void> {
  const names = ['TMPDIR', 'AWS_LAMBDA_JS_RUNTIME', 'LD_LIBRARY_PATH', 'FONTCONFIG_PATH', 'HOME'] as const;
  const before = names.map((name) => process.env[name]);
  process.env.TMPDIR = folder;
  // Without a runtime that it knows the package leaves out the libraries (NSS, NSPR, expat) the browser needs.
  process.env.AWS_LAMBDA_JS_RUNTIME = 'nodejs22.x';
  try {
    const { default: chromium } = await import('@sparticuz/chromium');
    await chromium.executablePath();
  } finally {
    names.forEach((name, i) => {
      const value = before[i];
      if (value === undefined) Reflect.deleteProperty(process.env, name);
      else process.env[name] = value;
    });
  }
}

function missingLibraries(executablePath: string, env: Readonly<Record<string, string>>): string[] {
  let listing: string;
  try {
    listing = execFileSync('ldd', [executablePath], { encoding: 'utf8', env: { ...process.env, ...env } });
  } catch {
    // No ldd on this machine: the launch itself will tell.
    return [];
  }
  return [...listing.matchAll(/^\s*(\S+) => not found/gm)].map((match) => match[1]);
}
