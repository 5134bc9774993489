/** `sheet FILE -o OUT.pdf [options]`: the shop sheet of a design. */
import { parseArgs } from 'node:util';
import { PAPERS, type PaperName } from '../files/sheet/frame.ts';
import { usualPaper } from '../files/sheet/paper.ts';
import { shopSheet } from '../files/sheet/sheet.ts';
import { CHOICES_USAGE, CHOICE_OPTIONS, readChoiceValues, type ChoiceValues } from './choices.ts';
import { readFontFiles } from './fonts.ts';
import { readDesignFile } from './input.ts';
import { writeAtomically } from './output.ts';

export const SHEET_USAGE = `sheet FILE -o OUT.pdf [--paper a4|letter] ${CHOICES_USAGE}`;

interface SheetCall {
  readonly file: string;
  readonly out: string;
  /** Left out: US Letter for a design in inches, A4 for one in millimetres. */
  readonly paper: PaperName | null;
  /** Left out: as usual. */
  readonly choices: ChoiceValues;
}

/** Runs the command; returns the exit code: 0 written, 1 the design is wrong, 2 the call is wrong. */
export async function run(args: readonly string[]): Promise<number> {
  const call = readCall(args);
  if (typeof call === 'string') return refuse(call);
  const input = readDesignFile(call.file);
  if (!input.ok) {
    for (const line of input.lines) console.error(line);
    return input.exit;
  }
  const { design } = input;
  const paper = call.paper ?? usualPaper(design.unit);
  const choices = readChoiceValues(call.choices, design.unit);
  if (typeof choices === 'string') return refuse(choices);
  const bytes = await shopSheet(design, { paper, fonts: readFontFiles(), choices });
  const failure = writeAtomically(call.out, bytes);
  return failure === null ? 0 : refuse(failure);
}

function refuse(line: string): number {
  console.error(line);
  return 2;
}

/** The call, or one line that says what is wrong with it. */
function readCall(args: readonly string[]): SheetCall | string {
  const parsed = parsedArguments(args);
  if (typeof parsed === 'string') return parsed;
  const { positionals, values } = parsed;
  const { out, paper, ...choices } = values;
  if (positionals.length !== 1) return `sheet takes one design file: ${SHEET_USAGE}`;
  if (out === undefined || out === '') return `sheet needs -o and a file to write: ${SHEET_USAGE}`;
  if (!/\.pdf$/i.test(out)) return `${out} does not end in .pdf`;
  if (paper !== undefined && !isPaper(paper)) return `--paper is a4 or letter, not ${paper}`;
  return { file: positionals[0], out, paper: paper ?? null, choices };
}

function isPaper(name: string): name is PaperName {
  return Object.hasOwn(PAPERS, name);
}

function parsedArguments(args: readonly string[]) {
  try {
    return parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { out: { type: 'string', short: 'o' }, paper: { type: 'string' }, ...CHOICE_OPTIONS },
    });
  } catch (error) {
    if (!(error instanceof TypeError)) throw error;
    return error.message.split('\n')[0];
  }
}
