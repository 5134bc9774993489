/**
 * Reading a design: from the bytes of a file, or from a value that claims to be one, to a document with every
 * default filled in, or to the faults that keep it from being one. Never throws, whatever the input.
 */
import { DESIGN_FORMAT, type Design, type OutlinePoint } from './document.ts';
import { capFaults, type Fault, pathText, shown } from './faults.ts';
import { readJson } from './json.ts';
import { CURRENT_VERSION, isJsonObject, type JsonObject, migrate } from './migrations.ts';
import { defaultOrder } from './order.ts';
import { ruleFaults } from './rules.ts';
import { designSchema, LIST_LIMITS, type ShapedDesign } from './schema.ts';
import { shapeFaults, type ShapeFault } from './shapeFaults.ts';

export type ParseResult =
  | { readonly ok: true; readonly design: Design }
  | { readonly ok: false; readonly faults: readonly Fault[]; readonly newer?: NewerFile };

/** A file of a later version: what it holds, untouched, and what of it this version understands. */
export interface NewerFile {
  readonly version: number;
  readonly raw: JsonObject;
  /** The design without the fields that are not known here, or null when the rest is not one. For reading only. */
  readonly design: Design | null;
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
  if (head.length === 0 && isVersion(version)) return checkCurrent(migrate(value, version));
  const rest = checkCurrent({ ...value, format: DESIGN_FORMAT, version: CURRENT_VERSION });
  return refused([...head, ...(rest.ok ? [] : rest.faults)]);
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
  const attempt = checkCurrent({ ...raw, version: CURRENT_VERSION }, 'ignore unknown fields');
  return { version, raw, design: attempt.ok ? attempt.design : null };
}

function checkCurrent(
  document: JsonObject,
  unknownFields: 'refuse' | 'ignore unknown fields' = 'refuse',
): ParseResult {
  const long = overlongLists(document);
  if (long.length > 0) return refused(long);
  const parsed = designSchema.safeParse(document, { reportInput: true });
  const wrong = parsed.success ? [] : shapeFaults(parsed.error.issues);
  const unknown = wrong.filter((fault) => fault.code === 'unknown-field');
  const rest = wrong.filter((fault) => fault.code !== 'unknown-field');
  if (unknownFields === 'ignore unknown fields' && unknown.length > 0)
    return rest.length > 0
      ? refused(rest)
      : checkCurrent(
          without(
            document,
            unknown.map((fault) => fault.steps),
          ),
        );
  // A field that nobody knows makes nothing around it unsound.
  const isSound = soundness(rest);
  const broken = ruleFaults((parsed.data ?? document) as ShapedDesign, isSound);
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

/** What the file may leave out is filled in; `smooth: false` says nothing and is left out. */
function defaultsFilled(shaped: ShapedDesign): Design {
  const { order, form, ...fields } = shaped;
  const outline = form?.outline.map(({ z_mm, r_mm, smooth }): OutlinePoint =>
    smooth ? { z_mm, r_mm, smooth } : { z_mm, r_mm },
  );
  return { ...fields, order: order ?? defaultOrder(shaped.sets), form: outline ? { outline } : null };
}

/** Lists that are too long to be looked at entry by entry. */
function overlongLists(document: JsonObject): Fault[] {
  const faults: Fault[] = [];
  const visit = (value: unknown, path: readonly string[], most: number, at: PropertyKey[]): void => {
    const [step, ...rest] = path;
    if (step === undefined) {
      if (Array.isArray(value) && value.length > most)
        faults.push({
          path: pathText(at),
          code: 'too-long',
          message: `has ${value.length} entries; at most ${most}`,
        });
    } else if (step === '*') {
      if (Array.isArray(value)) value.forEach((entry, i) => visit(entry, rest, most, [...at, i]));
    } else if (isJsonObject(value)) visit(value[step], rest, most, [...at, step]);
  };
  for (const [path, most] of LIST_LIMITS) {
    visit(document, path, most, []);
    if (faults.length > 0) break;
  }
  return faults;
}

function without(document: JsonObject, paths: readonly (readonly PropertyKey[])[]): JsonObject {
  const copy = structuredClone(document);
  for (const path of paths) {
    let holder: unknown = copy;
    for (const step of path.slice(0, -1)) holder = Reflect.get(holder as object, step);
    Reflect.deleteProperty(holder as object, path[path.length - 1]);
  }
  return copy;
}
