/**
 * Reading a design: from the bytes of a file, or from a value that claims to be one, to a document with every
 * default filled in, or to the faults that keep it from being one. Never throws, whatever the input.
 */
import {
  DESIGN_FORMAT,
  type Design,
  type Form,
  type MadeSlot,
  type OutlinePoint,
  type Quote,
  type SlotSet,
} from './document.ts';
import { writtenCut } from './cuts.ts';
import { capFaults, type Fault, MAX_FAULTS, pathText, shown } from './faults.ts';
import { readJson } from './json.ts';
import { CURRENT_VERSION, laterFields, migrate } from './migrations.ts';
import { defaultOrder } from './order.ts';
import { isJsonObject, type JsonObject, placesOf, without } from './places.ts';
import { madeFaults, ruleFaults } from './rules.ts';
import { designSchema, LIST_LIMITS, type ShapedDesign } from './schema.ts';
import { shapeFaults, type ShapeFault } from './shapeFaults.ts';

export type ParseResult =
  | { readonly ok: true; readonly design: Design }
  | { readonly ok: false; readonly faults: readonly Fault[]; readonly newer?: NewerFile };

/** A file of a later version: what it holds, untouched, and what of it this version understands. */
export interface NewerFile {
  readonly version: number;
  readonly raw: JsonObject;
  /** The design without the fields that are not known here, or null when the rest is not one. */
  readonly design: Design | null;
  /** Paths of the fields that the design is without. */
  readonly unknown: readonly string[];
}

/** Reads a design file. */
export function parseDesign(input: string | Uint8Array): ParseResult {
  const json = readJson(input);
  if (!json.ok) return capped(json);
  const result = check(json.value);
  if (json.duplicates.length === 0) return capped(result);
  return capped(refused([...json.duplicates, ...(result.ok ? [] : result.faults)]));
}

/** Checks a value as parseDesign checks a file: for edits, links and stored records. */
export function checkDesign(value: unknown): ParseResult {
  return capped(check(value));
}

function capped(result: ParseResult): ParseResult {
  return result.ok ? result : { ...result, faults: capFaults(result.faults) };
}

function refused(faults: readonly Fault[]): { ok: false; faults: readonly Fault[] } {
  return { ok: false, faults };
}

function check(value: unknown): ParseResult {
  if (!isJsonObject(value))
    return refused([
      { path: '', code: 'wrong-type', message: `a design is one object, not ${shown(value)}` },
    ]);
  const head = headFaults(value);
  // Anything else that is JSON: that it is no design is all there is to say.
  if (value.format !== DESIGN_FORMAT && !('blank' in value && 'sets' in value))
    return refused(head.slice(0, 1));
  const { version } = value;
  if (isVersion(version) && version > CURRENT_VERSION)
    return { ...refused([newerVersion(version)]), newer: newerFile(value, version) };
  if (head.length === 0 && isVersion(version)) return checkOlder(value, version);
  const rest = checkCurrent({ ...value, format: DESIGN_FORMAT, version: CURRENT_VERSION });
  return refused([...head, ...(rest.ok ? [] : rest.faults)]);
}

/** A document of the current version or an older one, which has no field of a later version. */
function checkOlder(document: JsonObject, version: number): ParseResult {
  const later = laterFields(document, version);
  const faults = later.map((field): Fault => ({
    path: pathText(field.path),
    code: 'later-field',
    message: `is a field of version ${field.version}; this file says version ${version}`,
  }));
  if (later.length > MAX_FAULTS) return refused(faults);
  const own =
    later.length === 0
      ? document
      : without(
          document,
          later.map((field) => field.path),
        );
  const result = checkCurrent(migrate(own, version));
  return later.length === 0 ? result : refused([...faults, ...(result.ok ? [] : result.faults)]);
}

function isVersion(version: unknown): version is number {
  return Number.isInteger(version) && (version as number) >= 1;
}

/** What is wrong with the two fields that say how to read the rest. */
function headFaults({ format, version }: JsonObject): Fault[] {
  const faults: Fault[] = [];
  const report = (path: string, value: unknown, code: string, message: string): void => {
    if (value === undefined) faults.push({ path, code: 'missing', message: 'is missing' });
    else faults.push({ path, code, message: `${shown(value)} ${message}` });
  };
  if (format !== DESIGN_FORMAT) report('format', format, 'wrong-format', `is not "${DESIGN_FORMAT}"`);
  if (!isVersion(version)) report('version', version, 'wrong-version', 'is not a whole number from 1 up');
  return faults;
}

function newerVersion(version: number): Fault {
  const message = `${version} is newer than ${CURRENT_VERSION}, the newest that this Kerfweave reads`;
  return { path: 'version', code: 'newer-version', message };
}

function newerFile(raw: JsonObject, version: number): NewerFile {
  const unknown: string[] = [];
  const attempt = checkCurrent({ ...raw, version: CURRENT_VERSION }, (fault) => unknown.push(fault.path));
  return { version, raw, design: attempt.ok ? attempt.design : null, unknown };
}

/** `passOver`: fields that are not known are handed to it and left out, instead of being faults. */
function checkCurrent(document: JsonObject, passOver?: (unknown: ShapeFault) => void): ParseResult {
  const long = overlongLists(document);
  if (long.length > 0) return refused(long);
  const parsed = designSchema.safeParse(document, { reportInput: true });
  const wrong = parsed.success ? [] : shapeFaults(parsed.error.issues);
  const unknown = wrong.filter((fault) => fault.code === 'unknown-field');
  const rest = wrong.filter((fault) => fault.code !== 'unknown-field');
  if (passOver && unknown.length > 0) {
    if (rest.length > 0) return refused(rest);
    unknown.forEach(passOver);
    return checkCurrent(
      without(
        document,
        unknown.map((fault) => fault.steps),
      ),
    );
  }
  // A field that nobody knows makes nothing around it unsound.
  const isSound = soundness(rest);
  const broken = [
    ...ruleFaults((parsed.data ?? document) as ShapedDesign, isSound),
    ...madeFaults(document, isSound),
  ];
  const faults = [...wrong, ...broken];
  return faults.length > 0 || !parsed.success
    ? refused(faults)
    : { ok: true, design: defaultsFilled(parsed.data) };
}

/** Whether neither the value at a path nor anything in it or around it has a fault. */
function soundness(faults: readonly ShapeFault[]): (path: readonly PropertyKey[]) => boolean {
  const wrong = new Set<string>();
  const holdsWrong = new Set<string>();
  for (const { path, steps } of faults) {
    wrong.add(path);
    for (let n = 0; n < steps.length; n++) holdsWrong.add(pathText(steps.slice(0, n)));
  }
  return (path) =>
    !holdsWrong.has(pathText(path)) && !path.some((_, n) => wrong.has(pathText(path.slice(0, n + 1))));
}

/**
 * What the file may leave out is filled in; what says nothing (`smooth: false`, an empty list of holes) is left
 * out.
 */
function defaultsFilled(shaped: ShapedDesign): Design {
  const { sets, order, form, colors, made, work, offer, quote, ...fields } = shaped;
  const design: Design = {
    ...fields,
    sets: sets.map(filledSet),
    order: order ?? defaultOrder(sets),
    form: form && filledForm(form),
  };
  const measured = Object.entries(made ?? {}).filter(([, slot]) => Object.keys(slot).length > 0);
  const optional = said({
    colors: said(colors) as Design['colors'],
    made: measured.length > 0 ? Object.fromEntries<MadeSlot>(measured) : undefined,
    work: work && work.done.length > 0 ? work : undefined,
    offer: said(offer),
    quote: filledQuote(quote),
  });
  return { ...design, ...optional };
}

/** The fields that say something, or undefined when none does. */
function said<T extends object>(fields: T | undefined): T | undefined {
  const given = Object.entries(fields ?? {}).filter(([, value]) => value !== undefined);
  return given.length > 0 ? (Object.fromEntries(given) as T) : undefined;
}

function filledQuote(shaped: ShapedDesign['quote']): Quote | undefined {
  const { hours, timber_per_m3, extras, ...fields } = shaped ?? {};
  return said<Quote>({
    ...fields,
    hours: said(hours),
    timber_per_m3: said(timber_per_m3) as Quote['timber_per_m3'],
    extras: extras && extras.length > 0 ? extras : undefined,
  });
}

function filledSet(shaped: ShapedDesign['sets'][number]): SlotSet {
  const { locked, cut, web_side, ...set } = shaped;
  return {
    ...set,
    ...writtenCut({ cut, web_side }),
    ...(locked ? { locked } : {}),
  };
}

function filledForm({ outline, loop, holes, ...fields }: NonNullable<ShapedDesign['form']>): Form {
  return {
    outline: outline.map(({ z_mm, r_mm, smooth }): OutlinePoint =>
      smooth ? { z_mm, r_mm, smooth } : { z_mm, r_mm },
    ),
    ...(loop ? { loop } : {}),
    ...(holes && holes.length > 0 ? { holes } : {}),
    ...fields,
  };
}

/** Lists that are too long to be looked at entry by entry. */
function overlongLists(document: JsonObject): Fault[] {
  for (const [pattern, most] of LIST_LIMITS) {
    const faults = placesOf(document, pattern).flatMap(({ path, value }): Fault[] =>
      Array.isArray(value) && value.length > most
        ? [
            {
              path: pathText(path),
              code: 'too-long',
              message: `has ${value.length} entries; at most ${most}`,
            },
          ]
        : [],
    );
    if (faults.length > 0) return faults;
  }
  return [];
}
