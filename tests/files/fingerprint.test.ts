/**
 * The fingerprint of a design: the CRC-32 that zlib puts behind a gzip file (RFC 1952, section 2.3.1) of what is cut; the same
 * for whatever changes no cut, another for whatever does.
 */
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import type { Design, SlotSet } from '../../src/design/document.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { serializeDesign } from '../../src/design/serialize.ts';
import { fingerprintOf } from '../../src/files/fingerprint.ts';
import { cylinderForm, fourRings } from '../fixtures/designs.ts';

const PLAIN = fourRings();
const withSet = (change: Partial<SlotSet>): Design => ({
  ...PLAIN,
  sets: PLAIN.sets.map((set) => ({ ...set, ...change })),
});
const [SET] = PLAIN.sets;

it('is the CRC-32 of the file of a design without name, told in millimetres', () => {
  const file = serializeDesign({ ...PLAIN, version: 1, name: '', unit: 'mm' });
  const crc = gzipSync(file).readUInt32LE(gzipSync(file).length - 8);
  const [first, second] = fingerprintOf(PLAIN).split('-');
  expect(Number.parseInt(first + second, 16)).toBe(crc);
  expect(fingerprintOf(PLAIN)).toMatch(/^[0-9A-F]{4}-[0-9A-F]{4}$/);
});

describe('what changes no cut', () => {
  it.each<[string, Design]>([
    ['name', { ...PLAIN, name: 'Another' }],
    ['unit', { ...PLAIN, unit: 'mm' }],
    ['notes', { ...PLAIN, notes: 'Mind the knot.' }],
    ['notes of a set', withSet({ notes: 'Slowly.' })],
    ['lock', withSet({ locked: true })],
    ['colours', { ...PLAIN, colors: { 'hard-maple': '#ffffff' } }],
    ['finish', { ...PLAIN, form: { ...PLAIN.form!, finish: 'gloss' } }],
    ['ticks', { ...PLAIN, work: { done: ['S1.1:cut'] } }],
    ['offer', { ...PLAIN, offer: { note: 'With love.' } }],
    ['quote', { ...PLAIN, quote: { currency: 'EUR' } }],
    ['choice', { ...PLAIN, choice: { made_on: '2026-01-31' } }],
    ['nothing measured', { ...PLAIN, made: {} }],
    ['the usual way of cutting', withSet({ cut: 'fence' })],
  ])('%s', (_, design) => expect(fingerprintOf(design)).toBe(fingerprintOf(PLAIN)));

  it('writing and reading', () => {
    const read = parseDesign(serializeDesign(PLAIN));
    expect(read.ok && fingerprintOf(read.design)).toBe(fingerprintOf(PLAIN));
  });

  it('the version that wrote the file', () => {
    const old = parseDesign(
      JSON.stringify({ ...JSON.parse(serializeDesign(PLAIN)), version: 1, saw: undefined }),
    );
    const now = parseDesign(JSON.stringify({ ...JSON.parse(serializeDesign(PLAIN)), saw: undefined }));
    expect(old.ok && now.ok && fingerprintOf(old.design)).toBe(now.ok && fingerprintOf(now.design));
  });
});

it('every change of a cut changes it, each to another', () => {
  const { blank, saw } = PLAIN;
  const changed: Design[] = [
    PLAIN,
    { ...PLAIN, blank: { ...blank, length_mm: 203.3 } },
    { ...PLAIN, blank: { ...blank, section: { ...blank.section, width_mm: 76.3 } } },
    { ...PLAIN, blank: { ...blank, timber: 'wenge' } },
    withSet({ angle_deg: 45.1 }),
    withSet({ center_mm: 101.7 }),
    withSet({ fence_azimuths_deg: [90, 0, 180, 270] }),
    withSet({ high_side: 'entry' }),
    withSet({ kerf_mm: 1.017 }),
    withSet({ web_mm: 2.55 }),
    withSet({ cut: 'table' }),
    withSet({ cut: 'table', web_side: 'behind' }),
    withSet({ strip: { layers: [{ ...SET.strip.layers[0], thickness_mm: 1 }] } }),
    withSet({ strip: { layers: [{ ...SET.strip.layers[0], timber: 'wenge' }] } }),
    { ...PLAIN, order: PLAIN.order.toReversed() },
    { ...PLAIN, form: null },
    { ...PLAIN, form: cylinderForm(203.2, 30) },
    { ...PLAIN, form: { ...PLAIN.form!, holes: [{ from: 'head', diameter_mm: 22, depth_mm: 25 }] } },
    { ...PLAIN, saw: { ...saw, stop_side: 'obtuse' } },
    { ...PLAIN, saw: { ...saw, max_open_slots: 2 } },
    { ...PLAIN, saw: { ...saw, blade_kerf_mm: 1 } },
    { ...PLAIN, made: { 'S1.1': { kerf_mm: 1.02 } } },
    { ...PLAIN, made: { 'S1.2': { kerf_mm: 1.02 } } },
  ];
  expect(new Set(changed.map(fingerprintOf)).size).toBe(changed.length);
});
