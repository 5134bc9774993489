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
    cutListCsv({ ...design, blank: { ...design.blank, timber: 'black-walnut' } })
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
  const csv = cutListCsv(fourRings({ unit: 'mm' })).replace('"blank, square"', 'blank');
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

test('a cut with the table tilted has columns of its own, and none of the fence', () => {
  // 150 × 120 × 60 mm, 30° at z 20, face A at the ledge, the head on the table (docs/shop-plan.md, "Table tilted"): the mid-plane
  // stands 40 tan 30° toward A at the head, 20 tan 30° toward C at the foot; half the kerf on the table is 1.5 / cos 30°.
  const sets = [
    slotSet({ cut: 'table', angle_deg: 30, center_mm: 20, fence_azimuths_deg: [0], kerf_mm: 3, web_mm: 6 }),
    slotSet({ id: 'S2', angle_deg: 80, center_mm: 30, fence_azimuths_deg: [90] }),
  ];
  const [tilted, straight] = rowsOf(
    setupsCsv(
      fourRings({
        unit: 'mm',
        section: { shape: 'rectangle', width_mm: 150, depth_mm: 120 },
        length_mm: 60,
        sets,
        form: null,
      }),
    ),
  );
  const tan30 = 1 / Math.sqrt(3);
  const cos30 = Math.sqrt(3) / 2;
  expect(tilted).toMatchObject({
    set_with: 'tilted table',
    face: 'A',
    table_tilt_deg: '30',
    side_down: 'right',
    end_on_table: 'head',
    entry_face: 'D',
    web_face: 'B',
    ledge_to_kerf_center_mm: (75 - 40 * tan30).toFixed(3),
    ledge_to_kerf_near_mm: (75 - 40 * tan30 - 1.5 / cos30).toFixed(3),
    mark_head_from: 'A',
    mark_head_mm: (75 - 40 * tan30).toFixed(3),
    mark_foot_from: 'C',
    mark_foot_mm: (75 - 20 * tan30).toFixed(3),
    feed_mm: (120 - 6).toFixed(3),
    web_mm: '6.000',
    wood_along_blade_mm: (60 / cos30).toFixed(3),
    fence_angle_deg: '',
    stop_end: '',
    stop_to_kerf_center_mm: '',
    mark_fence_mm: '',
    mark_entry_mm: '',
    blade_stop_mm: '',
    slot_depth_mm: '',
  });
  expect(straight).toMatchObject({
    fence_angle_deg: '80',
    table_tilt_deg: '',
    feed_mm: '',
    mark_head_from: '',
  });
  expect(straight.stop_to_kerf_center_mm).not.toBe('');
  // Only what is used has columns.
  expect(setupsCsv(fourRings())).not.toContain('table_tilt');
  expect(setupsCsv(fourRings({ sets: sets.slice(0, 1) }))).not.toContain('fence_angle');
});
