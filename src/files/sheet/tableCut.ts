/** What the sheet says of a cut with the table tilted. */
import type { Design, DisplayUnit } from '../../design/document.ts';
import type { AsMade } from '../../plan/made.ts';
import type { SetupOnTable } from '../../plan/setups.ts';
import type { EndMark } from '../../plan/tableSetup.ts';
import type { CutEntry, Row } from './cutEntry.ts';
import { angle, length, onRule, placeText, thickness } from './numbers.ts';

export function tableEntry(
  setup: SetupOnTable,
  { ledge_to_kerf_near_mm }: AsMade,
  { unit }: Design,
): CutEntry {
  const { table } = setup;
  const ledge_mm = table.ledge_to_kerf_center_mm;
  return {
    lies: [
      setup.face ? `${setup.face} at the ledge` : `azimuth ${angle(setup.fence_azimuth_deg)} at the ledge`,
      `${table.end_down} on the table`,
      `${table.tilts} side down`,
    ],
    seen: 'Seen along the feed and down on the table',
    // The drawing shows on which side of the ledge; a dimension has no sign.
    stop: length(Math.abs(setup.stop_to_kerf_center_mm), unit),
    settings: [
      ['Table', angle(table.tilt_deg), `${angle(90 - table.tilt_deg)} to the blade`],
      [
        'Ledge to mid-kerf',
        ledge_mm === null ? 'never' : length(Math.abs(ledge_mm), unit),
        ledge_mm !== null && ledge_mm < 0
          ? 'beyond the ledge'
          : ((ledge_mm === null ? null : onRule(ledge_mm, unit)) ?? 'on the table'),
      ],
      ['Web', thickness(setup.blade_stop_mm, unit), `left at ${table.web_face ?? 'the far end of the feed'}`],
    ],
    rows: [
      ['Ledge to near side of kerf', ledgeText(ledge_to_kerf_near_mm, (ledge_mm ?? 0) < 0, unit)],
      markRow('head', table.mark_head, unit),
      markRow('foot', table.mark_foot, unit),
      [
        `Feed from ${table.entry_face ?? 'the first touch'}; wood along the blade`,
        `${length(table.feed_mm, unit)}; ${length(setup.cut_height_mm, unit)}`,
      ],
    ],
  };
}

/**
 * A place from the ledge; a negative one is on the side that the blank does not lie on. Where the middle of the kerf is
 * there (`beyond`), a side of it that is not says so.
 */
function ledgeText(place_mm: number | null, beyond: boolean, unit: DisplayUnit): string {
  if (place_mm === null) return 'never';
  if (beyond && place_mm >= 0) return `${length(place_mm, unit)} on the blank’s side`;
  return place_mm < 0 ? `${length(-place_mm, unit)} beyond the ledge` : placeText(place_mm, unit);
}

function markRow(end: 'head' | 'foot', mark: EndMark | null, unit: DisplayUnit): Row {
  if (!mark) return [`Mark on the ${end}`, 'none: the kerf leaves through a side'];
  const from = mark.face ?? (mark.nearer === 'ledge' ? 'the ledge side' : 'the far side');
  return [`Mark on the ${end}, from ${from}`, placeText(mark.from_side_mm, unit)];
}
