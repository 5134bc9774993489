/**
 * What the sheet says beside the cuts: sizes of a hollow, the order of layers, the maker's notes, ranges of rings that leave
 * none out and put none in, a kerf whose middle lies beyond the ledge. Sizes are read off the design by hand.
 */
import { expect, it } from 'vitest';
import type { Design } from '../../../src/design/document.ts';
import { reportOf } from '../../../src/plan/report.ts';
import { cylinderForm, fourRings, slotSet } from '../../fixtures/designs.ts';
import { CROWDED, ROUND, sheetOf } from './designs.ts';

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
    ({ text }) => / (?:top|bottom) of (.+)/.exec(text)?.slice(1) ?? [],
  );
  expect(names).toContain('S1.1 to S1.4, S3.1');
  expect(names).toContain('S2.1');
});

it('keeps the names of the rings clear of the edge of the gauge', () => {
  const { words, paths } = page('Turning template');
  const names = words.filter(({ text }) => / (?:top|bottom) of S/.test(text));
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

it('says once what a round blank lacks at every azimuth, and of which pairs of slots the wood breaks out', async () => {
  const before = async (design: Design) => {
    const { pdf: read } = await sheetOf(design, 'a4');
    return read.pages.find(({ text }) => text.includes('Look at this first'))!.text;
  };
  const round = await before(ROUND);
  expect(round.match(/has no flat/g)).toHaveLength(1);
  expect(round).toContain('at azimuth 0° for the fence: hold it in a cradle with an index mark to cut S1.1.');
  const azimuths = [0, 60, 120, 180, 240, 300];
  const named = [1, 2].flatMap((set) => azimuths.map((azimuth, n) => `S${set}.${n + 1} at ${azimuth}°`));
  for (const one of named.slice(1)) expect(round).toContain(one);
  const crowded = await before(CROWDED);
  // Planes 2 mm apart along the axis, kerfs of 1.016 mm: 2 sin 45° − 1.016 = 0.398 mm = 0.016 in of wood.
  expect(crowded).toContain('Between S2.1 and S1.1 only 0.016″ of wood is left');
  expect(crowded.match(/Between/g)).toHaveLength(2);
  for (const set of [2, 3, 5, 6])
    for (const n of [1, 2, 3, 4])
      if (n > 1 || set === 3 || set === 6) expect(crowded).toContain(`S${set}.${n} with S${set - 1}.${n}`);
});

it('gives every diameter of the template its height, and says from where heights count', async () => {
  const template = page('Turning template');
  const diameters = template.words.filter(({ text }) => /Ø|deep/.test(text));
  expect(diameters.map(({ text }) => text)).toEqual(
    expect.arrayContaining(['Ø 90.00 mm', 'Ø 130.00 mm', 'inside Ø 120.00 mm', 'inside 64.00 mm deep']),
  );
  // The height on the line of a diameter.
  const heightOf = (size: string) => {
    const { at } = diameters.find(({ text }) => text === size)!;
    return template.words.find(({ text, at: [, y] }) => text.startsWith('at ') && Math.abs(y - at[1]) < 0.01)!
      .text;
  };
  expect(heightOf('Ø 90.00 mm')).toBe('at 0.00 mm');
  expect(heightOf('Ø 130.00 mm')).toBe('at 78.00 mm');
  expect(heightOf('inside Ø 120.00 mm')).toBe('at 78.00 mm');
  expect(heightOf('inside 64.00 mm deep')).toBe('at 14.00 mm');
  expect(bare(template.text)).toContain(
    bare('diameters and their heights from the foot line of the blank; blue:'),
  );
  const raised = fourRings({
    name: 'Begins above the foot line',
    unit: 'mm',
    sets: [],
    order: [],
    form: { outline: cylinderForm(150, 30).outline.map(({ z_mm, r_mm }) => ({ z_mm: z_mm + 12, r_mm })) },
  });
  const { pdf: read } = await sheetOf(raised, 'a4');
  expect(read.pages.map(({ text }) => text).join(' ')).toContain(
    'from the foot line of the blank, 12.00 mm below the foot of the piece;',
  );
});

it('sizes a long curve at round heights between its corners', () => {
  const template = page('Turning template');
  // The outside runs straight from 45 mm at the foot to 65 mm at 78: 20 / 78 of every millimetre of height.
  for (const z of [25, 50]) {
    const height = template.words.find(({ text }) => text === `at ${z}.00 mm`)!;
    const size = template.words.find(
      ({ text, at: [, y] }) => text.startsWith('Ø') && Math.abs(y - height.at[1]) < 0.01,
    )!;
    // The inside from 38 mm at 14 to 60 mm at 78.
    const inside = 2 * (38 + (22 / 64) * (z - 14));
    expect(size.text).toBe(`Ø ${(2 * (45 + (20 / 78) * z)).toFixed(2)} mm, inside ${inside.toFixed(2)} mm`);
  }
});

it('says at each cut which settings stay from the cut before', () => {
  const cuts = CUP.order.map((slot) => CUP.sets.find(({ id }) => slot.startsWith(`${id}.`))!);
  const entries = pdf.pages
    .filter(({ text }) => text.includes('Seen from above') || text.includes('Seen along the feed'))
    .flatMap(({ text }) => text.split(/Before the next cut/).slice(0, -1));
  const report = reportOf(CUP);
  const order = report.sessions.flat();
  expect(entries.length).toBe(cuts.length);
  order.forEach((slot, i) => {
    const now = report.setups.find((one) => one.slot === slot)!;
    const before = report.setups.find((one) => one.slot === order[i - 1]);
    const alike = before !== undefined && (now.table === undefined) === (before.table === undefined);
    // The kind of cut is set anew, and with it all three.
    const stays = [
      alike && now.fence_angle_deg === before.fence_angle_deg,
      alike &&
        (now.table?.ledge_to_kerf_center_mm ?? now.stop_to_kerf_center_mm) ===
          (before.table?.ledge_to_kerf_center_mm ?? before.stop_to_kerf_center_mm),
      alike && now.blade_stop_mm === before.blade_stop_mm,
    ].filter(Boolean).length;
    expect(entries[i].match(/, stays/g)?.length ?? 0, slot).toBe(stays);
  });
});
