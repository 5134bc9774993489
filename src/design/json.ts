/**
 * From the bytes of a file to a JSON value, refusing what could hurt before it is parsed: too large, not
 * UTF-8, nested too deep, a key given twice (the parser would keep the last one without a word). One pass
 * over the text, no recursion, so that no input can overflow the stack or take long.
 */
import { type Fault, pathText, quoted } from './faults.ts';
import { MAX_DEPTH, MAX_FILE_BYTES } from './limits.ts';

export type JsonResult =
  | { readonly ok: true; readonly value: unknown; readonly duplicates: readonly Fault[] }
  | { readonly ok: false; readonly faults: readonly Fault[] };

/** Reads JSON from text or from the bytes of a UTF-8 file. A byte order mark of UTF-8 is allowed. */
export function readJson(input: string | Uint8Array): JsonResult {
  if (input.length > MAX_FILE_BYTES)
    return refusal(
      'too-large',
      `the file is larger than ${MAX_FILE_BYTES / 1e6} MB, the most a design may have`,
    );
  const decoded = typeof input === 'string' ? input : decode(input);
  if (typeof decoded !== 'string') return { ok: false, faults: [decoded] };
  const text = decoded.startsWith('\ufeff') ? decoded.slice(1) : decoded;
  if (text.trim() === '') return refusal('empty', 'the file is empty');
  const scanned = scanJson(text);
  if (!scanned.ok) return scanned;
  return { ok: true, value: JSON.parse(text) as unknown, duplicates: scanned.duplicates };
}

function refusal(code: string, message: string): { ok: false; faults: Fault[] } {
  return { ok: false, faults: [{ path: '', code, message }] };
}

function decode(bytes: Uint8Array): string | Fault {
  const [first, second] = bytes;
  const marked = (first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff);
  const wideBrace = (first === OPEN_OBJECT && second === 0) || (first === 0 && second === OPEN_OBJECT);
  if (marked || wideBrace)
    return { path: '', code: 'not-utf8', message: 'the file is UTF-16, not UTF-8: save it as UTF-8' };
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    // The only error that decoding can raise: the bytes are no UTF-8.
    return { path: '', code: 'not-utf8', message: 'the file is not text (UTF-8)' };
  }
}

interface Container {
  /** Keys met so far; null for a list. */
  readonly keys: Set<string> | null;
  /** Key or index of the entry being read. */
  at: string | number;
}

type Expected = 'value' | 'value or ]' | 'key or }' | 'key' | ':' | ', or end' | 'nothing';

type ScanResult = { ok: true; duplicates: Fault[] } | { ok: false; faults: Fault[] };

/** Checks the grammar of RFC 8259, the depth, and that no object has a key twice. */
function scanJson(text: string): ScanResult {
  const stack: Container[] = [];
  const duplicates: Fault[] = [];
  let expected: Expected = 'value';
  let i = 0;

  const wrong = (): ScanResult =>
    i >= text.length
      ? refusal('cut-off', `the file ends in the middle of the design (${place(text, i)}): it looks cut off`)
      : refusal('not-json', `not JSON: unexpected ${character(text, i)} at ${place(text, i)}`);
  const afterValue = (): Expected => (stack.length === 0 ? 'nothing' : ', or end');

  for (;;) {
    i = skipSpace(text, i);
    if (i >= text.length) return expected === 'nothing' ? { ok: true, duplicates } : wrong();
    const code = text.charCodeAt(i);
    const top = stack.at(-1);
    if (expected === ':') {
      if (code !== COLON) return wrong();
      i++;
      expected = 'value';
    } else if (expected === ', or end') {
      if (code === COMMA) {
        i++;
        if (typeof top?.at === 'number') top.at++;
        expected = top?.keys ? 'key' : 'value';
      } else if (top && code === (top.keys ? CLOSE_OBJECT : CLOSE_LIST)) {
        i++;
        stack.pop();
        expected = afterValue();
      } else return wrong();
    } else if (expected === 'key' || expected === 'key or }') {
      if (code === CLOSE_OBJECT && expected === 'key or }') {
        i++;
        stack.pop();
        expected = afterValue();
        continue;
      }
      if (code !== QUOTE || !top?.keys) return wrong();
      const end = stringEnd(text, i);
      if (end < 0) {
        i = -end - 1;
        return wrong();
      }
      const written = text.slice(i + 1, end - 1);
      const key = written.includes('\\') ? (JSON.parse(`"${written}"`) as string) : written;
      top.at = key;
      if (top.keys.has(key)) {
        const path = pathText(stack.map((container) => container.at));
        duplicates.push({ path, code: 'duplicate-key', message: 'is given twice' });
      }
      top.keys.add(key);
      i = end;
      expected = ':';
    } else if (expected === 'nothing') {
      return wrong();
    } else if (code === OPEN_OBJECT || code === OPEN_LIST) {
      if (stack.length === MAX_DEPTH)
        return refusal('too-deep', `nested more than ${MAX_DEPTH} deep at ${place(text, i)}`);
      const object = code === OPEN_OBJECT;
      stack.push({ keys: object ? new Set() : null, at: object ? '' : 0 });
      expected = object ? 'key or }' : 'value or ]';
      i++;
    } else if (code === CLOSE_LIST && expected === 'value or ]') {
      i++;
      stack.pop();
      expected = afterValue();
    } else {
      const end = code === QUOTE ? stringEnd(text, i) : scalarEnd(text, i);
      if (end < 0) {
        i = -end - 1;
        return wrong();
      }
      i = end;
      expected = afterValue();
    }
  }
}

const QUOTE = 0x22;
const COMMA = 0x2c;
const COLON = 0x3a;
const BACKSLASH = 0x5c;
const OPEN_LIST = 0x5b;
const CLOSE_LIST = 0x5d;
const OPEN_OBJECT = 0x7b;
const CLOSE_OBJECT = 0x7d;

function skipSpace(text: string, from: number): number {
  let i = from;
  for (; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code !== 0x20 && code !== 0x0a && code !== 0x0d && code !== 0x09) break;
  }
  return i;
}

/** Index after the string that starts at `from`, or −(index of the wrong character) − 1. */
function stringEnd(text: string, from: number): number {
  for (let i = from + 1; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code === QUOTE) return i + 1;
    if (code < 0x20) return -i - 1;
    if (code !== BACKSLASH) continue;
    i++;
    if (i >= text.length) break;
    if (text[i] === 'u') {
      for (let digit = 0; digit < 4; digit++) {
        i++;
        if (i < text.length && !/[0-9a-fA-F]/.test(text[i])) return -i - 1;
      }
    } else if (!'"\\/bfnrt'.includes(text[i])) return -i - 1;
  }
  return -text.length - 1;
}

const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const WORD = /true|false|null/y;

/** What a number or word looks like that the end of the file has cut short. */
const BEGUN = /(?:-|[.]|[eE][+-]?|t|tr|tru|f|fa|fal|fals|n|nu|nul)$/y;

/** Index after the number or word that starts at `from`, or −(index of the wrong character) − 1. */
function scalarEnd(text: string, from: number): number {
  NUMBER.lastIndex = from;
  WORD.lastIndex = from;
  const end = NUMBER.test(text) ? NUMBER.lastIndex : WORD.test(text) ? WORD.lastIndex : from;
  BEGUN.lastIndex = end;
  if (BEGUN.test(text)) return -text.length - 1;
  return end > from ? end : -from - 1;
}

function place(text: string, index: number): string {
  const before = text.slice(0, index);
  const line = before.split('\n').length;
  return `line ${line}, column ${index - before.lastIndexOf('\n')}`;
}

function character(text: string, index: number): string {
  const code = text.codePointAt(index) ?? 0;
  return code < 0x20
    ? `U+${code.toString(16).toUpperCase().padStart(4, '0')}`
    : quoted(String.fromCodePoint(code));
}
