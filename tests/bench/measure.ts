/**
 * The measurements of `npm run bench`, run by run.ts as one bundle in a process of its own. Ours and
 * manifold-3d take turns, round by round, so that a busy machine slows both; medians after a warm-up. The
 * ratios hold from machine to machine, the milliseconds do not.
 *
 *     measure.mjs [LETTERS]      only the cases whose label starts with one of the letters, R for the report
 *     measure.mjs --memory       only the peak memory of this process for 96 slots turned
 */
import { blockParts, turnedParts } from '../../src/blank/solids.ts';
import type { Design } from '../../src/design/document.ts';
import { reportOf } from '../../src/plan/report.ts';
import { chainedParts, chainInput } from '../oracles/csgChain.ts';
import { manifoldLibrary, splitParts, type OracleOptions } from '../oracles/manifoldOracle.ts';
import { CASES, crowdedStick, RESOLUTION, stick, type BenchCase } from './cases.ts';

const ROUNDS = 7;
const WARM_UP = 5;

function ours(design: Design, turned: boolean): number {
  const parts = turned ? turnedParts(design, RESOLUTION) : blockParts(design, RESOLUTION);
  return parts.reduce((sum, { triangles }) => sum + triangles.length / 3, 0);
}

/** No collection is forced beforehand: it would also throw away compiled code, which no user's session does. */
function milliseconds(work: () => unknown): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}

/** Processor time of this process, all threads, ms: what is left of a comparison when others use the machine. */
function processor_ms(work: () => unknown): number {
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)];
}

interface Row {
  readonly case: string;
  readonly triangles: number;
  readonly 'ours ms': string;
  readonly 'manifold-3d ms': string;
  readonly 'times faster': string;
  readonly 'in processor time': string;
  readonly 'chain ms': string;
  readonly 'times faster than chain': string;
  readonly 'chain: worst part': string;
}

interface Cost {
  readonly median_ms: number;
  readonly processor_ms: number;
}

async function measureCase({ label, design, turned, chain }: BenchCase): Promise<Row & Cost> {
  const library = await manifoldLibrary();
  const options: OracleOptions = { turned, ...RESOLUTION };
  const own: number[] = [];
  const other: number[] = [];
  const ownProcessor: number[] = [];
  const otherProcessor: number[] = [];
  for (let round = -WARM_UP; round < ROUNDS; round++) {
    let own_ms = 0;
    let other_ms = 0;
    const ownProcessor_ms = processor_ms(() => {
      own_ms = milliseconds(() => ours(design, turned));
    });
    // The library comes compiled: one warm-up will do.
    const otherProcessor_ms = processor_ms(() => {
      if (round >= -1) other_ms = milliseconds(() => splitParts(library, design, options));
    });
    if (round < 0) continue;
    ownProcessor.push(ownProcessor_ms);
    otherProcessor.push(otherProcessor_ms);
    own.push(own_ms);
    other.push(other_ms);
  }
  const own_ms = median(own);
  const other_ms = median(other);
  const row = {
    case: label,
    triangles: ours(design, turned),
    'ours ms': own_ms.toFixed(1),
    'manifold-3d ms': other_ms.toFixed(1),
    'times faster': (other_ms / own_ms).toFixed(1),
    'in processor time': (median(otherProcessor) / median(ownProcessor)).toFixed(1),
    'chain ms': '',
    'times faster than chain': '',
    'chain: worst part': '',
    median_ms: own_ms,
    processor_ms: median(ownProcessor),
  };
  if (!chain) return row;
  const input = chainInput(library, design, options);
  const exact = splitParts(library, design, options);
  let volumes: number[] = [];
  const chain_ms = milliseconds(() => {
    volumes = chainedParts(input);
  });
  const worst = Math.max(
    ...volumes.map((volume, i) => Math.abs(1 - volume / exact.parts[i].volume_mm3)).filter(Number.isFinite),
  );
  return {
    ...row,
    'chain ms': chain_ms.toFixed(0),
    'times faster than chain': (chain_ms / own_ms).toFixed(0),
    'chain: worst part': `${(100 * worst).toPrecision(2)} % off`,
  };
}

async function measure(letters: string): Promise<void> {
  muteKnownWarning();
  const rows: Row[] = [];
  const costs = new Map<string, Cost>();
  for (const benchCase of CASES.filter(({ label }) => letters === '' || letters.includes(label[0]))) {
    const { median_ms, processor_ms: processor, ...row } = await measureCase(benchCase);
    rows.push(row);
    costs.set(benchCase.label, { median_ms, processor_ms: processor });
    console.error(`${benchCase.label}: ours ${row['ours ms']} ms, manifold-3d ${row['manifold-3d ms']} ms`);
  }
  console.table(rows);
  for (const kind of ['block', 'turned']) {
    const few = costs.get(`C  24 slots, ${kind}`);
    const many = costs.get(`D  96 slots, ${kind}`);
    if (few === undefined || many === undefined) continue;
    const exponent = (a: number, b: number) => (Math.log(b / a) / Math.log(96 / 24)).toFixed(2);
    console.log(
      `${kind}: from 24 to 96 slots time grows as slots^${exponent(few.median_ms, many.median_ms)}, ` +
        `processor time as slots^${exponent(few.processor_ms, many.processor_ms)} (quadratic: 2)`,
    );
  }
  if (letters === '' || letters.includes('D')) await measureCrowded();
  if (letters === '' || letters.includes('R')) measureReport();
}

function measureReport(): void {
  for (const design of [stick(4), stick(24), crowdedStick(24), stick(96)]) {
    const times = Array.from({ length: WARM_UP + ROUNDS }, () => milliseconds(() => reportOf(design)));
    console.log(
      `full report, ${design.name.toLowerCase()}: first ${times[0].toFixed(0)} ms, ` +
        `median ${median(times.slice(WARM_UP)).toFixed(0)} ms`,
    );
  }
}

/** Not one of the cases: what happens where everything crosses everything. */
async function measureCrowded(): Promise<void> {
  const library = await manifoldLibrary();
  const design = crowdedStick(96);
  for (const turned of [false, true]) {
    ours(design, turned);
    const own_ms = median([0, 1, 2].map(() => milliseconds(() => ours(design, turned))));
    const other_ms = milliseconds(() => splitParts(library, design, { turned, ...RESOLUTION }));
    console.log(
      `96 slots crowded on a short stick, ${turned ? 'turned' : 'block'}: ours ${own_ms.toFixed(0)} ms, ` +
        `manifold-3d ${other_ms.toFixed(0)} ms (once), ${(other_ms / own_ms).toFixed(1)} times`,
    );
  }
}

/** three-bvh-csg uses an option that three-mesh-bvh has renamed, and every operation says so. */
function muteKnownWarning(): void {
  const warn = console.warn.bind(console);
  console.warn = (...message: unknown[]) => {
    if (!String(message[0]).includes('"maxLeafSize" option has been deprecated')) warn(...message);
  };
}

function measureMemory(): void {
  const megabytes = (kilobytes: number) => (kilobytes / 1024).toFixed(0);
  const before = process.resourceUsage().maxRSS;
  const triangles = ours(stick(96), true);
  const peak = process.resourceUsage().maxRSS;
  console.log(
    `peak memory, 96 slots turned (${triangles} triangles): ${megabytes(peak)} MB resident, ` +
      `of which ${megabytes(before)} MB before the work`,
  );
}

const [argument = ''] = process.argv.slice(2);
if (argument === '--memory') measureMemory();
else await measure(argument.toUpperCase());
