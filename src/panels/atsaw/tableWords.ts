/**
 * What the steps of a slot say that is cut with the table tilted: the blank stands on an end, one side against a
 * ledge on the low side of the table, and is fed along the ledge up to a stop. Numbers as in plan/tableSetup.ts.
 */
import type { Design } from '../../design/document.ts';
import { angle, length, thickness } from '../../files/sheet/numbers.ts';
import type { Setup } from '../../plan/setups.ts';
import type { EndMark, TableSetup } from '../../plan/tableSetup.ts';
import type { SlotKind } from './steps.ts';
import { placeNumber, type BigNumber, type StepWords } from './words.ts';

export type TableKind = Extract<SlotKind, 'lay' | 'fence' | 'stop' | 'bladestop' | 'marks'>;

export function tableWords(
  kind: TableKind,
  number: number,
  setup: Setup,
  table: TableSetup,
  { unit }: Design,
  kept: readonly string[],
): StepWords {
  const words: Readonly<Record<TableKind, () => StepWords>> = {
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
      checks: ['The end lies flat, nothing under it', 'Clamped to what carries it: it cannot slide or tip'],
    }),
    fence: () => ({
      title: `Tilt the table to ${angle(table.tilt_deg)}`,
      lead: `Down to the ${table.tilts}. Measure the tilt against the blade, not against the scale alone.`,
      numbers: [
        { name: 'Table tilt', value: angle(table.tilt_deg) },
        { name: 'Down to the', value: capital(table.tilts) },
      ],
      checks: ['The table is locked', 'Ledge and stop are firm on the tilted table'],
    }),
    stop: () => ({
      title: 'Set the ledge',
      lead: 'Measure on the table, square to the ledge, from the ledge to the kerf.',
      numbers: [
        ...ledge('To mid-kerf', table.ledge_to_kerf_center_mm, unit),
        ...ledge('To near side', table.ledge_to_kerf_near_mm, unit),
      ],
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
      lead: 'The marks run along the feed on the ends of the blank. The standing blade must point at them.',
      numbers: [
        ...endMark('On the foot', table.mark_foot, unit),
        ...endMark('On the head', table.mark_head, unit),
      ],
      checks: [...kept, 'The slope runs the way the drawing shows'],
    }),
  };
  return words[kind]();
}

function ledge(name: string, place_mm: number | null, unit: Design['unit']): BigNumber[] {
  return place_mm === null ? [] : [placeNumber(name, place_mm, unit)];
}

function endMark(name: string, mark: EndMark | null, unit: Design['unit']): BigNumber[] {
  if (!mark) return [];
  const side =
    mark.face === null ? `the ${mark.nearer === 'ledge' ? 'ledge' : 'far'} side` : `face ${mark.face}`;
  return [placeNumber(name, mark.from_side_mm, unit, `from ${side}`)];
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
