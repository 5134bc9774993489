/**
 * Thousands of mutated design files: each is refused with the path of what was broken, or loads to a design
 * that writes and reads back identically. What a mutation must lead to is known from how it was made, not
 * from the code. Run `npm run soak -- design-files` for the full count.
 */
import { describe, expect, it } from 'vitest';
import { faultLine } from '../../src/design/faults.ts';
import { parseDesign, type ParseResult } from '../../src/design/parse.ts';
import { serializeDesign } from '../../src/design/serialize.ts';
import { fourRings, hollowForm, randomDesign } from '../fixtures/designs.ts';
import { seededRandom, type Random } from '../fixtures/random.ts';
import { countFor, SEED } from '../soak/counts.ts';
import { decorated } from '../fixtures/decorated.ts';
import { cpuMilliseconds } from './cpu.ts';

const SLOWEST_MS = 1000;

interface Mutated {
  readonly text: string;
  /** What must come out: the same design, a fault at this path, or either (anything but an exception). */
  readonly must: 'same' | { readonly faultAt: string } | 'either';
}

/** Paths of all values in a document, as faults write them. */
function pathsOf(value: unknown, path = ''): [path: string, value: unknown][] {
  const here: [string, unknown][] = path === '' ? [] : [[path, value]];
  if (Array.isArray(value)) return [...here, ...value.flatMap((entry, i) => pathsOf(entry, `${path}[${i}]`))];
  if (typeof value !== 'object' || value === null) return here;
  return [...here, ...Object.entries(value).flatMap(([key, field]) => pathsOf(field, under(path, key)))];
}

function under(path: string, key: string): string {
  if (!/^\w+$/.test(key)) return `${path}["${key}"]`;
  return path === '' ? key : `${path}.${key}`;
}

function holderOf(document: unknown, path: string): [holder: object, key: string] {
  const steps = Array.from(path.matchAll(/"([^"]*)"|([^.[\]"]+)/g), ([, quoted, plain]) => quoted ?? plain);
  const holder = steps
    .slice(0, -1)
    .reduce((value, step) => Reflect.get(value as object, step) as unknown, document);
  return [holder as object, steps[steps.length - 1]];
}

/** The document with one value of another kind: a fault at exactly that place is certain. */
function wrongKind(random: Random, document: unknown): Mutated {
  // `form` and the depth of a hole may be null; `format` and `version` decide what is read at all and have tests
  // of their own.
  const places = pathsOf(document).filter(([path]) => !['format', 'version'].includes(path));
  const [path, value] = random.pick(places);
  const [holder, key] = holderOf(document, path);
  const others: unknown[] = [true, {}, [], 'x'.repeat(5), 12, null];
  const kind = (v: unknown) => (Array.isArray(v) ? 'list' : v === null ? 'null' : typeof v);
  const allowed = (v: unknown) =>
    (path === 'form' && v === null) ||
    (/^form\.holes.*\.depth_mm$/.test(path) && (v === null || typeof v === 'number'));
  const other = random.pick(others.filter((v) => kind(v) !== kind(value) && !allowed(v)));
  Reflect.set(holder, key, other);
  return { text: JSON.stringify(document), must: { faultAt: path } };
}

function unknownField(random: Random, document: unknown): Mutated {
  const objects = pathsOf(document).filter(([, value]) => typeof value === 'object' && !Array.isArray(value));
  const [path, holder] = random.pick(objects.filter(([, value]) => value !== null));
  const key = random.pick(['colour', 'angle', 'Kerf_mm', 'toString', 'constructor', '__proto__', 'x1']);
  Object.defineProperty(holder, key, { value: 1, enumerable: true, configurable: true, writable: true });
  return { text: JSON.stringify(document), must: { faultAt: `${path}.${key}` } };
}

/** The same document in another dress: blanks, order of keys, escapes. */
function otherDress(random: Random, document: unknown): Mutated {
  const blank = () => random.pick(['', '', ' ', '\n', '\t', '\r\n  ']);
  const text = (value: string) =>
    `"${Array.from(value, (character) =>
      random.chance(0.2) && character.length === 1
        ? `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`
        : JSON.stringify(character).slice(1, -1),
    ).join('')}"`;
  const number = (value: number) =>
    random.pick([JSON.stringify(value), value.toExponential(), JSON.stringify(value)]);
  const write = (value: unknown): string => {
    if (Array.isArray(value))
      return `[${value.map((entry) => blank() + write(entry) + blank()).join(',')}${blank()}]`;
    if (typeof value === 'number') return number(value);
    if (typeof value === 'string') return text(value);
    if (typeof value !== 'object' || value === null) return JSON.stringify(value);
    const entries = Object.entries(value).toSorted(() => random.next() - 0.5);
    const fields = entries.map(
      ([key, field]) => `${blank()}${text(key)}${blank()}:${blank()}${write(field)}`,
    );
    return `{${fields.join(`${blank()},`)}${blank()}}`;
  };
  return { text: `${blank()}${write(document)}${blank()}`, must: 'same' };
}

function wildValue(random: Random): unknown {
  return random.pick([
    -1,
    0,
    90,
    1e-12,
    1e12,
    Number.MAX_VALUE,
    '',
    'S1.1',
    'body',
    '\ud800',
    'hard-maple',
    '#12aBcd',
    'side',
    null,
    [],
    {},
    [[]],
    true,
  ]);
}

/** One to three values replaced, removed, doubled or swapped, with no certain outcome. */
function wildValues(random: Random, document: unknown): Mutated {
  for (let n = random.whole(1, 3); n > 0; n--) {
    const [path, value] = random.pick(pathsOf(document));
    const [holder, key] = holderOf(document, path);
    if (random.chance(0.5)) Reflect.set(holder, key, wildValue(random));
    else if (random.chance(0.4)) Reflect.deleteProperty(holder, key);
    else if (Array.isArray(value) && value.length > 0)
      value.push(structuredClone(random.pick(value as unknown[])));
    else if (typeof value === 'number') Reflect.set(holder, key, value * random.pick([-1, 0.5, 2, 1000]));
    if (pathsOf(document).length === 0) break;
  }
  return { text: JSON.stringify(document), must: 'either' };
}

/** Characters lost, added, changed or repeated, as a bad disk or a slip of the hand does. */
function wildText(random: Random, source: string): Mutated {
  let text = source;
  for (let n = random.whole(1, 4); n > 0; n--) {
    const at = random.whole(0, text.length);
    const length = random.pick([1, 1, 2, 8, 60]);
    const sign = random.pick(Array.from('{}[]",:0123456789.eE+-truefalsn \n\\\u0000\u00e9\ud83e'));
    text = random.pick([
      text.slice(0, at) + text.slice(at + length),
      text.slice(0, at) + sign + text.slice(at),
      text.slice(0, at) + sign + text.slice(at + 1),
      text.slice(0, at) + text.slice(at, at + length) + text.slice(at),
      text.slice(0, at),
    ]);
  }
  return { text, must: 'either' };
}

function mutated(random: Random, source: string): Mutated {
  const document: unknown = JSON.parse(source);
  const choice = random.next();
  if (choice < 0.25) return wrongKind(random, document);
  if (choice < 0.35) return unknownField(random, document);
  if (choice < 0.5) return otherDress(random, document);
  if (choice < 0.75) return wildValues(random, document);
  return wildText(random, source);
}

function check({ text, must }: Mutated, source: string, result: ParseResult): void {
  if (result.ok) {
    const written = serializeDesign(result.design);
    expect(parseDesign(written)).toEqual({ ok: true, design: result.design });
    if (must === 'same') expect(written).toBe(source);
  } else {
    expect(result.faults.length).toBeGreaterThan(0);
    for (const fault of result.faults) {
      expect(fault.code).toMatch(/^[a-z][a-z0-9-]+$/);
      expect(faultLine(fault)).toMatch(/^[^\n\r]{5,}$/);
    }
    expect(must, text).not.toBe('same');
  }
  if (typeof must === 'object') {
    const paths = result.ok ? [] : result.faults.map((fault) => fault.path);
    expect(paths, text).toContain(must.faultAt);
  }
}

describe('mutated design files', () => {
  it('are refused with their paths or load to an identical design', () => {
    const rounds = countFor('design-files', 2_000, 100_000);
    const sources = [
      fourRings({ notes: 'made for a friend', set: { notes: 'first\nsecond' } }),
      fourRings({ form: hollowForm(203.2, 34, 5, 8) }),
      ...Array.from({ length: 18 }, (_, n) => decorated(SEED + n, randomDesign(SEED + n))),
    ].map(serializeDesign);
    const outcomes = { loaded: 0, refused: 0 };
    let slowest_ms = 0;
    for (let round = 0; round < rounds; round++) {
      const random = seededRandom(SEED + round);
      const source = random.pick(sources);
      const mutation = mutated(random, source);
      const begun = cpuMilliseconds();
      const result = parseDesign(
        random.chance(0.5) ? mutation.text : new TextEncoder().encode(mutation.text),
      );
      slowest_ms = Math.max(slowest_ms, cpuMilliseconds() - begun);
      try {
        check(mutation, source, result);
      } catch (error) {
        throw new Error(`round ${round}, seed ${SEED}: ${mutation.text.slice(0, 4000)}`, { cause: error });
      }
      outcomes[result.ok ? 'loaded' : 'refused']++;
    }
    console.log(
      `${outcomes.loaded} loaded, ${outcomes.refused} refused, slowest ${slowest_ms.toFixed(1)} ms`,
    );
    expect(outcomes.loaded).toBeGreaterThan(rounds * 0.1);
    expect(outcomes.refused).toBeGreaterThan(rounds * 0.3);
    expect(slowest_ms).toBeLessThan(SLOWEST_MS);
  });
});
