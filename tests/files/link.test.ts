/**
 * Links: a design survives the way there and back, a damaged link never opens as another design, and what a
 * link holds is judged as a file is. Node's zlib packs and unpacks independently (RFC 1951, RFC 1952).
 */
import { readdirSync, readFileSync } from 'node:fs';
import { deflateRawSync, gzipSync, inflateRawSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import type { Design } from '../../src/design/document.ts';
import { forClient, setChoice, setOffer } from '../../src/design/offerEdits.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { serializeDesign } from '../../src/design/serialize.ts';
import {
  isDesignLink,
  type LinkMade,
  linkFaultLine,
  makeClientLink,
  makeLink,
  makeReplyLink,
  MAX_LINK_CHARACTERS,
  readLink,
} from '../../src/files/link.ts';
import { crc32 } from '../../src/files/crc32.ts';
import { LINK_DICTIONARY_1 } from '../../src/files/linkDictionary.ts';
import { cpuMilliseconds } from '../design/cpu.ts';
import { decorated } from '../fixtures/decorated.ts';
import { fourRings, hollowForm, randomDesign, slotSet } from '../fixtures/designs.ts';
import { seededRandom, type Random } from '../fixtures/random.ts';
import { countFor, SEED } from '../soak/counts.ts';

const dictionary = Buffer.from(LINK_DICTIONARY_1);
const SLOWEST_MS = 1000;

function linkOf(design: Design): string {
  const made = makeLink({ variants: [{ name: 'Variant 1', design }], active: 0 });
  if (!made.ok) throw new Error(made.message);
  return made.fragment;
}

function designIn(fragment: string): Design {
  const read = readLink(fragment);
  if (!read.ok) throw new Error(linkFaultLine(read));
  expect(read.work.variants).toHaveLength(1);
  return read.work.variants[0].design;
}

/** A link around any text, packed by zlib; the check sum is the one that gzip writes at its end. */
function packed(text: string | Uint8Array): string {
  return wrapped(Buffer.from(text), deflateRawSync(text, { dictionary }));
}

/** The text in a link, unfolded by zlib. */
function textIn(fragment: string): string {
  const packedText = /^d=1\.([^&]*)/.exec(fragment)![1];
  return inflateRawSync(Buffer.from(packedText, 'base64url').subarray(4), { dictionary }).toString();
}

function fragmentOf(made: LinkMade): string {
  if (!made.ok) throw new Error(made.message);
  return made.fragment;
}

function wrapped(text: Buffer, stream: Buffer): string {
  const crc = gzipSync(text).readUInt32LE(gzipSync(text).length - 8);
  const head = Buffer.alloc(4);
  head.writeUInt32BE(crc);
  return `d=1.${Buffer.concat([head, stream]).toString('base64url')}`;
}

describe('a link', () => {
  it('gives back every design as it was', () => {
    const designs = [
      fourRings({ notes: 'made for a friend – ½ ″\n第二', set: { notes: 'first\nsecond' } }),
      fourRings({ form: hollowForm(203.2, 34, 5, 8), saw: { stop_side: 'obtuse', clamp_minutes: 0 } }),
      fourRings({ form: null, sets: [], order: [] }),
      fourRings({ order: ['S1.3', 'S1.1', 'S1.4', 'S1.2'] }),
      ...Array.from({ length: 30 }, (_, n) => randomDesign(SEED + n)),
    ];
    for (const design of designs) expect(designIn(`#${linkOf(design)}`)).toEqual(design);
  });

  it('holds what the file holds, and zlib reads it', () => {
    for (const name of readdirSync('assets/designs')) {
      const result = parseDesign(readFileSync(`assets/designs/${name}`));
      if (!result.ok) throw new Error(name);
      expect(parseDesign(textIn(linkOf(result.design)))).toEqual(result);
    }
  });

  it('is at most 300 characters long for 24 regular slots', () => {
    const sets = Array.from({ length: 6 }, (_, n) => slotSet({ id: `S${n + 1}`, center_mm: 25.4 * (n + 1) }));
    const link = linkOf(fourRings({ sets }));
    console.log(`24 regular slots: ${link.length} characters`);
    expect(link.length).toBeLessThanOrEqual(300);
  });

  it('carries several variants, with their names and which one comes first', () => {
    const work = {
      variants: [
        { name: '45°', design: fourRings() },
        { name: '60°', design: fourRings({ set: { angle_deg: 60 } }) },
      ],
      active: 1,
    };
    const made = makeLink(work);
    expect(made.ok && readLink(made.fragment)).toEqual({ ok: true, work });
    expect(made.ok && made.fragment.length).toBeLessThan(linkOf(work.variants[0].design).length + 80);
  });

  it('leaves out marks that would turn the words beside a name round', () => {
    // Unicode Standard Annex 9: U+202E overrides the direction, U+2067 isolates.
    const design = fourRings({ name: '\u2067Bowl' });
    const made = makeLink({
      variants: [
        { name: 'High\u202ewoL', design },
        { name: 'Low', design },
      ],
      active: 0,
    });
    const read = made.ok && readLink(made.fragment);
    expect(read).toMatchObject({
      ok: true,
      work: { variants: [{ name: 'HighwoL', design: { name: 'Bowl' } }, { name: 'Low' }] },
    });
  });

  it('written by the first version opens for ever', () => {
    // Literal links; they must never be made anew.
    const links = JSON.parse(readFileSync('tests/fixtures/links-1.json', 'utf8')) as {
      link: string;
      file: string;
    }[];
    expect(links.length).toBeGreaterThan(1);
    for (const { link, file } of links) {
      const result = parseDesign(file);
      expect(result.ok && result.design).toEqual(designIn(link));
    }
  });

  it('is known by its beginning, and opens after a program has written signs otherwise', () => {
    const link = linkOf(fourRings());
    expect(isDesignLink(`#${link}`)).toBe(true);
    expect(isDesignLink('#/rings')).toBe(false);
    expect(isDesignLink('')).toBe(false);
    expect(designIn(`#${link.replace('=', '%3D')}`)).toEqual(fourRings());
  });
});

describe('a link for a client', () => {
  const SECRETS = ['only for me', 'the cheap stock', '77.77', 'squared', '0.777', 'hour_rate', 'quote'];
  const full: Design = {
    ...fourRings({
      sets: [slotSet({ notes: 'the cheap stock', locked: true })],
      saw: { throat_mm: 77.77 },
      notes: 'only for me',
    }),
    offer: { note: 'For your hall', price: 100, currency: 'EUR' },
    quote: { hour_rate: 77.77, extras: [{ text: 'only for me', amount: 1 }] },
    choice: { made_on: '2027-01-01', by: 'only for me' },
    made: { 'S1.1': { kerf_mm: 0.777 } },
    work: { done: ['squared'] },
  };
  const two = {
    variants: [
      { name: 'Steep', design: full },
      { name: 'Flat', design: setOffer({ ...full, name: 'Flatter' }, { note: 'Quieter' }) },
    ],
    active: 1,
  };

  it('carries the choices, and no byte of what is the maker’s own', () => {
    const fragment = fragmentOf(makeClientLink(two));
    expect(fragment).toMatch(/^d=1\.[\w-]+&for=client$/);
    expect(isDesignLink(`#${fragment}`)).toBe(true);
    const text = textIn(fragment);
    const whole = textIn(fragmentOf(makeLink(two)));
    for (const secret of SECRETS) {
      expect(whole).toContain(secret);
      expect(text).not.toContain(secret);
    }
    for (const told of ['For your hall', 'Quieter', 'Steep', 'Flat']) expect(text).toContain(told);
    const read = readLink(`#${fragment}`);
    expect(read).toEqual({
      ok: true,
      for: 'client',
      work: {
        variants: two.variants.map(({ name, design }) => ({ name, design: forClient(design) })),
        active: 1,
      },
    });
  });

  it('of any design holds only fields that are for clients', () => {
    const told = ['format', 'version', 'name', 'unit', 'blank', 'sets', 'order', 'form', 'colors', 'offer'];
    for (let n = 0; n < 60; n++) {
      const design = decorated(SEED + n, randomDesign(SEED + n));
      const fragment = fragmentOf(makeClientLink({ variants: [{ name: '', design }], active: 0 }));
      const value = JSON.parse(textIn(fragment)) as { sets: object[] };
      expect(Object.keys(value).filter((field) => !told.includes(field))).toEqual([]);
      for (const set of value.sets) expect(Object.keys(set)).not.toEqual(expect.arrayContaining(['notes']));
      expect(designIn(fragment)).toEqual(forClient(design));
    }
  });

  it('brings back the choice, alone', () => {
    const chosen = setChoice(full, { made_on: '2027-04-02', by: 'M. K.', note: 'Gladly' });
    const fragment = fragmentOf(makeReplyLink({ name: 'Steep', design: chosen }));
    expect(fragment).toMatch(/&for=reply$/);
    for (const secret of SECRETS) expect(textIn(fragment)).not.toContain(secret);
    const read = readLink(fragment);
    expect(read.ok && read.for).toBe('reply');
    expect(designIn(fragment)).toEqual({ ...forClient(full), choice: chosen.choice });
    expect(fragment.length).toBeLessThan(500);
  });

  it('is read as it comes through programs that write signs otherwise', () => {
    const fragment = fragmentOf(makeClientLink(two));
    const read = readLink(fragment);
    expect(readLink(`#${fragment.replaceAll('=', '%3D').replace('&', '%26')}`)).toEqual(read);
    expect(readLink(fragment.replace('&for=client', ''))).toEqual({ ...read, for: undefined });
    expect(linkFaultLine(readLink(fragment.replace('client', 'museum')))).toBe(
      'the link is made for "museum", which this Kerfweave does not know',
    );
    expect(linkFaultLine(readLink(fragment.replace('for=client', 'for=client&x=1')))).toMatch(/damaged/);
  });
});

describe('refused with a word', () => {
  const word = (fragment: string) => linkFaultLine(readLink(fragment));

  it('a design too large for a link, which a file can carry', () => {
    const random = seededRandom(SEED);
    const sets = Array.from({ length: 200 }, (_, n) =>
      slotSet({
        id: `S${n + 1}`,
        center_mm: random.between(0, 200),
        angle_deg: random.between(20, 80),
        web_mm: random.between(1, 9),
        fence_azimuths_deg: [random.between(0, 360)],
        notes: Array.from({ length: 60 }, () => random.pick(Array.from('abcdefghijklmnopqrstuvwxyz '))).join(
          '',
        ),
      }),
    );
    const design = fourRings({ sets, section: { shape: 'round', width_mm: 76.2 } });
    expect(parseDesign(serializeDesign(design)).ok).toBe(true);
    const made = makeLink({ variants: [{ name: '', design }], active: 0 });
    expect(made.ok).toBe(false);
    expect(made.ok || made.message).toMatch(/too large for a link.*file instead/);
  });

  it('a link that unfolds without end, in bounded time', () => {
    const bomb = packed(Buffer.alloc(6_000_000, ' '));
    expect(bomb.length).toBeLessThan(MAX_LINK_CHARACTERS);
    const begun = cpuMilliseconds();
    expect(word(bomb)).toMatch(/unfolds to more than 256 kB/);
    expect(cpuMilliseconds() - begun).toBeLessThan(SLOWEST_MS);
    expect(word(`d=1.${'A'.repeat(2_000_000)}`)).toMatch(/longer than/);
  });

  it.each([
    ['', /damaged/],
    ['d=1.', /damaged/],
    ['d=1.A', /damaged/],
    ['d=1.AAAAAAA=', /damaged/],
    ['d=1.ä', /damaged/],
    ['d=0.AAAAAAAA', /damaged/],
    ['d=2.AAAAAAAA', /of version 2; this Kerfweave reads links up to 1/],
    ['d=.AAAA', /damaged/],
  ])('%j', (fragment, expected) => {
    expect(word(fragment)).toMatch(expected);
  });

  it.each([
    ['no JSON', '{"format":', /cut off/],
    ['no design', '[1,2]', /a design is one object/],
    [
      'a wrong number',
      serializeDesign(fourRings()).replace('"angle_deg": 45', '"angle_deg": 95'),
      /sets\[0\]\.angle_deg: 95/,
    ],
    [
      'a newer design',
      serializeDesign(fourRings()).replace(/"version": \d+/, '"version": 99'),
      /version: 99 is newer/,
    ],
    ['a key twice', '{"format":"kerfweave-design","format":"x"}', /given twice/],
    ['no variants', '{"variants":[],"active":0}', /variants: is not a list of 1 to 8/],
    [
      'no such variant',
      `{"variants":[{"name":"a","design":${serializeDesign(fourRings())}}],"active":1}`,
      /active: is not/,
    ],
    ['a wrong variant', '{"variants":[{"name":"a","design":{}}],"active":0}', /variants\[0\]\.design/],
    ['a variant without name', '{"variants":[null],"active":0}', /variants\[0\]\.name/],
    ['an unknown field', '{"variants":[{}],"active":0,"x":1}', /x: is not a field/],
  ])('%s', (_, text, expected) => {
    expect(word(packed(text))).toMatch(expected);
  });

  it('bytes that are no text', () => {
    expect(word(packed(Buffer.from([0xff, 0xfe, 0xfd])))).toMatch(/does not hold text/);
  });

  it('a newer design comes with what of it can be shown', () => {
    const text = JSON.stringify({ ...JSON.parse(serializeDesign(fourRings())), version: 99, hue: 'red' });
    const read = readLink(packed(text));
    expect(read.ok ? null : read.newer?.version).toBe(99);
    expect(read.ok ? null : read.newer?.raw.hue).toBe('red');
    expect(read.ok ? null : read.newer?.design?.name).toBe(fourRings().name);
  });
});

it('the check sum is the published one', () => {
  // Check value of CRC-32 in the catalogue of parametrised CRC algorithms (from memory): "123456789".
  expect(crc32(new TextEncoder().encode('123456789'))).toBe(0xcbf43926);
});

/** Characters lost, added, changed, swapped: what mail and messengers do to an address. */
function mangled(random: Random, link: string): string {
  let text = link;
  for (let n = random.whole(1, 3); n > 0; n--) {
    const at = random.whole(0, text.length - 1);
    const sign = random.pick(Array.from('ABCxyz019-_=+/.%#& \né'));
    text = random.pick([
      text.slice(0, at),
      text.slice(0, at) + text.slice(at + random.whole(1, 9)),
      text.slice(0, at) + sign + text.slice(at),
      text.slice(0, at) + sign + text.slice(at + 1),
      text.slice(0, at) + text.slice(at, at + 8) + text.slice(at),
      text.slice(0, at) + (text[at + 1] ?? '') + text[at] + text.slice(at + 2),
      text.toUpperCase(),
    ]);
    if (text === '') break;
  }
  return text;
}

/** A stream with changed bytes and, where zlib still reads it, a check sum that is right for what it holds now. */
function forged(random: Random, link: string): { link: string; text: Uint8Array | null } {
  const stream = Buffer.from(link.replace(/&.*/, '').slice('d=1.'.length), 'base64url').subarray(4);
  for (let n = random.whole(1, 3); n > 0; n--)
    stream[random.whole(0, stream.length - 1)] ^= 1 << random.whole(0, 7);
  try {
    const text = inflateRawSync(stream, { dictionary, maxOutputLength: 200_000 });
    return { link: wrapped(text, stream), text };
  } catch {
    return { link: wrapped(Buffer.from('x'), stream), text: null };
  }
}

/** The text of the design with a few characters changed, packed well. */
function rewritten(random: Random, design: Design): string {
  const text = serializeDesign(design);
  const at = random.whole(0, text.length - 1);
  const sign = random.pick(Array.from('{}[]",:0123456789.e-tn \u0000é'));
  return text.slice(0, at) + sign + text.slice(at + random.whole(0, 2));
}

it('mutated links are refused with a word or load an identical design', () => {
  const rounds = countFor('links', 300, 10_000);
  const designs = [
    fourRings({ notes: 'n' }),
    ...Array.from({ length: 12 }, (_, n) => randomDesign(SEED + n)),
    ...Array.from({ length: 6 }, (_, n) => forClient(decorated(SEED + n, randomDesign(SEED + n)))),
  ];
  const links = designs.map((design, n) =>
    n < 13 ? linkOf(design) : fragmentOf(makeClientLink({ variants: [{ name: '', design }], active: 0 })),
  );
  const outcomes = { loaded: 0, refused: 0 };
  let slowest_ms = 0;
  for (let round = 0; round < rounds; round++) {
    const random = seededRandom(SEED + round);
    const which = random.whole(0, designs.length - 1);
    const kind = random.pick(['mangled', 'forged', 'rewritten'] as const);
    const { link, text } =
      kind === 'mangled'
        ? { link: mangled(random, links[which]), text: serializeDesign(designs[which]) }
        : kind === 'forged'
          ? forged(random, links[which])
          : withLink(rewritten(random, designs[which]));
    const begun = cpuMilliseconds();
    const read = readLink(link);
    slowest_ms = Math.max(slowest_ms, cpuMilliseconds() - begun);
    const name = `round ${round}, seed ${SEED}: ${kind} ${link}`;
    const expected = text === null ? null : parseDesign(text);
    if (read.ok) {
      expect(expected?.ok && expected.design, name).toEqual(read.work.variants[0].design);
      expect(read.work.variants, name).toHaveLength(1);
    } else {
      expect(linkFaultLine(read), name).toMatch(/^[^\n]{10,}$/);
      if (kind !== 'mangled' && expected) expect(expected.ok, name).toBe(false);
    }
    outcomes[read.ok ? 'loaded' : 'refused']++;
  }
  console.log(`${outcomes.loaded} loaded, ${outcomes.refused} refused, slowest ${slowest_ms.toFixed(1)} ms`);
  expect(outcomes.loaded).toBeGreaterThan(rounds * 0.02);
  expect(outcomes.refused).toBeGreaterThan(rounds * 0.5);
  expect(slowest_ms).toBeLessThan(SLOWEST_MS);
});

function withLink(text: string): { link: string; text: string } {
  return { link: packed(text), text };
}
