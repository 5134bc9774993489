/**
 * What the plan says, as plain data: sentences whose lengths are quantities, so that one and the same sentence is
 * read in millimetres (the report) and in the unit of the design (panels, printed sheet, command line). Lengths are
 * millimetres inside; rounding never hides that one length is more than another (`beside`), nor makes a limit
 * look lower than it is (`round`).
 */
import type { Blank, DisplayUnit, SlotId } from '../design/document.ts';
import { formatThousandths } from '../design/lengthText.ts';
import { MM_PER_INCH } from '../design/units.ts';

export interface Length {
  readonly kind: 'length';
  readonly length_mm: number;
  /** Decimals in millimetres: 0 a size at a glance, 2 a place, 3 a thickness. */
  readonly decimals: 0 | 2 | 3;
  /** What is rounded up still is enough. */
  readonly round: 'nearest' | 'up';
  /** A length that this one is compared with: the two must not read alike. */
  readonly beside_mm?: number;
}

/** Slots named in a row, three and more of one set drawn together: `S1.1 to S1.4 and S2.1`. */
export interface Names {
  readonly kind: 'slots';
  readonly slots: readonly SlotId[];
}

export type WordPart = string | Length | Names;
export type Wording = readonly WordPart[];

/** A sentence; what is put in may be words, quantities, names or another piece of wording. */
export function said(
  strings: TemplateStringsArray,
  ...parts: readonly (WordPart | number | Wording)[]
): Wording {
  return strings.flatMap((text, i): WordPart[] => {
    const part = i < parts.length ? parts[i] : '';
    const own: Wording = Array.isArray(part)
      ? (part as Wording)
      : [typeof part === 'number' ? String(part) : (part as WordPart)];
    return [text, ...own].filter((piece) => piece !== '');
  });
}

/** A place or size, to 0.01 mm; a thickness with 3 decimals. */
export function mm(
  length_mm: number,
  decimals: Length['decimals'] = 2,
  { round = 'nearest', beside_mm }: { round?: Length['round']; beside_mm?: number } = {},
): Length {
  return { kind: 'length', length_mm, decimals, round, ...(beside_mm === undefined ? {} : { beside_mm }) };
}

/** A length that has to be reached: never rounded down. */
export function atLeast(length_mm: number, decimals: Length['decimals'] = 2): Length {
  return mm(length_mm, decimals, { round: 'up' });
}

export function names(slots: readonly SlotId[]): Names {
  return { kind: 'slots', slots };
}

/** The sentence in a unit; `inch` is what stands behind inches. */
export function worded(wording: Wording, unit: DisplayUnit, inch = ' in'): string {
  return wording
    .map((part) => {
      if (typeof part === 'string') return part;
      return part.kind === 'slots' ? listed(slotRuns(part.slots)) : lengthText(part, unit, inch);
    })
    .join('');
}

function lengthText(part: Length, unit: DisplayUnit, inch: string): string {
  const { length_mm, beside_mm } = part;
  const shown = figures(part, length_mm, unit, 0);
  const sign = unit === 'mm' ? ' mm' : inch;
  if (beside_mm === undefined || length_mm === beside_mm) return shown + sign;
  for (let more = 0; more <= MORE_DECIMALS; more++) {
    const own = figures(part, length_mm, unit, more);
    if (own !== figures(part, beside_mm, unit, more)) return own + sign;
  }
  return `just ${length_mm < beside_mm ? 'under' : 'over'} ${figures(part, beside_mm, unit, 0)}${sign}`;
}

/** Where two lengths read alike, as many decimals more are tried. */
const MORE_DECIMALS = 1;

/** Decimals in inches that go with 0, 2 and 3 decimals in millimetres. */
const INCH_DECIMALS = { 0: 1, 2: 3, 3: 3 } as const;

function figures({ decimals, round }: Length, length_mm: number, unit: DisplayUnit, more: number): string {
  if (unit === 'mm') return rounded(length_mm, decimals + more, round);
  const inches = length_mm / MM_PER_INCH;
  if (decimals === 3 && round === 'nearest' && more === 0) return formatThousandths(length_mm).slice(0, -3);
  return rounded(inches, INCH_DECIMALS[decimals] + more, round);
}

const GRAMS_PER_OUNCE = 28.349523125;

/** `350 g`, `1.2 kg`, `12 oz`, `2.6 lb`: two figures, because species spread makes a weight uncertain by 10 to 20 %. */
export function massText(mass_g: number, unit: DisplayUnit): string {
  const [small, large, inLarge] = unit === 'mm' ? (['g', 'kg', 1000] as const) : (['oz', 'lb', 16] as const);
  const mass = unit === 'mm' ? mass_g : mass_g / GRAMS_PER_OUNCE;
  const inSmall = twoFigures(mass);
  return inSmall < inLarge ? `${inSmall} ${small}` : `${twoFigures(mass / inLarge)} ${large}`;
}

const twoFigures = (value: number) => Number(value.toPrecision(2));

/** `12.3 cm³`; `0.75 cubic inches`. */
export function volumeText(volume_mm3: number, unit: DisplayUnit): string {
  return unit === 'mm'
    ? `${(volume_mm3 / 1000).toFixed(1)} cm³`
    : `${(volume_mm3 / MM_PER_INCH ** 3).toFixed(2)} cubic inches`;
}

/** `20 °C`, `68 °F`. */
export function temperatureText(temperature_C: number, unit: DisplayUnit): string {
  return unit === 'in' ? `${Math.round(temperature_C * 1.8 + 32)} °F` : `${Math.round(temperature_C)} °C`;
}

/** An angle to 0.01°; finer where it would read like one that it is compared with. */
export function degrees(angle_deg: number, beside_deg?: number): string {
  const decimals = [2, 3, 4, 6].find(
    (d) =>
      beside_deg === undefined ||
      angle_deg === beside_deg ||
      rounded(angle_deg, d) !== rounded(beside_deg, d),
  );
  if (decimals !== undefined) return `${rounded(angle_deg, decimals)}°`;
  return `just ${angle_deg < (beside_deg ?? 0) ? 'under' : 'over'} ${rounded(beside_deg ?? 0, 2)}°`;
}

/** A number without trailing zeros; never "-0". */
export function rounded(value: number, decimals: number, round: Length['round'] = 'nearest'): string {
  const nearest = Number(value.toFixed(decimals));
  // What only the arithmetic has added is not rounded up.
  const up = round === 'up' && nearest < value - 1e-9 ? nearest + 10 ** -decimals : nearest;
  return String(Number(up.toFixed(decimals)) + 0);
}

/** "S1.1", "S1.1 and S1.2", "S1.1, S1.2 and S1.3". */
export function listed(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;
}

/** Slots in their order, runs of three and more neighbours of one set as `S1.1 to S1.4`. */
export function slotRuns(slots: readonly SlotId[]): string[] {
  const runs: SlotId[][] = [];
  for (const slot of slots) {
    const last = runs.at(-1);
    if (last && follows(last[last.length - 1], slot)) last.push(slot);
    else runs.push([slot]);
  }
  return runs.flatMap((run) => (run.length > 2 ? [`${run[0]} to ${run[run.length - 1]}`] : run));
}

function follows(slot: SlotId, next: SlotId): boolean {
  const at = slot.lastIndexOf('.') + 1;
  return next === `${slot.slice(0, at)}${Number(slot.slice(at)) + 1}`;
}

/** Pieces of wording in a row, as `listed` does with words. */
export function listedWordings(pieces: readonly Wording[]): Wording {
  return pieces.flatMap((piece, i): WordPart[] => {
    const before = i === 0 ? [] : [i === pieces.length - 1 ? ' and ' : ', '];
    return [...before, ...piece];
  });
}

export function noFlat({ section }: Pick<Blank, 'section'>): string {
  return section.shape === 'round' ? 'A round blank has no flat' : 'The blank has no flat';
}
