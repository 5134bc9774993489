/** What the sheet says of a cut with the table tilted where it differs from one at the fence. */
import type { DisplayUnit } from '../../design/document.ts';
import type { AsMade } from '../../plan/made.ts';
import type { Setup } from '../../plan/setups.ts';
import type { EndMark, TableSetup } from '../../plan/tableSetup.ts';
import { angle, length, onRule, thickness } from './numbers.ts';

/** How the blank lies: for the title of the cut. */
export function liesOnTable(setup: Setup, table: TableSetup): string[] {
  return [
    setup.face ? `${setup.face} at the ledge` : `azimuth ${angle(setup.fence_azimuth_deg)} at the ledge`,
    `${table.end_down} on the table`,
    `${table.tilts} side down`,
  ];
}

/** The three settings, as [label, value, note]. */
export function tableSettings(
  setup: Setup,
  table: TableSetup,
  unit: DisplayUnit,
): [string, string, string][] {
  const ledge_mm = table.ledge_to_kerf_center_mm;
  return [
    ['Table', angle(table.tilt_deg), `${angle(90 - table.tilt_deg)} to the blade`],
    [
      'Ledge to mid-kerf',
      ledge_mm === null ? 'never' : length(Math.abs(ledge_mm), unit),
      ledge_mm !== null && ledge_mm < 0
        ? 'beyond the ledge'
        : ((ledge_mm === null ? null : onRule(ledge_mm, unit)) ?? 'on the table'),
    ],
    ['Web', thickness(setup.blade_stop_mm, unit), `left at ${table.web_face ?? 'the far end of the feed'}`],
  ];
}

/** Numbers below the settings, as [label, value]. */
export function tableRows(
  table: TableSetup,
  setup: Setup,
  { ledge_to_kerf_near_mm }: AsMade,
  unit: DisplayUnit,
): [string, string][] {
  return [
    [
      'Ledge to near side of kerf',
      ledgeText(ledge_to_kerf_near_mm, (table.ledge_to_kerf_center_mm ?? 0) < 0, unit),
    ],
    ...(['head', 'foot'] as const).map((end): [string, string] =>
      markRow(end, end === 'head' ? table.mark_head : table.mark_foot, unit),
    ),
    [
      `Feed from ${table.entry_face ?? 'the first touch'}; wood along the blade`,
      `${length(table.feed_mm, unit)}; ${length(setup.cut_height_mm, unit)}`,
    ],
  ];
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

function markRow(end: 'head' | 'foot', mark: EndMark | null, unit: DisplayUnit): [string, string] {
  if (!mark) return [`Mark on the ${end}`, 'none: the kerf leaves through a side'];
  const from = mark.face ?? (mark.nearer === 'ledge' ? 'the ledge side' : 'the far side');
  return [`Mark on the ${end}, from ${from}`, placeText(mark.from_side_mm, unit)];
}

/** A place, with the reading of a rule beside it in inches. */
export function placeText(length_mm: number, unit: DisplayUnit): string {
  const rule = onRule(length_mm, unit);
  return rule === null ? length(length_mm, unit) : `${length(length_mm, unit)}  (${rule})`;
}
