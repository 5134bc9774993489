/** Finds the long checks: every call of countFor in the tests, with its name and its two counts as written. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

export interface LongCheck {
  readonly name: string;
  /** Path of the test file, relative to the repository. */
  readonly file: string;
  readonly slice: number;
  readonly full: number;
}

const CALL = /\bcountFor\(\s*(?:'([a-z0-9]+(?:-[a-z0-9]+)*)'\s*,\s*([\d_]+)\s*,\s*([\d_]+)\s*,?\s*\))?/g;

/** Long checks of the tests under `folder`, by name; throws on a call whose name or counts are not literal. */
export function longChecks(folder = 'tests'): LongCheck[] {
  const checks = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((path) => join(folder, path))
    .filter((path) => /\.test\.tsx?$/.test(path))
    .flatMap((file) => checksIn(file, readFileSync(file, 'utf8')));
  return checks.sort((a, b) => a.name.localeCompare(b.name));
}

/** Long checks of one test file. */
export function checksIn(file: string, text: string): LongCheck[] {
  return [...text.matchAll(CALL)].map((call) => {
    const [, name, slice, full] = call as (string | undefined)[];
    if (name === undefined || slice === undefined || full === undefined)
      throw new Error(`${file}: write the name and both counts of countFor as plain literals`);
    return { name, file, slice: count(slice), full: count(full) };
  });
}

function count(digits: string): number {
  return Number(digits.replaceAll('_', ''));
}
