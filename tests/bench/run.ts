/**
 * `npm run bench [-- LETTERS]`: bundles the measurements (so that there is one copy of three, and no loader
 * in the way) and runs them, then the memory measurement in a process of its own.
 */
import { spawnSync } from 'node:child_process';
import { cpus } from 'node:os';
import { build } from 'esbuild';

const BUNDLE = 'tests/out/bench/measure.mjs';

await build({
  entryPoints: ['tests/bench/measure.ts'],
  outfile: BUNDLE,
  bundle: true,
  platform: 'node',
  format: 'esm',
  mainFields: ['module', 'main'],
  // Finds its .wasm beside itself.
  external: ['manifold-3d'],
  logLevel: 'warning',
});

console.log(`Node ${process.version}, ${cpus().length} × ${cpus()[0]?.model ?? 'unknown processor'}`);
const letters = process.argv.slice(2).join('');
let status = run([BUNDLE, letters]);
if (status === 0 && (letters === '' || /d/i.test(letters))) status = run([BUNDLE, '--memory']);
process.exitCode = status;

function run(args: readonly string[]): number {
  const result = spawnSync(process.execPath, args, { stdio: 'inherit' });
  if (result.error) throw result.error;
  return result.status ?? 1;
}
