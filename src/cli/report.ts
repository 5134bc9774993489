/** `report FILE`: everything the engine knows of a design, as one JSON object on standard output. */
import { reportOf } from '../plan/report.ts';
import { readDesignFile } from './input.ts';

export const REPORT_USAGE = 'report takes one design file: report FILE';

/** Exit code: 0 printed, 1 the design is wrong, 2 the call is wrong. */
export function run(args: readonly string[]): Promise<number> {
  const [path, ...more] = args;
  if (path === undefined || path.startsWith('-') || more.length > 0) {
    console.error(REPORT_USAGE);
    return Promise.resolve(2);
  }
  const input = readDesignFile(path);
  if (!input.ok) {
    for (const line of input.lines) console.error(line);
    return Promise.resolve(input.exit);
  }
  process.stdout.write(`${JSON.stringify(reportOf(input.design), null, 2)}\n`);
  return Promise.resolve(0);
}
