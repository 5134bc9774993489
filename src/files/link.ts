/**
 * A design, or its variants, as the fragment of an address: `d=1.` and base64url of four bytes CRC-32 and the
 * compact JSON of the design file, deflated (RFC 1951) with a fixed dictionary; `&for=client` after it opens the
 * client's page, `&for=reply` is a client's answer. The fragment of an address is
 * not sent to any server. What is read is checked exactly as a file is; nothing here throws, whatever the input.
 */
import { deflateSync, inflateSync } from 'fflate';
import { DEFAULT_HIGH_SIDE, DEFAULT_SAW } from '../design/defaults.ts';
import type { Design } from '../design/document.ts';
import { type Fault, faultLine } from '../design/faults.ts';
import { readJson } from '../design/json.ts';
import { MAX_NAME_CHARACTERS } from '../design/limits.ts';
import { forClient } from '../design/offerEdits.ts';
import { defaultOrder } from '../design/order.ts';
import { checkDesign, type NewerFile } from '../design/parse.ts';
import { withoutTurns } from '../design/plainText.ts';
import { serializeDesign } from '../design/serialize.ts';
import { crc32 } from './crc32.ts';
import { LINK_DICTIONARY_1 } from './linkDictionary.ts';

export interface LinkedVariant {
  readonly name: string;
  readonly design: Design;
}

/** What a link holds: one design, or several variants of it and the one that is shown first. */
export interface LinkedWork {
  readonly variants: readonly LinkedVariant[];
  readonly active: number;
}

/** Whom a link is for: a client, to look and choose, or the maker, as the client's answer. */
export type LinkFor = 'client' | 'reply';

export type LinkMade =
  { readonly ok: true; readonly fragment: string } | { readonly ok: false; readonly message: string };

export type LinkRead =
  /** Without `for`: a design to go on with. */
  | { readonly ok: true; readonly work: LinkedWork; readonly for?: LinkFor }
  | {
      readonly ok: false;
      readonly faults: readonly Fault[];
      /** A design of a later version, to be opened for reading only. */
      readonly newer?: NewerFile;
    };

/** Characters of a fragment; programs that pass links on begin to cut them off somewhere beyond. */
export const MAX_LINK_CHARACTERS = 16_000;
/** Text that a link may unfold to: far more than a link of that length holds unless it was made to hurt. */
const MAX_TEXT_BYTES = 256_000;
const MAX_LINKED_VARIANTS = 8;

const VERSION = 1;
const PREFIX = `d=${VERSION}.`;
const CHECK_BYTES = 4;

/** Whether a fragment (with or without its #) means to be a link to a design. */
export function isDesignLink(fragment: string): boolean {
  return /^#?d(=|%3d)/i.test(fragment);
}

/** Whom a fragment says it is for; null: nobody in particular, or no link at all. */
export function linkPurpose(fragment: string): LinkFor | null {
  const whom = isDesignLink(fragment) && /(?:&|%26)for(?:=|%3d)(client|reply)$/i.exec(fragment);
  return whom ? (whom[1].toLowerCase() as LinkFor) : null;
}

/** The fragment, without its #, of the link to a client's page: what is the maker's own is not in it. */
export function makeClientLink({ variants, active }: LinkedWork): LinkMade {
  const shown = variants.map(({ name, design }) => ({ name, design: forClient(design) }));
  return marked(makeLink({ variants: shown, active }), 'client');
}

/** The fragment, without its #, of a client's answer: the variant that was chosen, with the choice in it. */
export function makeReplyLink({ name, design }: LinkedVariant): LinkMade {
  const answer = { ...forClient(design), ...(design.choice ? { choice: design.choice } : {}) };
  return marked(makeLink({ variants: [{ name, design: answer }], active: 0 }), 'reply');
}

function marked(link: LinkMade, whom: LinkFor): LinkMade {
  return link.ok ? { ok: true, fragment: `${link.fragment}&for=${whom}` } : link;
}

/** The fragment, without its #, of a link to the work. */
export function makeLink(work: LinkedWork): LinkMade {
  const designs = work.variants.map(({ name, design }) => ({ name, design: compact(design) }));
  const value = designs.length === 1 ? designs[0].design : { active: work.active, variants: designs };
  const text = new TextEncoder().encode(JSON.stringify(value));
  const packed = deflateSync(text, { level: 9, dictionary: LINK_DICTIONARY_1 });
  const bytes = new Uint8Array(CHECK_BYTES + packed.length);
  new DataView(bytes.buffer).setUint32(0, crc32(text));
  bytes.set(packed, CHECK_BYTES);
  const fragment = PREFIX + toBase64Url(bytes);
  if (fragment.length <= MAX_LINK_CHARACTERS && text.length <= MAX_TEXT_BYTES) return { ok: true, fragment };
  const message =
    `This design is too large for a link: ${fragment.length} characters, and a link carries at most ` +
    `${MAX_LINK_CHARACTERS}. Send it as a file instead.`;
  return { ok: false, message };
}

/** Reads the fragment of a link, with or without its #. */
export function readLink(fragment: string): LinkRead {
  const unpacked = unpack(fragment);
  if (!unpacked.ok) return unpacked;
  const json = readJson(unpacked.text);
  if (!json.ok) return json;
  if (json.duplicates.length > 0) return { ok: false, faults: json.duplicates };
  const { value } = json;
  const read =
    typeof value === 'object' && value !== null && 'variants' in value ? readVariants(value) : readOne(value);
  return read.ok && unpacked.for !== undefined ? { ...read, for: unpacked.for } : read;
}

function readOne(value: unknown): LinkRead {
  const result = checkDesign(value);
  if (!result.ok) return result;
  return { ok: true, work: { variants: [{ name: 'Variant 1', design: result.design }], active: 0 } };
}

function readVariants(value: { readonly variants: unknown }): LinkRead {
  const { variants, active, ...others } = value as Record<string, unknown>;
  const other = Object.keys(others)[0];
  if (other !== undefined) return refused('unknown-field', 'is not a field of a link', other);
  if (!Array.isArray(variants) || variants.length === 0 || variants.length > MAX_LINKED_VARIANTS)
    return refused('wrong-type', `is not a list of 1 to ${MAX_LINKED_VARIANTS} variants`, 'variants');
  const read: LinkedVariant[] = [];
  for (const [i, entry] of (variants as unknown[]).entries()) {
    const path = `variants[${i}]`;
    const { name, design } = (entry ?? {}) as { name?: unknown; design?: unknown };
    if (
      typeof name !== 'string' ||
      name.length > MAX_NAME_CHARACTERS ||
      /[\p{Cc}\p{Cs}\p{Zl}\p{Zp}]/u.test(name)
    )
      return refused('wrong-type', 'is not a name', `${path}.name`);
    const result = checkDesign(design);
    if (!result.ok) {
      const faults = result.faults.map((fault) => ({
        ...fault,
        path: [`${path}.design`, fault.path].filter(Boolean).join('.'),
      }));
      return { ...result, faults };
    }
    read.push({ name: withoutTurns(name), design: result.design });
  }
  if (!Number.isInteger(active) || (active as number) < 0 || (active as number) >= read.length)
    return refused('wrong-type', 'is not the number of a variant', 'active');
  return { ok: true, work: { variants: read, active: active as number } };
}

/** What is wrong with a link, in one sentence. */
export function linkFaultLine(read: LinkRead): string {
  return read.ok ? '' : read.faults.map(faultLine).join('; ');
}

function refused(code: string, message: string, path = ''): { ok: false; faults: Fault[] } {
  return { ok: false, faults: [{ path, code, message }] };
}

const DAMAGED = 'the link is damaged: a part of it is missing or has changed on the way';

type Unpacked =
  | { readonly ok: true; readonly text: string; readonly for: LinkFor | undefined }
  | { readonly ok: false; readonly faults: Fault[] };

/** Room for the beginning of a link, written otherwise by a program on the way, and for whom it is. */
const MARK_CHARACTERS = 40;

function unpack(fragment: string): Unpacked {
  if (fragment.length > MAX_LINK_CHARACTERS + MARK_CHARACTERS)
    return refused('too-large', `the link is longer than ${MAX_LINK_CHARACTERS} characters`);
  const plain = fragment
    .replace(/^#/, '')
    .replace(/^d%3d/i, 'd=')
    .replace(/%26for(%3d|=)/i, '&for=');
  const parts = /^d=(\d{1,6})\.([A-Za-z0-9_-]*)(?:&for=([a-z]{1,16}))?$/.exec(plain);
  if (!parts) return refused('link-damaged', DAMAGED);
  const version = Number(parts[1]);
  if (version > VERSION)
    return refused(
      'newer-link',
      `the link is of version ${version}; this Kerfweave reads links up to ${VERSION}`,
    );
  const whom = parts[3] as string | undefined;
  if (whom !== undefined && whom !== 'client' && whom !== 'reply')
    return refused('newer-link', `the link is made for "${whom}", which this Kerfweave does not know`);
  const bytes = fromBase64Url(parts[2]);
  if (version !== VERSION || bytes === null || bytes.length <= CHECK_BYTES)
    return refused('link-damaged', DAMAGED);
  let text: Uint8Array;
  try {
    // The buffer is the bound: what does not fit is counted by the byte over, and never kept.
    const out = new Uint8Array(MAX_TEXT_BYTES + 1);
    text = inflateSync(bytes.subarray(CHECK_BYTES), { dictionary: LINK_DICTIONARY_1, out });
  } catch {
    // Thrown for bytes that are no deflate stream, and for nothing else.
    return refused('link-damaged', DAMAGED);
  }
  if (text.length > MAX_TEXT_BYTES)
    return refused('too-large', `the link unfolds to more than ${MAX_TEXT_BYTES / 1000} kB of text`);
  if (crc32(text) !== new DataView(bytes.buffer).getUint32(0)) return refused('link-damaged', DAMAGED);
  try {
    const decoded = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(text);
    return { ok: true, text: decoded, for: whom };
  } catch {
    // The only error that decoding can raise: the bytes are no UTF-8.
    return refused('not-utf8', 'the link does not hold text');
  }
}

/** The design as its file has it, without what the file may leave out. */
function compact(design: Design): object {
  const file = JSON.parse(serializeDesign(design)) as Record<string, unknown>;
  const order = JSON.stringify(defaultOrder(design.sets));
  if (JSON.stringify(file.order) === order) delete file.order;
  if (file.form === null) delete file.form;
  file.sets = (file.sets as Record<string, unknown>[]).map(({ high_side, ...set }) =>
    high_side === DEFAULT_HIGH_SIDE ? set : { ...set, high_side },
  );
  const saw = Object.entries(file.saw as Record<string, unknown>).filter(
    ([field, value]) => value !== Reflect.get(DEFAULT_SAW, field),
  );
  if (saw.length > 0) file.saw = Object.fromEntries(saw);
  else delete file.saw;
  return file;
}

function toBase64Url(bytes: Uint8Array): string {
  const text = Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
  return btoa(text).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');
}

/** null: not a length that base64 can have. */
function fromBase64Url(text: string): Uint8Array<ArrayBuffer> | null {
  if (text.length % 4 === 1) return null;
  const binary = atob(text.replaceAll('-', '+').replaceAll('_', '/'));
  return Uint8Array.from(binary, (character) => character.charCodeAt(0));
}
