/**
 * The places on the layout of the marks that have a number: where the mid-plane of every kerf meets the faces. Against the
 * fence it meets the fence face and the entry face at a height each. With the table tilted it meets the ends of the blank in
 * lines along the feed: they are told where they leave the faces of entry and web, from the nearer edge of the face (round:
 * by their azimuth); where it meets the side of the ledge or the one opposite first, by the height. Frame of the layout, mm.
 */
import type { Slot } from '../../../blank/slots.ts';
import type { CutKind, DisplayUnit } from '../../../design/document.ts';
import { DEG, normalizeDegrees } from '../../../geometry/angle.ts';
import { CUT_WORDS } from '../../../plan/cutWords.ts';
import type { Setup, SetupAtFence, SetupOnTable } from '../../../plan/setups.ts';
import { webSide } from '../../../plan/tableSetup.ts';
import { midlineOnFlat, type Flat } from '../../drawing/faces.ts';
import { angle, length } from '../numbers.ts';
import type { SheetSource } from '../source.ts';

export interface Place {
  readonly x: number;
  /** Height, or the end whose edge it stands on. */
  readonly at: number | 'foot' | 'head';
  /** `12.34 mm`, `51.3°`. */
  readonly number: string;
  readonly name: string;
  /** Room beside it on its face. */
  readonly narrow: boolean;
}

/** Where two heights or distances are the same on paper. */
const LEVEL_MM = 1e-6;
/** A face no wider than this has room for small numbers only. */
const NARROW_MM = 45;

/** A place on one face: x from its left edge. */
type OnFace = Omit<Place, 'narrow'>;

export function placesOnFlats({ measures, design }: SheetSource, flats: readonly Flat[]): Place[] {
  const { slots, setups } = measures;
  const L = design.blank.length_mm;
  const { unit } = design;
  const places: Place[] = [];
  let left = 0;
  for (const flat of flats) {
    const width = flat.to_mm - flat.from_mm;
    for (const [i, setup] of setups.entries())
      for (const place of onFlat(setup, slots[i], flat, L, unit))
        places.push({ ...place, x: left + place.x, narrow: width <= NARROW_MM });
    left += width;
  }
  return places;
}

function onFlat(setup: Setup, slot: Slot, flat: Flat, L: number, unit: DisplayUnit): OnFace[] {
  switch (setup.cut) {
    case 'fence':
      return atFence(setup, flat, L, unit);
    case 'table':
      return onTable(setup, slot, flat, L, unit);
  }
}

function atHeight(slot: string, what: string, z: number, L: number, unit: DisplayUnit): OnFace[] {
  return z < 0 || z > L ? [] : [{ x: 0, at: z, number: length(z, unit), name: `${slot} ${what}` }];
}

function atFence(setup: SetupAtFence, { letter }: Flat, L: number, unit: DisplayUnit): OnFace[] {
  const { slot, face, entry_face, mark_fence_mm, mark_entry_mm } = setup;
  return [
    ...(face === letter ? atHeight(slot, 'fence', mark_fence_mm, L, unit) : []),
    ...(entry_face === letter ? atHeight(slot, 'entry', mark_entry_mm, L, unit) : []),
  ];
}

function onTable(setup: SetupOnTable, slot: Slot, flat: Flat, L: number, unit: DisplayUnit): OnFace[] {
  const line = midlineOnFlat(slot, flat, L);
  if (line === null) return [];
  const azimuth = normalizeDegrees(flat.azimuth_deg);
  const what = sidesOf(setup, slot).find(({ azimuth_deg }) => azimuth_deg === azimuth)?.name;
  // Along the ledge the line is level: one height.
  if (Math.abs(line[0][1] - line[1][1]) < LEVEL_MM)
    return what === 'ledge' || what === 'far' ? atHeight(setup.slot, what, line[0][1], L, unit) : [];
  return line.flatMap(([t, z]): OnFace[] => {
    const end = z < LEVEL_MM ? 'foot' : z > L - LEVEL_MM ? 'head' : null;
    if (end === null) return [];
    const fromEdge = Math.min(t - flat.from_mm, flat.to_mm - t);
    const name = what === undefined ? setup.slot : `${setup.slot} ${what}`;
    return [{ x: t - flat.from_mm, at: end, number: length(fromEdge, unit), name }];
  });
}

/** The four sides of a cut with the table tilted. */
function sidesOf({ fence_azimuth_deg }: Setup, slot: Slot) {
  const side = webSide(slot);
  return [
    { name: 'ledge', turn: 0 },
    { name: 'far', turn: 180 },
    { name: 'entry', turn: -90 * side },
    { name: 'web', turn: 90 * side },
  ].map(({ name, turn }) => ({ name, azimuth_deg: normalizeDegrees(fence_azimuth_deg + turn) }));
}

/** What the side opposite the one that the blank lies against is called. */
const OPPOSITE: Readonly<Record<CutKind, string>> = { fence: 'entry', table: 'far' };

export function placesRound({ measures, design, section }: SheetSource): Place[] {
  const R = section.inscribedRadius_mm;
  const L = design.blank.length_mm;
  const { unit } = design;
  const xOf = (azimuth_deg: number) => (normalizeDegrees(azimuth_deg) / 360) * 2 * Math.PI * R;
  return measures.setups.flatMap((setup, i): Place[] => {
    const { slot, cut, fence_azimuth_deg: azimuth, mark_fence_mm, mark_entry_mm } = setup;
    const narrow = { narrow: true };
    const heights = [
      ...atHeight(slot, CUT_WORDS[cut].wall, mark_fence_mm, L, unit).map((one) => ({ ...one, turn: 0 })),
      ...atHeight(slot, OPPOSITE[cut], mark_entry_mm, L, unit).map((one) => ({ ...one, turn: 180 })),
    ].map(({ turn, ...place }): Place => ({ ...place, ...narrow, x: xOf(azimuth + turn) }));
    const ends = endTurns(setup, measures.slots[i], R).map(({ end, what, turn }): Place => ({
      ...narrow,
      x: xOf(azimuth + turn),
      at: end,
      number: angle(normalizeDegrees(azimuth + turn)),
      name: `${slot} ${what}`,
    }));
    return [...heights, ...ends];
  });
}

interface EndTurn {
  readonly end: 'foot' | 'head';
  readonly what: 'entry' | 'web';
  /** From the fence azimuth. */
  readonly turn: number;
}

/** Where the mid-plane of a kerf leaves the ends of a round blank. */
function endTurns(setup: Setup, slot: Slot, R: number): EndTurn[] {
  switch (setup.cut) {
    case 'fence':
      return [];
    case 'table': {
      const { mark_foot, mark_head } = setup.table;
      const marks = [
        ['foot', mark_foot],
        ['head', mark_head],
      ] as const;
      return marks.flatMap(([end, mark]): EndTurn[] => {
        if (!mark) return [];
        const open_deg = Math.acos(Math.min(1, Math.max(-1, mark.from_axis_mm / R))) / DEG;
        const turn = webSide(slot) * open_deg;
        return [
          { end, what: 'entry', turn: -turn },
          { end, what: 'web', turn },
        ];
      });
    }
  }
}
