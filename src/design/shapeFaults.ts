/** Sentences for what the schema finds: one fault per place, `sets[0].angle_deg: 95 is above 90`. */
import type * as z from 'zod/mini';
import { type Fault, pathText, shown } from './faults.ts';

type Issue = z.core.$ZodIssue;

/** Where a fault of the shape stands and what it says. */
export interface ShapeFault extends Fault {
  readonly steps: readonly PropertyKey[];
}

/** Faults of the shape, the first of each place only, in the order of the file's description. */
export function shapeFaults(issues: readonly Issue[]): ShapeFault[] {
  const faults = new Map<string, ShapeFault>();
  for (const issue of issues) {
    const places =
      issue.code === 'unrecognized_keys' ? issue.keys.map((key) => [...issue.path, key]) : [issue.path];
    for (const steps of places) {
      const path = pathText(steps);
      if (!faults.has(path))
        faults.set(path, { steps, path, ...(unknownKey(issue, steps) ?? describe(issue)) });
    }
  }
  return [...faults.values()];
}

/** The keys of `colors` and of `quote.timber_per_m3` are timbers. */
function unknownKey(
  { code }: Issue,
  steps: readonly PropertyKey[],
): { code: string; message: string } | null {
  const holder = pathText(steps.slice(0, -1));
  if (code !== 'unrecognized_keys' || (holder !== 'colors' && holder !== 'quote.timber_per_m3')) return null;
  return { code: 'unknown-timber', message: CUSTOM['unknown-timber'](steps[steps.length - 1]) };
}

const CUSTOM: Readonly<Record<string, (input: unknown) => string>> = {
  'unknown-timber': (input) => `${shown(input)} is not a known timber`,
  'wrong-id': (input) =>
    `${shown(input)} is not an id: a letter, then up to 15 letters, digits, hyphens or underscores`,
  'reserved-id': (input) => `${shown(input)} is the name of the blank itself`,
  'wrong-color': (input) => `${shown(input)} is not a colour: # and six hexadecimal digits`,
  'wrong-step': (input) => `${shown(input)} is not a step such as S1.1:cut`,
  'wrong-currency': (input) => `${shown(input)} is not a currency: three capital letters, such as EUR`,
  'wrong-date': (input) => `${shown(input)} is not a date: year, month and day, such as 2027-03-31`,
  'not-plain-text': () => 'holds a control character',
};

const KINDS: Readonly<Record<string, string>> = {
  string: 'a text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  object: 'an object',
  array: 'a list',
};

function describe(issue: Issue): { code: string; message: string } {
  const { input } = issue;
  if (issue.code === 'unrecognized_keys')
    return { code: 'unknown-field', message: 'is not a field of a design file' };
  if (input === undefined) return { code: 'missing', message: 'is missing' };
  switch (issue.code) {
    case 'invalid_type':
      if (typeof input === 'number' && issue.expected === 'number')
        return { code: 'not-finite', message: 'is too large for a number' };
      return {
        code: 'wrong-type',
        message: `${shown(input)} is not ${KINDS[issue.expected] ?? issue.expected}`,
      };
    case 'invalid_value':
      if (issue.values.length === 1)
        return { code: 'wrong-value', message: `${shown(input)} is not ${shown(issue.values[0])}` };
      return {
        code: 'wrong-value',
        message: `${shown(input)} is none of ${issue.values.map(String).join(', ')}`,
      };
    case 'too_big':
      return sized(input, `at most ${issue.maximum}`, 'too-long', {
        code: 'too-large',
        message: `${shown(input)} is above ${issue.maximum}`,
      });
    case 'too_small':
      return sized(input, `at least ${issue.minimum}`, 'too-short', {
        code: 'too-small',
        message: `${shown(input)} is ${issue.inclusive ? 'below' : 'not above'} ${issue.minimum}`,
      });
    case 'custom': {
      const code = String(issue.params?.code);
      return { code, message: CUSTOM[code](input) };
    }
    default:
      throw new Error(`the schema has a rule without a sentence: ${issue.code}`);
  }
}

/** The fault of a list or text of a wrong length, or else that of a number. */
function sized(
  input: unknown,
  bound: string,
  code: string,
  otherwise: { code: string; message: string },
): { code: string; message: string } {
  if (Array.isArray(input))
    return { code, message: `has ${counted(input.length, 'entry', 'entries')}; ${bound}` };
  if (typeof input === 'string')
    return { code, message: `is ${counted(input.length, 'character', 'characters')} long; ${bound}` };
  return otherwise;
}

function counted(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`;
}
