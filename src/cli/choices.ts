/**
 * What the maker asks of the plan (plan/makersChoices.ts), as options of a command: lengths as a maker types them, in the
 * unit of the design where they name none.
 */
import type { DisplayUnit } from '../design/document.ts';
import { parseLength } from '../design/units.ts';
import { CHOICE_LIMITS, usualChoices, type MakersChoices } from '../plan/makersChoices.ts';

export const CHOICES_USAGE = '[--off-by LENGTH] [--dry PERCENT] [--damp PERCENT] [--board LONGxWIDExTHICK]';

/** For `parseArgs`. */
export const CHOICE_OPTIONS = {
  'off-by': { type: 'string' },
  dry: { type: 'string' },
  damp: { type: 'string' },
  board: { type: 'string' },
} as const;

export type ChoiceValues = { readonly [Option in keyof typeof CHOICE_OPTIONS]?: string | undefined };

/** The choices, as usual where an option is left out; or one line that says what is wrong with them. */
export function readChoiceValues(values: ChoiceValues, unit: DisplayUnit): MakersChoices | string {
  const usual = usualChoices(unit);
  const read = {
    offBy_mm: optional(values['off-by'], usual.offBy_mm, (text) =>
      lengthOf('--off-by', text, unit, CHOICE_LIMITS.offBy_mm),
    ),
    dry_pct: optional(values.dry, usual.dry_pct, (text) => percentOf('--dry', text)),
    damp_pct: optional(values.damp, usual.damp_pct, (text) => percentOf('--damp', text)),
    board: optional(values.board, usual.board, (text) => boardOf(text, unit)),
  };
  const fault = Object.values(read).find((value) => typeof value === 'string');
  return fault ?? (read as MakersChoices);
}

function optional<T>(text: string | undefined, usual: T, read: (text: string) => T | string): T | string {
  return text === undefined ? usual : read(text);
}

type Limits = readonly [least: number, most: number];

function lengthOf(option: string, text: string, unit: DisplayUnit, [least, most]: Limits): number | string {
  const typed = parseLength(text, unit);
  if (!typed.ok) return `${option}: ${typed.reason}`;
  if (typed.value >= least && typed.value <= most) return typed.value;
  return `${option} is from ${least} mm to ${most} mm, not ${text}`;
}

function percentOf(option: string, text: string): number | string {
  const [least, most] = CHOICE_LIMITS.humidity_pct;
  const value = /^\d{1,3}(?:\.\d+)?%?$/.test(text) ? Number.parseFloat(text) : Number.NaN;
  return value >= least && value <= most
    ? value
    : `${option} is a humidity from ${least} to ${most} percent, not ${text}`;
}

/** `600x100x25`, `24 x 4 x 1 in`: the last unit holds for the numbers before it that have none. */
function boardOf(text: string, unit: DisplayUnit): MakersChoices['board'] | string {
  const parts = text.split(/[x×]/i).map((part) => part.trim());
  if (parts.length !== 3) return `--board is length x width x thickness, not ${text}`;
  const last = /[a-z"″.]+$/i.exec(parts[2])?.[0] ?? '';
  const sizes = (['length_mm', 'width_mm', 'thickness_mm'] as const).map((side, i) =>
    lengthOf(
      `--board (${side.slice(0, -3)})`,
      /\d$/.test(parts[i]) ? parts[i] + last : parts[i],
      unit,
      CHOICE_LIMITS.board[side],
    ),
  );
  const fault = sizes.find((size) => typeof size === 'string');
  if (fault !== undefined) return fault;
  const [length_mm, width_mm, thickness_mm] = sizes as number[];
  return { length_mm, width_mm, thickness_mm };
}
