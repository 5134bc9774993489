/** The words and numbers of the printed sheet against the report of the same design, converted here anew. */
import { describe, expect, it } from 'vitest';
import type { Design } from '../../../src/design/document.ts';
import { cautionsOf } from '../../../src/plan/cautions.ts';
import { measuresOf } from '../../../src/plan/measures.ts';
import { reportOf } from '../../../src/plan/report.ts';
import { starterDesigns } from '../../fixtures/starters.ts';
import { BOWL, CANDLE_STICK, HANDLE, sheetOf } from './designs.ts';

/** As the sheet shows a place: inches to the thousandth, millimetres to the hundredth. */
const shown = (mm: number, unit: Design['unit']) => {
  const text = unit === 'in' ? `${Math.abs(mm / 25.4).toFixed(3)}″` : `${Math.abs(mm).toFixed(2)} mm`;
  return mm < 0 && Number.parseFloat(text) > 0 ? `−${text}` : text;
};
const degrees = (angle: number) => `${Number(angle.toFixed(2))}°`;
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
      const entry = squeezed(entries[i]);
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
    // Messages that differ in the slot only are printed for the first one, the other slots listed behind.
    for (const { text, slot } of report.messages) {
      const first = report.messages.find(
        (one) => one.text.replaceAll(one.slot ?? '-', '*') === text.replaceAll(slot ?? '-', '*'),
      )!;
      expect(all).toContain(squeezed(first.text));
      if (slot !== first.slot) {
        const list = all.slice(all.indexOf(squeezed(first.text))).split('Thesamefor')[1];
        expect(list.slice(0, list.search(/\.(?!\d)/)).split(',')).toContain(slot);
      }
    }
    for (const { text, source } of cautionsOf(design, measuresOf(design))) {
      expect(all).toContain(squeezed(text));
      expect(all).toContain(squeezed(source));
    }
  });

  it('lists pieces and the tolerance of the rings', async () => {
    const { pdf } = await sheetOf(design, paper);
    const page = pdf.pages.find(({ text }) => text.includes('Strips to cut'))!;
    const layers = design.sets.flatMap((set) =>
      set.fence_azimuths_deg.flatMap(() =>
        set.strip.layers.map(({ timber, thickness_mm }) => ({ timber, thickness_mm })),
      ),
    );
    const groups = new Map<string, number>();
    for (const { timber, thickness_mm } of layers)
      groups.set(`${timber} ${thickness_mm}`, (groups.get(`${timber} ${thickness_mm}`) ?? 0) + 1);
    for (const count of groups.values())
      expect(page.text).toContain(`${count} and ${Math.ceil(count / 4)} spare, from one billet`);
    for (const { worst_mm, rss_mm } of report.tolerance ?? [])
      expect(page.text).toContain(`± ${shown(worst_mm, unit)} ± ${shown(rss_mm, unit)}`);
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
