/** The real command line, as a process of its own. */
import { execFile } from 'node:child_process';
import { join } from 'node:path';

export const MAIN = join(process.cwd(), 'src/cli/main.ts');

export interface Outcome {
  /** −1: ended by a signal. */
  readonly exit: number;
  readonly out: string;
  /** Lines on standard error. */
  readonly errors: string[];
}

/** Has no time of its own: the machine may be busy, and the test's time holds. */
export function kerfweave(...args: string[]): Promise<Outcome> {
  return new Promise((resolve) => {
    execFile(
      process.execPath,
      ['--import', 'tsx', MAIN, ...args],
      { encoding: 'utf8', maxBuffer: 1e8 },
      (error, out, err) => {
        const exit = error === null ? 0 : typeof error.code === 'number' ? error.code : -1;
        resolve({ exit, out, errors: err.split('\n').slice(0, -1) });
      },
    );
  });
}
