/**
 * What the sheet says beside the cuts: sizes of a hollow, the order of layers, the maker's notes, ranges of rings that leave
 * none out and put none in, a kerf whose middle lies beyond the ledge. Sizes are read off the design by hand.
 */
import { expect, it } from 'vitest';
import { fourRings, slotSet } from '../../fixtures/designs.ts';
import { sheetOf } from './designs.ts';

const LAYERS = [
  { timber: 'wenge', thickness_mm: 0.6 },
  { timber: 'hard-maple', thickness_mm: 1.9 },
];
const CUP = fourRings({
  name: 'Short cup',
  unit: 'mm',
  notes: 'For the mantelpiece.\nMind the knot.',
  section: { shape: 'square', width_mm: 140 },
  length_mm: 80,
  sets: [
    slotSet({ angle_deg: 70, center_mm: 45, fence_azimuths_deg: [0, 90, 180, 270] }),
    slotSet({
      id: 'S2',
      angle_deg: 60,
      center_mm: 40,
      fence_azimuths_deg: [0],
      kerf_mm: 2.5,
      strip: { layers: LAYERS },
      notes: 'Saw slowly.',
    }),
    slotSet({ id: 'S3', angle_deg: 70, center_mm: 45, fence_azimuths_deg: [0] }),
    slotSet({ id: 'S4', cut: 'table', angle_deg: 55, center_mm: 30, fence_azimuths_deg: [0], kerf_mm: 2.54 }),
  ],
  form: {
    outline: [
      { z_mm: 0, r_mm: 0 },
      { z_mm: 0, r_mm: 45 },
      { z_mm: 78, r_mm: 65 },
      { z_mm: 78, r_mm: 60 },
      { z_mm: 14, r_mm: 38 },
      { z_mm: 14, r_mm: 0 },
    ],
  },
});
const { pdf } = await sheetOf(CUP, 'a4');
/** The first page that has this at its head. */
const page = (title: string) =>
  pdf.pages.find(({ words, height_mm }) =>
    words.some(({ text, at }) => text.startsWith(title) && Math.abs(at[1] - height_mm + 12) < 0.1),
  )!;
const bare = (text: string) => text.replace(/\s+/g, '');

it('gives the width of a hollow at its mouth and its depth below the rim', () => {
  const texts = page('Turning template').words.map(({ text }) => text);
  expect(texts).toContain('inside Ø 120.00 mm');
  expect(texts).toContain('inside 64.00 mm deep');
});

it('names rings of the same heights as ranges that hold no other ring', () => {
  const names = page('Turning template').words.flatMap(
    ({ text }) => / (?:high|low) +(.+)/.exec(text)?.slice(1) ?? [],
  );
  expect(names).toContain('S1.1 to S1.4, S3.1');
  expect(names).toContain('S2.1');
});

it('keeps the names of the rings clear of the edge of the gauge', () => {
  const { words, paths } = page('Turning template');
  const names = words.filter(({ text }) => / (?:high|low) +S/.test(text));
  expect(names.length).toBeGreaterThan(3);
  const uprights = paths
    .filter(({ points }) => points.length === 2 && Math.abs(points[0][0] - points[1][0]) < 1e-6)
    .map(({ points }) => points[0][0]);
  const edge = Math.max(...uprights);
  for (const { at, width_mm } of names) expect(at[0] + width_mm).toBeLessThan(edge);
});

it('says in which order layers lie, and prints the notes of the design and of its sets', () => {
  const text = bare(pdf.pages.map((one) => one.text).join(' '));
  expect(text).toContain(bare('S2: 0.60 mm Wenge + 1.90 mm Hard (sugar) maple'));
  expect(text).toContain(bare('Layers, the foot’s side of the slot first.'));
  for (const line of ['For the mantelpiece.', 'Mind the knot.', 'S2: Saw slowly.'])
    expect(text).toContain(bare(line));
});

it('has no negative place where the middle of a kerf lies beyond the ledge', () => {
  // At the head, 50 mm above the centre, the mid-plane is 50 tan 55° = 71.41 mm from the axis, the side 70 mm: 1.41 mm
  // beyond. Half the kerf along the table is 1.27 / cos 55° = 2.21 mm: its nearer side is 0.81 mm this side of the ledge.
  const text = bare(pdf.pages.map((one) => one.text).join(' '));
  expect(text).toContain(bare('1.41 mm beyond'));
  expect(text).toContain(bare('0.81 mm on the blank’s side'));
  expect(text).not.toContain('−1.41');
});

it('keeps the names of the ends of a short blank apart', () => {
  const { words } = page('Before the first cut');
  const [foot, head] = ['foot', 'head'].map((name) => words.find(({ text }) => text === name)!);
  // Upright, a line of 8.5 points is 3 mm wide.
  expect(Math.abs(foot.at[0] - head.at[0])).toBeGreaterThan(3);
});
