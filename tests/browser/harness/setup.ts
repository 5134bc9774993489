/** Once per run of the browser tests: find a Chromium, build and serve the pages, and tell the tests where. */
import type { TestProject } from 'vitest/node';
import { serveApp, serveFixtures, type ServedSite } from './app.ts';
import { findChromium, type FoundChromium } from './chromium.ts';

declare module 'vitest' {
  interface ProvidedContext {
    chromium: FoundChromium;
    app: SiteForTests;
    fixtures: SiteForTests;
  }
}

/** Where a site is served, or why it could not be built: then every test that opens it fails with the reason. */
export interface SiteForTests {
  readonly baseUrl: string | null;
  /** Folder of the build. */
  readonly folder: string | null;
  readonly failure: string;
}

export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const chromium = await findChromium();
  console.log(`browser for the tests: ${chromium.source}`);
  project.provide('chromium', chromium);
  const served: ServedSite[] = [];
  const provide = async (name: 'app' | 'fixtures', serve: () => Promise<ServedSite>) => {
    try {
      const site = await serve();
      served.push(site);
      project.provide(name, { baseUrl: site.baseUrl, folder: site.folder, failure: '' });
    } catch (error) {
      const failure = error instanceof Error ? error.message : String(error);
      project.provide(name, { baseUrl: null, folder: null, failure });
    }
  };
  await provide('fixtures', serveFixtures);
  await provide('app', serveApp);
  return async () => {
    for (const site of served) await site.close();
  };
}
