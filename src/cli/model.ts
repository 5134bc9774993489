/** `model FILE -o OUT.(glb|3mf|stl) [--step N] [--part ID]`: the solids of a design as a 3D file. */
import { parseArgs } from 'node:util';
import { MODEL_ENDINGS, modelEnding, modelFile, type ModelRequest } from '../files/model.ts';
import { readDesignFile } from './input.ts';
import { writeAtomically } from './output.ts';

export const MODEL_USAGE = 'model FILE -o OUT.glb|OUT.3mf|OUT.stl [--step N] [--part ID]';

interface ModelCall extends ModelRequest {
  readonly file: string;
  readonly out: string;
}

/** Runs the command; returns the exit code: 0 written, 1 the design is wrong, 2 the call is wrong. */
export function run(args: readonly string[]): Promise<number> {
  return Promise.resolve(runNow(args));
}

function runNow(args: readonly string[]): number {
  const call = readCall(args);
  if (typeof call === 'string') return refuse(call, 2);
  const input = readDesignFile(call.file);
  if (!input.ok) {
    for (const line of input.lines) console.error(line);
    return input.exit;
  }
  const result = modelFile(input.design, call);
  if ('refusal' in result) return refuse(result.refusal, 2);
  const failure = writeAtomically(call.out, result.bytes);
  return failure === null ? 0 : refuse(failure, 2);
}

function refuse(line: string, exit: number): number {
  console.error(line);
  return exit;
}

/** The call, or one line that says what is wrong with it. */
function readCall(args: readonly string[]): ModelCall | string {
  const parsed = parsedArguments(args);
  if (typeof parsed === 'string') return parsed;
  const { positionals, values } = parsed;
  const { out, step, part } = values;
  if (positionals.length !== 1) return `model takes one design file: ${MODEL_USAGE}`;
  if (out === undefined || out === '') return `model needs -o and a file to write: ${MODEL_USAGE}`;
  const ending = modelEnding(out);
  if (ending === null)
    return `${out} ends in none of ${MODEL_ENDINGS.map((known) => `.${known}`).join(', ')}`;
  if (step !== undefined && !/^\d{1,6}$/.test(step)) return `--step takes a whole number from 0, not ${step}`;
  return { file: positionals[0], out, ending, step: step === undefined ? undefined : Number(step), part };
}

function parsedArguments(args: readonly string[]) {
  try {
    return parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        out: { type: 'string', short: 'o' },
        step: { type: 'string' },
        part: { type: 'string' },
      },
    });
  } catch (error) {
    if (!(error instanceof TypeError)) throw error;
    return error.message.split('\n')[0];
  }
}
