/** `report FILE`: everything the engine knows of a design, as one JSON object on standard output. */
import { reportOf } from '../plan/report.ts';
import { onlyDesign } from './input.ts';

export const REPORT_USAGE = 'report takes one design file: report FILE';

/** Exit code: 0 printed, 1 the design is wrong, 2 the call is wrong. */
export function run(args: readonly string[]): Promise<number> {
  const design = onlyDesign(args, REPORT_USAGE);
  if (typeof design === 'number') return Promise.resolve(design);
  process.stdout.write(`${JSON.stringify(reportOf(design), null, 2)}\n`);
  return Promise.resolve(0);
}
