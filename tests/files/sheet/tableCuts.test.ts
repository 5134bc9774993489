/** Sheets of cuts with the table tilted: what is written, and the two views measured in the page's own coordinates. */
import { describe, expect, it } from 'vitest';
import { reportOf } from '../../../src/plan/report.ts';
import { setupsOf } from '../../../src/plan/setups.ts';
import { cylinderForm, fourRings, slotSet } from '../../fixtures/designs.ts';
import { sheetOf } from './designs.ts';
import type { Point, ReadPage, ReadPath } from './readPdf.ts';

const TILTED = fourRings({
  name: 'Bowl at the tilted table',
  unit: 'mm',
  section: { shape: 'rectangle', width_mm: 150, depth_mm: 120 },
  length_mm: 60,
  form: cylinderForm(60, 55),
  sets: [
    slotSet({
      cut: 'table',
      angle_deg: 30,
      center_mm: 20,
      fence_azimuths_deg: [0, 90],
      kerf_mm: 3,
      web_mm: 6,
    }),
    slotSet({
      id: 'S2',
      cut: 'table',
      web_side: 'behind',
      angle_deg: 42,
      center_mm: 35,
      fence_azimuths_deg: [180],
      kerf_mm: 1,
      web_mm: 4,
    }),
    slotSet({ id: 'S3', angle_deg: 80, center_mm: 30, fence_azimuths_deg: [90] }),
  ],
  saw: { blade_kerf_mm: 1, max_open_slots: 1 },
  made: { 'S1.1': { kerf_mm: 3.2, web_mm: 5.5 }, 'S2.1': { strip_mm: 0.9 } },
});

const mm = (value: number) => `${value.toFixed(2)} mm`;
const squeezed = (text: string) => text.replace(/\s+/g, '').replaceAll(',stays', '');
const { pdf } = await sheetOf(TILTED, 'a4');
const report = reportOf(TILTED);
const entries = pdf.pages
  .filter(({ text }) => text.includes('square down on the table') || text.includes('down on the table'))
  .flatMap(({ text }) => text.split(/Before the next cut/).slice(0, -1));

describe('the entry of a cut', () => {
  it('has the settings, marks and sizes of the report', () => {
    const tilted = report.setups.filter(({ table }) => table);
    expect(tilted.length).toBe(3);
    for (const { slot, face, table } of tilted) {
      if (!table) throw new Error('filtered');
      const entry = squeezed(entries.find((text) => new RegExp(` ${slot} `).test(text))!);
      for (const text of [
        `${face} at the ledge`,
        `${table.end_down} on the table`,
        `${table.tilts} side down`,
        `Table${table.tilt_deg}°${90 - table.tilt_deg}° to the blade`,
        `Ledge to mid-kerf${mm(table.ledge_to_kerf_center_mm!)}`,
        `Web${mm(table.web_mm)}left at ${table.web_face}`,
        `Mark on the head, from ${table.mark_head!.face}${mm(table.mark_head!.from_side_mm)}`,
        `Mark on the foot, from ${table.mark_foot!.face}${mm(table.mark_foot!.from_side_mm)}`,
        `Feed from ${table.entry_face}; wood along the blade${mm(table.feed_mm)}; ${mm(table.cut_height_mm)}`,
      ])
        expect(entry).toContain(squeezed(text));
    }
  });

  it('tells the passes of a slot wider than the blade', () => {
    // 3 mm with a blade of 1 mm: three passes side by side, 1 / cos 30° apart on the table; the middle one at 75 − 40 tan 30°.
    const middle = 75 - 40 / Math.sqrt(3);
    const step = 2 / Math.sqrt(3);
    const entry = squeezed(entries.find((text) => text.includes(' S1.1 '))!);
    const places = [middle - step, middle, middle + step].map(mm).join(', ');
    expect(entry).toContain(squeezed(`3 passes, ledge to mid-blade ${places}`));
    expect(entries.find((text) => text.includes(' S2.1 '))).not.toContain('passes');
  });

  it('has the strip that fits what was measured', () => {
    const entry = squeezed(entries.find((text) => text.includes(' S1.1 '))!);
    // Down the slope 60 / cos 30° + 3.2 tan 30° + 2 · 3; along the feed 120 − 5.5 + 3.
    const deep = 60 / (Math.sqrt(3) / 2) + 3.2 / Math.sqrt(3) + 6;
    expect(entry).toContain(squeezed(`3.20 mm × ${mm(deep)} × ${mm(117.5)}`));
    expect(entry).toContain(squeezed('As measured kerf 3.20 mm, web 5.50 mm'));
    const loose = squeezed(entries.find((text) => text.includes(' S2.1 '))!);
    expect(loose).toContain(squeezed('Fit 0.10 mm thinner than the kerf As measured strip 0.90 mm'));
  });

  it('leaves the cut at the fence as it is', () => {
    const page = pdf.pages.find(({ text }) => text.includes('Seen from above'))!;
    expect(squeezed(page.text)).toContain(squeezed('B against the fence'));
    expect(page.text).toContain('10° from square');
  });
});

describe('the rest of the sheet', () => {
  const page = (words: string) => pdf.pages.find(({ text }) => text.includes(words))!;

  it('lists both ways of cutting apart', () => {
    const { text } = page('All cuts in working order');
    expect(text).toContain('With the table tilted:');
    expect(text).toContain('Against the fence:');
    expect(squeezed(text)).toContain(squeezed('3.20 mm 5.50 mm'));
  });

  it('makes wedges for the fence only', () => {
    const wedges = pdf.pages.flatMap(({ text }) => /Wedge for the fence at ([\d.]+)°/.exec(text)?.[1] ?? []);
    expect(wedges).toEqual(['80']);
  });

  it('says what was measured among the strips', () => {
    expect(page('As made').text).toContain('to make');
  });
});

const distance = ([ax, ay]: Point, [bx, by]: Point) => Math.hypot(bx - ax, by - ay);
const BLUE = '#17569b';

/** The front views of a page, top to bottom: blade, table and ledge found by how they are drawn. */
function frontViews(
  page: ReadPage,
): { scale: number; slot: string; blade: ReadPath; board: ReadPath; ledge: ReadPath }[] {
  const scales = [...page.text.matchAll(/down on the table, 1 : ([\d.]+)\./g)].map((match) =>
    Number(match[1]),
  );
  const slots = [...page.text.matchAll(/ (S\d+\.\d+) (?:trimmed|cut)/g)].map((match) => match[1]);
  const boards = page.paths.filter(({ fill, stroke }) => fill === '#e3e7e1' && stroke === null);
  // Two ledges a drawing: seen along the feed, then from above.
  const ledges = page.paths.filter(({ fill, stroke }) => fill === '#46514d' && stroke === '#1a2321');
  const blades = page.paths.filter(
    ({ stroke, points, width_mm }) =>
      stroke === BLUE &&
      points.length === 2 &&
      Math.abs(width_mm - 0.2) < 0.01 &&
      Math.abs(points[0][0] - points[1][0]) < 1e-3,
  );
  expect([boards.length, ledges.length, blades.length]).toEqual([
    scales.length,
    2 * scales.length,
    scales.length,
  ]);
  return scales.map((scale, i) => ({
    scale,
    slot: slots[i],
    blade: blades[i],
    board: boards[i],
    ledge: ledges[2 * i],
  }));
}

describe('the drawing seen along the feed', () => {
  const page = pdf.pages.find(({ text }) => text.includes('Cuts 1 to 3'))!;
  const views = frontViews(page);

  it('is there for each of the three cuts', () => {
    expect(views.map(({ slot }) => slot)).toEqual(['S1.1', 'S1.2', 'S2.1']);
  });

  it('has the blade upright, the table tilted to the right side, the ledge as far as it is set', () => {
    for (const { scale, slot, blade, board, ledge } of views) {
      const setup = setupsOf(TILTED).find((one) => one.slot === slot)!;
      const table = setup.cut === 'table' ? setup.table : null;
      if (!table || table.ledge_to_kerf_center_mm === null) throw new Error('a tilted cut');
      // The board's upper edge is its longer one, farther up.
      const edges = board.points.map(
        (point, i) => [point, board.points[(i + 1) % board.points.length]] as const,
      );
      const [a, b] = edges
        .filter(([p, q]) => distance(p, q) > 15)
        .reduce((top, edge) => (edge[0][1] + edge[1][1] > top[0][1] + top[1][1] ? edge : top));
      const [left, right] = a[0] < b[0] ? [a, b] : [b, a];
      const tilt = (Math.atan2(left[1] - right[1], right[0] - left[0]) * 180) / Math.PI;
      expect(tilt).toBeCloseTo(table.tilts === 'right' ? table.tilt_deg : -table.tilt_deg, 2);
      // Where the blade comes through the table, and the corner of the ledge nearest to it on the table.
      const x = blade.points[0][0];
      const t = (x - left[0]) / (right[0] - left[0]);
      const through: Point = [x, left[1] + t * (right[1] - left[1])];
      const onTable = ledge.points.filter(
        ([px, py]) =>
          Math.abs((right[0] - left[0]) * (py - left[1]) - (right[1] - left[1]) * (px - left[0])) /
            distance(left, right) <
          0.02,
      );
      const nearest = Math.min(...onTable.map((point) => distance(point, through)));
      expect(Math.abs(nearest * scale - table.ledge_to_kerf_center_mm)).toBeLessThan(0.05 * scale);
    }
  });
});

describe('the wedge for the table', () => {
  const direction_deg = ([ax, ay]: Point, [bx, by]: Point) => (Math.atan2(by - ay, bx - ax) * 180) / Math.PI;

  it('has the angle between table and blade, and the triangle of the sine bar its tilt and height', () => {
    const pages = pdf.pages.filter(({ text }) => text.includes('Wedge for the table at'));
    const tilts = pages.map(({ text }) => Number(/Wedge for the table at ([\d.]+)°/.exec(text)![1]));
    expect(tilts).toEqual([42, 30]);
    pages.forEach((page, i) => {
      const tilt = tilts[i];
      const [bar, wedge] = page.paths
        .filter(({ fill, points }) => fill === '#f1f3ee' && points.length === 3)
        .map(({ points }) => points);
      const corner = direction_deg(wedge[0], wedge[2]) - direction_deg(wedge[0], wedge[1]);
      expect(Math.abs(corner - (90 - tilt))).toBeLessThan(0.02);
      expect(Math.abs(distance(wedge[0], wedge[1]) - 150)).toBeLessThan(0.05);
      expect(Math.abs(distance(wedge[0], wedge[2]) - 150)).toBeLessThan(0.05);
      // Sine bar: height = length · sin (any trigonometry text); 100 mm long.
      const turn = direction_deg(bar[0], bar[2]) - direction_deg(bar[0], bar[1]);
      expect(Math.abs(turn - tilt)).toBeLessThan(0.02);
      expect(Math.abs(distance(bar[0], bar[2]) - 100)).toBeLessThan(0.05);
      const height = 100 * Math.sin((tilt * Math.PI) / 180);
      expect(Math.abs(distance(bar[1], bar[2]) - height)).toBeLessThan(0.05);
      const chord = 2 * 100 * Math.sin((tilt * Math.PI) / 360);
      expect(squeezed(page.text)).toContain(squeezed(`100.00 mm ${mm(height)} ${mm(chord)}`));
      expect(squeezed(page.text)).toContain(squeezed(`250.00 mm ${mm(2.5 * height)} ${mm(2.5 * chord)}`));
    });
  });
});

describe('the layout of the marks', () => {
  const pages = pdf.pages.filter(({ words, height_mm }) =>
    words.some(({ text, at }) => text.startsWith('Layout of the marks') && at[1] > height_mm - 13),
  );
  /** Short lines along the blank from one of its ends, the number beside each, its distance from the edge where face A begins. */
  const found = pages.flatMap((page) => {
    const [origin, right, , top] = page.paths.find(
      ({ fill, stroke, points, width_mm }) =>
        fill === null && stroke === '#1a2321' && points.length === 4 && Math.abs(width_mm - 0.4) < 0.01,
    )!.points;
    // The drawing may be turned on the page.
    const along = (to: Point, point: Point) =>
      ((to[0] - origin[0]) * (point[0] - origin[0]) + (to[1] - origin[1]) * (point[1] - origin[1])) /
      distance(origin, to);
    return page.paths
      .filter(
        ({ points, stroke, width_mm }) =>
          stroke === '#1a2321' && points.length === 2 && Math.abs(width_mm - 0.3) < 0.01,
      )
      .map(({ points: [edge, end] }) => ({ edge, end, x: along(right, edge), z: along(top, edge) }))
      .filter(({ z }) => Math.abs(z) < 0.05 || Math.abs(z - 60) < 0.05)
      .map(({ end, x, z }) => {
        const label = page.words.find(({ at }) => {
          const [dx, dz] = [along(right, at) - x, along(top, at) - along(top, end)];
          return Math.abs(dx - 0.8) < 0.05 && Math.abs(dz) < 0.7;
        });
        return { x, end: z < 1 ? 'foot' : 'head', text: label?.text ?? '' };
      });
  });

  it('has the place of every tilted cut at the ends, on the faces of entry and web', () => {
    // Faces side by side: A 120 wide (150 × 120), B 150, C 120, D 150.
    const start = { A: 0, B: 120, C: 270, D: 390 } as const;
    let checked = 0;
    for (const { slot, table } of report.setups) {
      if (!table) continue;
      for (const [face, what] of [
        [table.entry_face, 'entry'],
        [table.web_face, 'web'],
      ] as const)
        for (const [end, mark] of [
          ['head', table.mark_head],
          ['foot', table.mark_foot],
        ] as const) {
          const name = `${slot} ${what}`;
          const ticks = found.filter((one) => one.end === end && one.text.includes(name));
          expect(ticks.length, `${name} ${end}`).toBeGreaterThan(0);
          const wide = face === 'A' || face === 'C' ? 120 : 150;
          for (const { x, text } of ticks) {
            const inFace = x - start[face as keyof typeof start];
            expect(Math.abs(Math.min(inFace, wide - inFace) - mark!.from_side_mm)).toBeLessThan(0.05);
            expect(squeezed(text)).toContain(squeezed(mm(mark!.from_side_mm)));
            checked++;
          }
        }
    }
    expect(checked).toBeGreaterThanOrEqual(12);
  });
});

it('keeps everything on the paper', () => {
  for (const page of pdf.pages.filter(({ text }) => !text.includes('tile ')))
    for (const { points } of page.paths)
      for (const [x, y] of points)
        expect(x > 4 && x < page.width_mm - 4 && y > 4 && y < page.height_mm - 4).toBe(true);
});
