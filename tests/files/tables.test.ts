/** Tables for spreadsheets: RFC 4180, and the numbers of the plan that is checked elsewhere. */
import { expect, test } from 'vitest';
import { cutListCsv, setupsCsv, table } from '../../src/files/csv.ts';
import { fourRings, slotSet } from '../fixtures/designs.ts';

/** Fields of RFC 4180, section 2, read the plain way: only for texts without quotes. */
function rowsOf(csv: string): Record<string, string>[] {
  expect(csv).not.toContain('"');
  const lines = csv.split('\r\n');
  expect(lines.pop()).toBe('');
  const [head, ...rows] = lines.map((line) => line.split(','));
  return rows.map((row) => {
    expect(row).toHaveLength(head.length);
    return Object.fromEntries(head.map((name, i) => [name, row[i]]));
  });
}

test('cells with commas, quotes and line breaks are quoted as RFC 4180 says', () => {
  // Section 2, rules 5 to 7: "aaa","b""bb","ccc" and "aaa","b CRLF bb","ccc".
  expect(table([['aaa', 'b"bb', 'c,c']])).toBe('aaa,"b""bb","c,c"\r\n');
  expect(table([['aaa', 'b\r\nbb', null, 2.5]])).toBe('aaa,"b\r\nbb",,2.5\r\n');
});

test('the cut list counts the blank and every strip, with its spares', () => {
  const design = fourRings({ saw: { strip_overhang_mm: 0 } });
  const rows = rowsOf(
    cutListCsv({ ...design, blank: { ...design.blank, timber: 'black-walnut' } }, 1.016)
      .replace('blank, square', 'blank')
      .replaceAll('"', ''),
  );
  expect(rows[0]).toMatchObject({
    piece: 'blank',
    count: '1',
    thickness_in: '3.0000',
    width_in: '3.0000',
    length_in: '8.0000',
  });
  const strips = rows.filter(({ piece }) => piece === 'strip');
  expect(strips.reduce((sum, { count }) => sum + Number(count), 0)).toBe(4);
  expect(strips[0]).toMatchObject({ thickness_in: '0.0400', for: 'S1.1 S1.2 S1.3 S1.4' });
  // Down a 45° slope to a web of 0.1 in across 3 in: (3 − 0.1) / sin 45° = 4.1012 in, plus what the stopping
  // plane's lean leaves of the strip's own thickness; without overhang no less than the first.
  expect(Number(strips[0].width_in)).toBeGreaterThanOrEqual(4.1012 - 0.0001);
  expect(Number(strips[0].width_in)).toBeLessThan(4.1012 + 0.1);
  expect(rows.filter(({ piece }) => piece === 'spare strip')).toMatchObject([{ count: '1' }]);
});

test('lengths come in the unit of the design', () => {
  const csv = cutListCsv(fourRings({ unit: 'mm' }), 1).replace('"blank, square"', 'blank');
  expect(rowsOf(csv)[0]).toMatchObject({ thickness_mm: '76.200', length_mm: '203.200' });
});

test('the set-ups are one line for each cut, in cutting order', () => {
  const rows = rowsOf(setupsCsv(fourRings({ order: ['S1.3', 'S1.1', 'S1.2', 'S1.4'] })));
  expect(rows.map(({ cut, slot, face }) => `${cut} ${slot} ${face}`)).toEqual([
    '1 S1.3 C',
    '2 S1.1 A',
    '3 S1.2 B',
    '4 S1.4 D',
  ]);
  expect(rows.every((row) => row.set_with === 'fence')).toBe(true);
  expect(new Set(rows.map(({ fence_angle_deg }) => fence_angle_deg))).toEqual(new Set(['45']));
});

test('on a round blank the place of the fence is an azimuth', () => {
  const sets = [slotSet({ fence_azimuths_deg: [12.5] })];
  const [row] = rowsOf(setupsCsv(fourRings({ sets, section: { shape: 'round', width_mm: 76.2 } })));
  expect(row.fence_azimuth_deg).toBe('12.5');
});
