/**
 * `npm run soak -- NAME`: the full count of one long check; without a name, the list of them. Exit 2 when no
 * check has that name, else the exit of the test run. Results are recorded in docs/reliability.md.
 */
import { spawnSync } from 'node:child_process';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { longChecks, type LongCheck } from './checks.ts';

function main(names: readonly string[]): number {
  const checks = longChecks();
  if (names.length === 0) {
    console.log(`Long checks (slice in npm test, full count in npm run soak -- NAME):\n${table(checks)}`);
    return 0;
  }
  for (const name of names) {
    if (checks.some((check) => check.name === name)) continue;
    console.error(`soak: no long check is called "${name}"; there are:\n${table(checks)}`);
    return 2;
  }
  for (const name of names) {
    const status = run(
      name,
      checks.filter((check) => check.name === name).map((check) => check.file),
    );
    if (status !== 0) return status;
  }
  return 0;
}

function run(name: string, files: readonly string[]): number {
  const started = Date.now();
  const vitest = join(dirname(createRequire(import.meta.url).resolve('vitest/package.json')), 'vitest.mjs');
  const result = spawnSync(process.execPath, [vitest, 'run', '--disableConsoleIntercept=true', ...files], {
    stdio: 'inherit',
    env: { ...process.env, KERFWEAVE_SOAK: name },
  });
  if (result.error) throw result.error;
  const status = result.status ?? 1;
  const seconds = Math.round((Date.now() - started) / 1000);
  console.log(`soak ${name}: ${status === 0 ? 'passed' : 'FAILED'} after ${seconds} s`);
  return status;
}

function table(checks: readonly LongCheck[]): string {
  return checks
    .map(({ name, slice, full, file }) => `  ${name.padEnd(24)} ${slice} of ${full}  ${file}`)
    .join('\n');
}

process.exitCode = main(process.argv.slice(2));
