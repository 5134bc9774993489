/**
 * What the steps of a slot say that is cut with the table tilted: the blank stands on an end, one side against a
 * ledge on the low side of the table, and is fed along the ledge up to a stop. Numbers as in plan/tableSetup.ts.
 */
import type { Design } from '../../design/document.ts';
import { angle, length, thickness } from '../../files/sheet/numbers.ts';
import { CUT_WORDS } from '../../plan/cutWords.ts';
import type { SetupOnTable } from '../../plan/setups.ts';
import type { EndMark, TableSetup } from '../../plan/tableSetup.ts';
import { sectionGeometry, faceLetterAt } from '../../blank/section.ts';
import { normalizeDegrees } from '../../geometry/angle.ts';
import type { Passes } from '../../plan/passes.ts';
import type { CutPlace } from './steps.ts';
import { asMade } from './made.ts';
import { capital, placeNumber, type BigNumber, type SettingWords } from './words.ts';

/** `kept`: what the marks show besides: settings that stand as they stood. */
export function tableWords(
  { number, passes }: CutPlace,
  setup: SetupOnTable,
  design: Design,
  kept: readonly string[],
): SettingWords {
  const { table } = setup;
  const { unit } = design;
  return {
    lay: () => ({
      title: `Stand it on its ${table.end_down} end`,
      lead:
        `Cut ${number}, ${setup.slot}. The table tilts down to the ${table.tilts}; ` +
        `${setup.face === null ? angle(setup.fence_azimuth_deg) : `face ${setup.face}`} lies against the ledge on the low side.`,
      numbers: [
        { name: 'Down', value: capital(table.end_down) },
        { name: 'At the ledge', value: setup.face ?? angle(setup.fence_azimuth_deg) },
        ...(table.entry_face === null ? [] : [{ name: 'Blade enters', value: table.entry_face }]),
      ],
      checks: ['The end lies flat, nothing under it', 'Clamped: it can neither slide nor tip'],
    }),
    fence: () => ({
      title: `Tilt the table to ${angle(table.tilt_deg)}`,
      lead: `Down to the ${table.tilts}. Measure the tilt against the blade, not against the scale alone.`,
      numbers: [
        { name: CUT_WORDS.table.angle, value: angle(table.tilt_deg) },
        { name: 'Down to the', value: capital(table.tilts) },
      ],
      checks: ['The table is locked', 'Ledge and stop are firm on the tilted table'],
    }),
    stop: () => ({
      title: passes ? 'Set the ledge for pass 1' : 'Set the ledge',
      lead: isBeyond(table)
        ? 'The blade goes through the table beyond the ledge, on the low side. Measure there, square to the ledge, from its face to the kerf.'
        : 'Measure on the table, square to the ledge, from the ledge to the kerf.',
      numbers: passes ? passNumbers(passes, unit) : ledgeNumbers(setup, design),
      checks: ['The ledge runs the way of the feed and is locked', 'No dust between ledge and blank'],
    }),
    bladestop: () => ({
      title: 'Set the feed stop',
      lead: `The feed must end before the blade comes through${table.web_face === null ? '' : ` face ${table.web_face}`}.`,
      numbers: [
        { name: 'Web left', value: thickness(setup.blade_stop_mm, unit) },
        { name: 'Feed', value: length(table.feed_mm, unit), note: 'from the first touch' },
      ],
      checks: [
        'The carriage meets the stop before the web is touched',
        'Tried with the blade standing still',
      ],
    }),
    marks: () => ({
      title: 'Check the marks',
      lead: passes
        ? 'The marks run along the feed, in the middle of the slot.'
        : 'The marks run along the feed. The standing blade must point at them.',
      numbers: tableMarks(setup, design),
      checks: [...kept, 'The slope runs the way the drawing shows'],
    }),
  };
}

/** Where the kerf meets the tilted table: `53.64 mm to mid-kerf`, or beyond the ledge. */
export function ledgePlace(center_mm: number, unit: Design['unit']): string {
  return center_mm < 0
    ? `mid-kerf ${length(-center_mm, unit)} beyond it`
    : `${length(center_mm, unit)} to mid-kerf`;
}

/** The kerf meets the table on the low side of the ledge. */
function isBeyond({ ledge_to_kerf_center_mm }: TableSetup): boolean {
  return ledge_to_kerf_center_mm !== null && ledge_to_kerf_center_mm < 0;
}

/** From the ledge to the kerf as it was measured: its middle, and the side that is nearer to the ledge. */
function ledgeNumbers({ slot, table }: SetupOnTable, design: Design): BigNumber[] {
  const center_mm = table.ledge_to_kerf_center_mm;
  if (center_mm === null) return [];
  const near_mm = asMade(design, slot).ledge_to_kerf_near_mm ?? 0;
  return [
    placeNumber(isBeyond(table) ? 'Beyond, to mid-kerf' : 'To mid-kerf', Math.abs(center_mm), design.unit),
    ...(near_mm * center_mm > 0 ? [placeNumber('To near side', Math.abs(near_mm), design.unit)] : []),
  ];
}

/** Where the kerf's middle leaves the blank: through its ends, or through the sides at the ledge and across, from the foot. */
function tableMarks(setup: SetupOnTable, { unit, blank }: Design): BigNumber[] {
  const { table } = setup;
  const section = sectionGeometry(blank.section);
  const side = (azimuth_deg: number, z_mm: number, otherwise: string): BigNumber[] => {
    if (z_mm < 0 || z_mm > blank.length_mm) return [];
    const face = faceLetterAt(section, normalizeDegrees(azimuth_deg));
    return [placeNumber(`On ${face === null ? otherwise : `face ${face}`}`, z_mm, unit, 'from the foot')];
  };
  return [
    ...endMark('On the foot', table.mark_foot, unit),
    ...endMark('On the head', table.mark_head, unit),
    ...side(setup.fence_azimuth_deg, setup.mark_fence_mm, 'the ledge side'),
    ...side(setup.fence_azimuth_deg + 180, setup.mark_entry_mm, 'the far side'),
  ].slice(0, 3);
}

/** Negative places are beyond the ledge. */
function passNumbers({ passes }: Passes, unit: Design['unit']): BigNumber[] {
  const place_mm = passes[0].stop_to_blade_center_mm;
  const name = place_mm < 0 ? 'Beyond, to the blade’s middle' : 'To the blade’s middle';
  return [placeNumber(name, Math.abs(place_mm), unit)];
}

function endMark(name: string, mark: EndMark | null, unit: Design['unit']): BigNumber[] {
  if (!mark) return [];
  const side =
    mark.face === null ? `the ${mark.nearer === 'ledge' ? 'ledge' : 'far'} side` : `face ${mark.face}`;
  return [placeNumber(name, mark.from_side_mm, unit, `from ${side}`)];
}
