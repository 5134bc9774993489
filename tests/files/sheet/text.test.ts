/** The words and numbers of the printed sheet against the report of the same design, converted here anew. */
import { describe, expect, it } from 'vitest';
import type { Design } from '../../../src/design/document.ts';
import { cautionsOf } from '../../../src/plan/cautions.ts';
import { measuresOf } from '../../../src/plan/measures.ts';
import { messagesOf } from '../../../src/plan/messages.ts';
import { reportOf } from '../../../src/plan/report.ts';
import { toldOf } from '../../../src/plan/told.ts';
import { worded } from '../../../src/plan/wording.ts';
import { cylinderForm, slotSet } from '../../fixtures/designs.ts';
import { starterDesigns } from '../../fixtures/starters.ts';
import { BOWL, CANDLE_STICK, HANDLE, sheetOf } from './designs.ts';

/** As the sheet shows a place: inches to the thousandth, millimetres to the hundredth. */
const shown = (mm: number, unit: Design['unit']) => {
  const text = unit === 'in' ? `${Math.abs(mm / 25.4).toFixed(3)}″` : `${Math.abs(mm).toFixed(2)} mm`;
  return mm < 0 && Number.parseFloat(text) > 0 ? `−${text}` : text;
};
const degrees = (angle: number) => `${Number(angle.toFixed(2))}°`;
/** `S1.2toS1.4,S2.1andS2.2at30°`, as five slots. */
const slotsIn = (list: string) =>
  list.split(/,|and/).flatMap((part) => {
    const run = /^(.*)\.(\d+)to\1\.(\d+)$/.exec(part);
    if (!run) return [part.replace(/at[\d.]+°$/, '')];
    const [from, to] = [Number(run[2]), Number(run[3])];
    return Array.from({ length: to - from + 1 }, (_, i) => `${run[1]}.${from + i}`);
  });
const squeezed = (text: string) => text.replace(/\s/g, '');

const DESIGNS = [...starterDesigns(), BOWL, HANDLE].map(
  (design) => [design.name, design, design.unit === 'in' ? 'letter' : 'a4'] as const,
);

describe.each(DESIGNS)('the sheet of %s', (_, design, paper) => {
  const report = reportOf(design);
  const { unit } = design;

  it('has one entry per cut, in the order of the sessions, with the numbers of its set-up', async () => {
    const { pdf } = await sheetOf(design, paper);
    const pages = pdf.pages.filter(({ text }) => text.includes('Seen from above'));
    const entries = pages.flatMap(({ text }) => text.split(/Before the next cut/).slice(0, -1));
    const order = report.sessions.flat();
    expect(entries.length).toBe(order.length);
    expect(entries.map((entry) => /(\d+)\s+(S\d+\.\d+)\s/.exec(entry)?.slice(1))).toEqual(
      order.map((slot, i) => [`${i + 1}`, slot]),
    );
    order.forEach((slot, i) => {
      const setup = report.setups.find((one) => one.slot === slot)!;
      if (setup.table) throw new Error(`${slot} of a starter design is not cut at the fence`);
      const entry = squeezed(entries[i]).replaceAll(',stays', '');
      const expected = [
        setup.face === null ? 'atthefence' : `${setup.face}againstthefence`,
        `${setup.stop_end}tothestop`,
        `Fence${degrees(setup.fence_angle_deg)}${degrees(90 - setup.fence_angle_deg)}fromsquare`,
        `Stoptomid-kerf${shown(setup.stop_to_kerf_center_mm, unit)}`,
        `Bladestop${shown(setup.blade_stop_mm, unit)}`,
        `fromthefoot${shown(setup.mark_fence_mm, unit)}`,
        `fromthefoot${shown(setup.mark_entry_mm, unit)}`,
        `downtheslope${shown(setup.slot_depth_mm, unit)}`,
        `×${shown(setup.strip_depth_mm, unit)}×${shown(setup.strip_length_mm, unit)}`,
      ].map(squeezed);
      for (const text of expected) expect(entry).toContain(text);
    });
  });

  it('counts glue-ups and clamp time, and names every slot of each', async () => {
    const { pdf } = await sheetOf(design, paper);
    const page = pdf.pages.find(({ text }) => text.includes('All cuts in working order'))!;
    const count = report.sessions.length;
    expect(page.text).toContain(`${count} glue-ups with at most ${design.saw.max_open_slots}`);
    const minutes = count * design.saw.clamp_minutes;
    const hours = Math.floor(minutes / 60);
    expect(page.text).toContain(
      [hours > 0 ? `${hours} h` : '', minutes % 60 > 0 ? `${minutes % 60} min` : '', 'in all']
        .filter((part) => part !== '')
        .join(' '),
    );
    for (const session of report.sessions) expect(page.text).toContain(session.join(', '));
  });

  it('prints every message and every caution with its source', async () => {
    const { pdf } = await sheetOf(design, paper);
    const all = squeezed(pdf.pages.map(({ text }) => text).join(' '));
    // Messages that differ in the slot and its azimuth only are printed for the first one, the other slots listed behind.
    const shape = (text: string, slot: string | null) =>
      text.replaceAll(slot ?? '-', '*').replaceAll(/azimuth [\d.]+°/g, 'azimuth *');
    const told = toldOf(messagesOf(design)).map(({ slot, words }) => ({
      slot,
      text: worded(words, unit, '″'),
    }));
    for (const { text, slot } of told) {
      const first = told.find((one) => shape(one.text, one.slot) === shape(text, slot))!;
      expect(all).toContain(squeezed(first.text));
      if (slot !== first.slot) {
        const list = all.slice(all.indexOf(squeezed(first.text))).split('Thesamefor')[1];
        expect(slotsIn(list.slice(0, list.search(/\.(?!\d)/)))).toContain(slot);
      }
    }
    for (const { words, source } of cautionsOf(design, measuresOf(design))) {
      expect(all).toContain(squeezed(worded(words, unit, '″')));
      expect(all).toContain(squeezed(source));
    }
  });

  it('ends no chapter of text on a page that is nearly empty', async () => {
    const { pdf } = await sheetOf(design, paper);
    pdf.pages.forEach(({ words, height_mm }, i) => {
      const head = words.find(({ at }) => at[1] > height_mm - 13)!.text;
      if (!head.endsWith(', continued')) return;
      // Between the line under the head and the check bars; a page is filled as far down as its lowest word.
      const lowest = Math.min(...words.map(({ at }) => at[1]).filter((y) => y > 20));
      expect((height_mm - 20 - lowest) / (height_mm - 41), `page ${i + 1}: ${head}`).toBeGreaterThan(0.2);
    });
  });

  it('lists pieces and the tolerance of the rings', async () => {
    const { pdf } = await sheetOf(design, paper);
    const text = pdf.pages
      .filter((page) => page.text.includes('Strips and fit'))
      .map((page) => page.text)
      .join(' ');
    const layers = design.sets.flatMap((set) =>
      set.fence_azimuths_deg.flatMap(() =>
        set.strip.layers.map(({ timber, thickness_mm }) => ({ timber, thickness_mm })),
      ),
    );
    const groups = new Map<string, number>();
    for (const { timber, thickness_mm } of layers)
      groups.set(`${timber} ${thickness_mm}`, (groups.get(`${timber} ${thickness_mm}`) ?? 0) + 1);
    for (const count of groups.values())
      expect(text).toContain(`${count} and ${Math.ceil(count / 4)} spare, from one billet`);
    for (const { worst_mm, rss_mm } of report.tolerance ?? [])
      expect(text).toContain(`± ${shown(worst_mm, unit)} ± ${shown(rss_mm, unit)}`);
  });

  it('carries both check bars, its page number and its name on every page, in embedded fonts', async () => {
    const { pdf } = await sheetOf(design, paper);
    expect(pdf.title).toBe(design.name);
    expect(pdf.fonts.length).toBeGreaterThan(1);
    expect(pdf.fonts.filter(({ embedded }) => !embedded)).toEqual([]);
    pdf.pages.forEach(({ text }, i) => {
      expect(text).toContain('100 mm');
      expect(text).toContain('4 in');
      expect(text).toContain(`${i + 1} / ${pdf.pages.length}`);
      expect(text).toContain(design.name);
      expect(text).not.toMatch(/□|NaN|undefined|Infinity|null/);
    });
  });
});

describe('the unit of the design', () => {
  /** Warned of in every way that has a length in it, and beyond the saw in height, throat and kerf. */
  const warned: Design = {
    ...CANDLE_STICK,
    name: 'Warned of',
    form: cylinderForm(203.2, 39),
    saw: { ...CANDLE_STICK.saw, max_cut_height_mm: 70, throat_mm: 90, blade_kerf_mm: 1.2 },
    sets: [
      ...CANDLE_STICK.sets.map((set) => ({ ...set, web_mm: 1 })),
      slotSet({ id: 'S2', center_mm: 103, fence_azimuths_deg: [0, 90] }),
      slotSet({ id: 'S3', center_mm: 15, fence_azimuths_deg: [0], high_side: 'entry' }),
      slotSet({
        id: 'S4',
        center_mm: 30,
        fence_azimuths_deg: [0],
        strip: { layers: [{ timber: 'teak', thickness_mm: 0.9 }] },
      }),
      slotSet({
        id: 'S5',
        center_mm: 120,
        fence_azimuths_deg: [0],
        cut: 'table',
        angle_deg: 30,
        kerf_mm: 1.2,
      }),
    ],
    order: [...CANDLE_STICK.order, 'S2.1', 'S2.2', 'S3.1', 'S4.1', 'S5.1'],
  };
  const inches = [...DESIGNS.map(([, design]) => design), warned].filter(({ unit }) => unit === 'in');

  it.each(inches.map((design) => [design.name, design] as const))(
    '%s is printed without a millimetre but the check bar of 100 mm',
    async (_, design) => {
      const { pdf } = await sheetOf(design, 'letter');
      pdf.pages.forEach(({ text }, i) => {
        const metric = text.replaceAll('100 mm', '').match(/.{30}\d ?(?:mm|cm|kg|g|°C)\b.{10}/g) ?? [];
        expect(metric, `page ${i + 1}`).toEqual([]);
      });
    },
  );

  it('the same sheet in millimetres has no inch but the check bar of 4 in', async () => {
    const { pdf } = await sheetOf({ ...warned, name: 'Warned of, metric', unit: 'mm' }, 'a4');
    for (const { text } of pdf.pages) expect(text.replaceAll('4 in', '')).not.toMatch(/\d ?in\b|″/);
    expect(pdf.pages.map(({ text }) => text).join(' ')).toContain('the saw clears 70 mm');
  });

  it('a warning in inches: 1.5 mm of web are 0.06 in, never 0.059', async () => {
    const { pdf } = await sheetOf(warned, 'letter');
    const all = pdf.pages.map(({ text }) => text).join(' ');
    // The test cut's kerf of 1.2 mm: 1 − 0.6 cos 45° = 0.576 mm = 0.0227 in at the thinnest.
    expect(all).toContain('only 0.023″ at its thinnest; from 0.06″ it holds');
    // 50.8 mm of wood are 2 in; 76.2 − 70 = 6.2 mm are 0.2441 in.
    expect(all).toContain('more than 2″ of wood');
    expect(all).toContain('at least 0.245″ smaller');
  });
});

describe('the signs of the trade', () => {
  it('keeps inches, halves and degrees readable as text', async () => {
    const { pdf } = await sheetOf(BOWL, 'letter');
    expect(pdf.pages[0].text).toContain('Bowl with eight rings, 7½″');
    const inches = (await sheetOf(CANDLE_STICK, 'letter')).pdf.pages.map(({ text }) => text).join(' ');
    // 139.7 mm is 5 1/2 in, 63.5 mm 2 1/2 in exactly.
    expect(squeezed(inches)).toContain(squeezed('5.500″ (5 1⁄2″)'));
    expect(squeezed(inches)).toContain(squeezed('2.500″ (2 1⁄2″)'));
  });

  it('makes the same bytes from the same design', async () => {
    const { readFontFiles } = await import('../../../src/cli/fonts.ts');
    const { shopSheet } = await import('../../../src/files/sheet/sheet.ts');
    const again = await shopSheet(structuredClone(CANDLE_STICK), { paper: 'letter', fonts: readFontFiles() });
    expect(again).toEqual((await sheetOf(CANDLE_STICK, 'letter')).bytes);
  });
});
