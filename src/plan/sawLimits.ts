/**
 * What the maker's saw cannot cut as the design asks, and what would make it possible. Millimetres, degrees.
 * The same facts as the messages `angle-out-of-range`, `blank-too-tall`, `throat-too-small`, `face-not-flat` and
 * `kerf-differs` of a test cut, with remedies (remedies.ts): those that change the design are worked out on it, and
 * offered only where the saw can then cut the slot.
 */
import { FACE_LETTERS, faceIndexAt, sectionGeometry } from '../blank/section.ts';
import type { CutKind, Design, SlotId } from '../design/document.ts';
import { cosDeg, sinDeg } from '../geometry/angle.ts';
import {
  helps,
  limitsOfSetup,
  nearestLowerAngle_deg,
  type Change,
  type LimitKind,
  type Remedy,
} from './remedies.ts';
import { CUT_WORDS } from './cutWords.ts';
import { setupsOf, type Setup } from './setups.ts';
import { frameEnd, nearEnd, throatFault } from './throat.ts';
import { atLeast, degrees, mm, said, type Wording } from './wording.ts';

export interface SawLimit {
  readonly slot: SlotId;
  readonly limit: LimitKind;
  readonly words: Wording;
  /** Any one of them is enough. */
  readonly remedies: readonly Remedy[];
}

/** Limits met, slot by slot in cutting order; empty when the saw can cut everything. */
export function sawLimitsOf(design: Design): SawLimit[] {
  return setupsOf(design).flatMap((setup) =>
    [...limitsOfSetup(setup, design)].map((limit): SawLimit => {
      const { words, remedies } = WORDS[limit](setup, design);
      return { slot: setup.slot, limit, words, remedies };
    }),
  );
}

type Told = { readonly words: Wording; readonly remedies: readonly Remedy[] };

const WORDS: Readonly<Record<LimitKind, (setup: Setup, design: Design) => Told>> = {
  angle: (setup, design) => OF_KIND[setup.cut].angle(setup, design),
  height: (setup, design) => OF_KIND[setup.cut].height(setup, design),
  throat: throatLimit,
  face: faceLimit,
  kerf: kerfLimit,
};

interface KindLimits {
  readonly angle: (setup: Setup, design: Design) => Told;
  readonly height: (setup: Setup, design: Design) => Told;
  /** How a blank without a flat is held at an azimuth. */
  readonly held: (azimuth: string) => Wording;
}

const OF_KIND: Readonly<Record<CutKind, KindLimits>> = {
  fence: {
    angle: fenceLimit,
    height: heightAtFence,
    held: (azimuth) => said`Hold the blank in a cradle with its index mark at ${azimuth}.`,
  },
  table: {
    angle: tiltLimit,
    height: heightOnTable,
    held: (azimuth) => said`Turn the blank to an index mark at ${azimuth} and hold it between two blocks.`,
  },
};

const byHand = (words: Wording): Remedy => ({ words, change: null });

/** A change to the design, where it helps. */
function offered(
  design: Design,
  { slot }: Setup,
  limit: LimitKind,
  change: Change,
  words: Wording,
): Remedy[] {
  return helps(design, slot, limit, change) ? [{ words, change }] : [];
}

function fenceLimit(setup: Setup, design: Design): Told {
  const { saw } = design;
  const angle = setup.fence_angle_deg;
  const low = angle < saw.fence_min_deg;
  const nearest = low ? saw.fence_min_deg : saw.fence_max_deg;
  return {
    words: said`${setup.slot} asks for ${degrees(angle, nearest)}, the fence ${low ? 'turns' : 'opens'} no further than ${degrees(nearest)}.`,
    remedies: [
      ...offered(
        design,
        setup,
        'angle',
        { kind: 'angle', angle_deg: nearest },
        said`${low ? 'Raise' : 'Lower'} the angle of its set to ${degrees(nearest)}.`,
      ),
      byHand(said`Make a sled whose fence stands at ${degrees(angle, nearest)}.`),
      ...offered(
        design,
        setup,
        'angle',
        { kind: 'cut', cut: 'table' },
        said`Cut it with the table tilted by ${degrees(angle, nearest)}.`,
      ),
    ],
  };
}

function tiltLimit(setup: Setup, design: Design): Told {
  const tilt = setup.fence_angle_deg;
  const most = design.saw.table_tilt_max_deg;
  return {
    words: said`${setup.slot} asks for a tilt of ${degrees(tilt, most)}, the table tilts no further than ${degrees(most)}.`,
    remedies: [
      ...offered(
        design,
        setup,
        'angle',
        { kind: 'angle', angle_deg: most },
        said`Lower the angle of its set to ${degrees(most)}.`,
      ),
      byHand(said`Lay the blank on a wedge of ${degrees(tilt - most)} that adds to the tilt.`),
      ...offered(
        design,
        setup,
        'angle',
        { kind: 'cut', cut: 'fence' },
        said`Cut it against the fence at ${degrees(tilt)}.`,
      ),
    ],
  };
}

function heightAtFence(setup: Setup, design: Design): Told {
  const { slot, cut_height_mm } = setup;
  const clears_mm = design.saw.max_cut_height_mm;
  const over_mm = cut_height_mm - clears_mm;
  return {
    words: said`The blank stands ${mm(cut_height_mm, 2, { beside_mm: clears_mm })} high for ${slot}, the saw clears ${mm(clears_mm)}.`,
    remedies: [
      ...offered(
        design,
        setup,
        'height',
        { kind: 'narrower', by_mm: over_mm },
        said`Take a blank that is at least ${atLeast(over_mm)} smaller across the blade.`,
      ),
      tallerSaw(setup),
    ],
  };
}

function heightOnTable(setup: Setup, design: Design): Told {
  const { slot, fence_angle_deg: tilt_deg, cut_height_mm } = setup;
  const clears_mm = design.saw.max_cut_height_mm;
  const shorter_mm = (cut_height_mm - clears_mm) * cosDeg(tilt_deg);
  const lower_deg = nearestLowerAngle_deg(design, setup, 'height');
  return {
    words: said`${slot} is ${mm(cut_height_mm, 2, { beside_mm: clears_mm })} of wood along the blade, the saw clears ${mm(clears_mm)}.`,
    remedies: [
      ...offered(
        design,
        setup,
        'height',
        { kind: 'shorter', end: 'head', by_mm: shorter_mm },
        said`Take a blank that is ${atLeast(shorter_mm)} shorter.`,
      ),
      ...(lower_deg === null
        ? []
        : [
            {
              words: said`Lower the angle of its set to ${degrees(lower_deg)}.`,
              change: { kind: 'angle', angle_deg: lower_deg } as const,
            },
          ]),
      tallerSaw(setup),
    ],
  };
}

function tallerSaw({ cut_height_mm }: Setup): Remedy {
  return byHand(said`Use a saw that clears ${atLeast(cut_height_mm)}.`);
}

function throatLimit(setup: Setup, design: Design): Told {
  const { saw } = design;
  const throat = throatFault(setup, saw);
  if (!throat) throw new Error(`${setup.slot} goes through the throat`);
  const { throat_mm = Infinity } = saw;
  // The plane's distance from an end's farthest corner shrinks by sin θ of what comes off that end.
  const shorter_mm = (throat.needs_mm - throat_mm) / sinDeg(setup.fence_angle_deg);
  const end = frameEnd(setup) ?? nearEnd(setup);
  return {
    words: throat.words,
    remedies: [
      ...otherWayRound(setup, throat_mm),
      ...offered(
        design,
        setup,
        'throat',
        { kind: 'shorter', end, by_mm: shorter_mm },
        said`Take ${atLeast(shorter_mm)} or more off the ${end} end before sawing${end === 'foot' ? ', and set the places of all sets that much nearer to it' : ''}.`,
      ),
      byHand(said`Use a saw with a throat of ${atLeast(throat.needs_mm)} or more.`),
    ],
  };
}

/**
 * On the table, turned over and half round, the blank lies with its other end down and the other side of the kerf at the
 * frame. At the fence both ways round were tried before it was called too far.
 */
function otherWayRound(setup: Setup, throat_mm: number): Remedy[] {
  switch (setup.cut) {
    case 'fence':
      return [];
    case 'table': {
      const other_mm = setup.table.frame_end === 'foot' ? setup.beyond_head_mm : setup.beyond_foot_mm;
      if (other_mm > throat_mm) return [];
      return [
        byHand(
          said`Hold the blank by its far side, lying on its other end: the other half then faces the frame.`,
        ),
      ];
    }
  }
}

function faceLimit(setup: Setup, design: Design): Told {
  const section = sectionGeometry(design.blank.section);
  const azimuth_deg = setup.fence_azimuth_deg;
  const azimuth = degrees(azimuth_deg);
  const flats = section.faceAzimuths_deg;
  const turn = (flat: number) => ((azimuth_deg - flat + 540) % 360) - 180;
  const nearest = flats.toSorted((a, b) => Math.abs(turn(a)) - Math.abs(turn(b))).at(0);
  return {
    words: said`No flat of the blank stands at azimuth ${azimuth}, where ${setup.slot} wants the ${CUT_WORDS[setup.cut].wall}.`,
    remedies: [
      byHand(OF_KIND[setup.cut].held(azimuth)),
      ...(nearest === undefined
        ? []
        : offered(
            design,
            setup,
            'face',
            { kind: 'azimuth', azimuth_deg: nearest },
            said`Move the azimuth by ${degrees(Math.abs(turn(nearest)))} to face ${FACE_LETTERS[faceIndexAt(section, nearest)]} (${degrees(nearest)}).`,
          )),
      ...(section.round
        ? [byHand(said`Saw from a square blank and turn it round after the last strip.`)]
        : []),
    ],
  };
}

function kerfLimit(setup: Setup, design: Design): Told {
  const { blade_kerf_mm = 0 } = design.saw;
  return {
    words: said`${setup.slot} asks for a kerf of ${mm(setup.kerf_mm, 3, { beside_mm: blade_kerf_mm })}, the saw cuts ${mm(blade_kerf_mm, 3)}.`,
    remedies: [
      ...offered(
        design,
        setup,
        'kerf',
        { kind: 'kerf', kerf_mm: blade_kerf_mm },
        said`Set the kerf and the strip of its set to ${mm(blade_kerf_mm, 3)}.`,
      ),
      byHand(said`Take a blade that cuts ${mm(setup.kerf_mm, 3)} or less.`),
    ],
  };
}
