/** What is wrong with a design: one fault per place, each with its JSON path, a stable code and a sentence. */

export interface Fault {
  /** JSON path, `sets[0].angle_deg`; empty when the fault is the file's as a whole. */
  readonly path: string;
  /** Stable name of the rule (docs/file-format.md lists them). */
  readonly code: string;
  readonly message: string;
}

/** At most this many faults are reported one by one. */
export const MAX_FAULTS = 50;

/** The fault on one line, as the command line and the app show it: `sets[0].angle_deg: 95 is above 90`. */
export function faultLine(fault: Fault): string {
  return fault.path === '' ? fault.message : `${fault.path}: ${fault.message}`;
}

/** `sets[0].angle_deg` from ['sets', 0, 'angle_deg']; keys that are no plain names are quoted: `saw["a b"]`. */
export function pathText(path: readonly PropertyKey[]): string {
  return path.reduce<string>((text, step) => {
    if (typeof step === 'number') return `${text}[${step}]`;
    const key = String(step);
    if (!/^[A-Za-z_][A-Za-z0-9_]*$/.test(key)) return `${text}[${quoted(key)}]`;
    return text === '' ? key : `${text}.${key}`;
  }, '');
}

const MAX_QUOTED_CHARACTERS = 40;

/** A text as it is shown inside a message: quoted, on one line, cut short. */
export function quoted(text: string): string {
  const short = text.length > MAX_QUOTED_CHARACTERS ? `${text.slice(0, MAX_QUOTED_CHARACTERS)}…` : text;
  // U+2028, U+2029 and the C1 controls break lines in some terminals and are not escaped by JSON.
  return JSON.stringify(short).replace(
    /[\u007f-\u009f\u2028\u2029]/g,
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}

/** A value as it is shown inside a message. */
export function shown(value: unknown): string {
  if (typeof value === 'string') return quoted(value);
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object' && value !== null) return 'an object';
  return String(value);
}

/** The first MAX_FAULTS faults and, when there are more, one that says how many. */
export function capFaults(faults: readonly Fault[]): Fault[] {
  if (faults.length <= MAX_FAULTS) return [...faults];
  const more = faults.length - MAX_FAULTS;
  const last: Fault = { path: '', code: 'more-faults', message: `and ${more} more faults` };
  return [...faults.slice(0, MAX_FAULTS), last];
}
