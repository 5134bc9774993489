/**
 * What the maker's saw cannot cut as the design asks, and what would make it possible. Millimetres, degrees.
 * The same facts as the messages `angle-out-of-range`, `blank-too-tall`, `throat-too-small`, `face-not-flat` and
 * `kerf-differs` of a test cut, with remedies.
 */
import { faceIndexAt, sectionGeometry, type SectionGeometry } from '../blank/section.ts';
import type { Design, Saw, SlotId } from '../design/document.ts';
import { cosDeg } from '../geometry/angle.ts';
import { setupsOf, type Setup } from './setups.ts';
import type { TableSetup } from './tableSetup.ts';
import { ROUNDING_MM } from './thresholds.ts';
import { throatFault } from './throat.ts';
import { degrees, mm } from './wording.ts';

export interface SawLimit {
  readonly slot: SlotId;
  readonly limit: 'angle' | 'height' | 'throat' | 'face' | 'kerf';
  readonly text: string;
  /** Any one of them is enough. */
  readonly remedies: readonly string[];
}

/** Limits met, slot by slot in cutting order; empty when the saw can cut everything. */
export function sawLimitsOf(design: Design): SawLimit[] {
  return setupsOf(design).flatMap((setup) => [
    ...(setup.table ? tiltLimits(setup, design) : fenceLimits(setup, design)),
    ...sizeLimits(setup, design),
    ...(setup.face === null ? [faceLimit(setup, design)] : []),
    ...kerfLimits(setup, design),
  ]);
}

function fenceLimits(setup: Setup, { saw }: Design): SawLimit[] {
  const limit = (text: string, remedies: readonly string[]): SawLimit[] => [
    { slot: setup.slot, limit: 'angle', text, remedies },
  ];
  const angle = setup.fence_angle_deg;
  if (angle < saw.fence_min_deg)
    return limit(
      `${setup.slot} asks for ${degrees(angle)}, the fence turns no further than ${degrees(saw.fence_min_deg)}.`,
      [
        `Raise the angle of its set to ${degrees(saw.fence_min_deg)}.`,
        `Make a sled whose fence stands at ${degrees(angle)}.`,
        ...(angle <= saw.table_tilt_max_deg ? [`Cut it with the table tilted by ${degrees(angle)}.`] : []),
      ],
    );
  if (angle > saw.fence_max_deg)
    return limit(
      `${setup.slot} asks for ${degrees(angle)}, the fence opens no further than ${degrees(saw.fence_max_deg)}.`,
      [
        `Lower the angle of its set to ${degrees(saw.fence_max_deg)}.`,
        `Make a sled whose fence stands at ${degrees(angle)}.`,
      ],
    );
  return [];
}

function tiltLimits(setup: Setup, { saw }: Design): SawLimit[] {
  const tilt = setup.fence_angle_deg;
  if (tilt <= saw.table_tilt_max_deg) return [];
  const missing = degrees(tilt - saw.table_tilt_max_deg);
  return [
    {
      slot: setup.slot,
      limit: 'angle',
      text: `${setup.slot} asks for a tilt of ${degrees(tilt)}, the table tilts no further than ${degrees(saw.table_tilt_max_deg)}.`,
      remedies: [
        `Lower the angle of its set to ${degrees(saw.table_tilt_max_deg)}.`,
        `Lay the blank on a wedge of ${missing} that adds to the tilt.`,
        ...(tilt >= saw.fence_min_deg && tilt <= saw.fence_max_deg
          ? [`Cut it against the fence at ${degrees(tilt)}.`]
          : []),
      ],
    },
  ];
}

function sizeLimits(setup: Setup, { saw }: Design): SawLimit[] {
  const limits: SawLimit[] = [];
  const { slot, table, cut_height_mm } = setup;
  const over_mm = cut_height_mm - saw.max_cut_height_mm;
  if (over_mm > ROUNDING_MM)
    limits.push({
      slot,
      limit: 'height',
      text: table
        ? `${slot} is ${mm(cut_height_mm)} of wood along the blade, the saw clears ${mm(saw.max_cut_height_mm)}.`
        : `The blank stands ${mm(cut_height_mm)} high for ${slot}, the saw clears ${mm(saw.max_cut_height_mm)}.`,
      remedies: [
        table
          ? `Take a blank that is ${mm(over_mm * cosDeg(table.tilt_deg))} shorter, or tilt the table less.`
          : `Take a blank that is at least ${mm(over_mm)} smaller across the blade.`,
        `Use a saw that clears ${mm(cut_height_mm)}.`,
      ],
    });
  const throat = throatFault(setup, saw);
  if (throat?.level === 'warning')
    limits.push({
      slot,
      limit: 'throat',
      text: throat.text,
      remedies: [
        ...(table ? otherWayRound(setup, table, saw) : ['Cut the blank shorter before sawing.']),
        `Use a saw with a throat of ${mm(throat.needs_mm)} or more.`,
      ],
    });
  return limits;
}

/** Turned over and half round the blank lies with its other end down and the other side of the kerf at the frame. */
function otherWayRound(setup: Setup, table: TableSetup, { throat_mm = Infinity }: Saw): string[] {
  const other_mm = table.frame_end === 'foot' ? setup.beyond_head_mm : setup.beyond_foot_mm;
  return other_mm <= throat_mm
    ? ['Hold the blank by its far side, lying on its other end: the other half then faces the frame.']
    : [];
}

function faceLimit(setup: Setup, { blank }: Design): SawLimit {
  const section = sectionGeometry(blank.section);
  const azimuth = degrees(setup.fence_azimuth_deg);
  return {
    slot: setup.slot,
    limit: 'face',
    text: `No flat of the blank stands at azimuth ${azimuth}, where ${setup.slot} wants the ${setup.table ? 'ledge' : 'fence'}.`,
    remedies: [
      setup.table
        ? `Turn the blank to an index mark at ${azimuth} and hold it between two blocks.`
        : `Hold the blank in a cradle with its index mark at ${azimuth}.`,
      ...nearestFlat(section, setup.fence_azimuth_deg),
      ...(section.round ? ['Saw from a square blank and turn it round after the last strip.'] : []),
    ],
  };
}

function nearestFlat(section: SectionGeometry, azimuth_deg: number): string[] {
  const flats = section.faceAzimuths_deg;
  if (flats.length === 0) return [];
  const turn = (flat: number) => ((azimuth_deg - flat + 540) % 360) - 180;
  const nearest = flats.reduce((best, flat) => (Math.abs(turn(flat)) < Math.abs(turn(best)) ? flat : best));
  const letter = 'ABCDEFGH'[faceIndexAt(section, nearest)];
  return [`Move the azimuth by ${degrees(Math.abs(turn(nearest)))} to face ${letter} (${degrees(nearest)}).`];
}

function kerfLimits({ slot, kerf_mm }: Setup, { saw }: Design): SawLimit[] {
  const { blade_kerf_mm, strip_tolerance_mm } = saw;
  if (blade_kerf_mm === undefined || blade_kerf_mm - kerf_mm <= strip_tolerance_mm + ROUNDING_MM) return [];
  return [
    {
      slot,
      limit: 'kerf',
      text: `${slot} asks for a kerf of ${mm(kerf_mm, 3)}, the saw cuts ${mm(blade_kerf_mm, 3)}.`,
      remedies: [
        `Set the kerf and the strip of its set to ${mm(blade_kerf_mm, 3)}.`,
        `Take a blade that cuts ${mm(kerf_mm, 3)} or less.`,
      ],
    },
  ];
}
