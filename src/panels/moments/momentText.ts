/** The moments in words: what a place on the line is called and what stands beside the name. */
import { faceLetterAt, sectionGeometry } from '../../blank/section.ts';
import type { Moment, MomentKind } from '../../blank/moments.ts';
import { DEFAULT_CUT } from '../../design/defaults.ts';
import type { Design, SlotSet } from '../../design/document.ts';
import { CUT_WORDS } from '../../plan/cutWords.ts';
import { timberName } from '../../timber/names.ts';

export interface MomentWords {
  readonly title: string;
  readonly detail: string;
}

/** `beside`: designs that the words must hold for as well; what is not the same in all of them is left out. */
export function momentWords(design: Design, moment: Moment, beside: readonly Design[] = []): MomentWords {
  return WORDS[moment.kind](design, moment, beside);
}

type Words = (design: Design, moment: Moment, beside: readonly Design[]) => MomentWords;

const WORDS: Readonly<Record<MomentKind, Words>> = {
  block: (design) => ({ title: 'Sawn block', detail: timberName(design.blank.timber) }),
  'quarter-turn': (design, moment) => {
    const { set, face, azimuth_deg } = slotPlace(design, moment);
    return {
      title: `Turn ${face === null ? `${number(azimuth_deg)}°` : `face ${face}`} to the ${wallOf(set)}`,
      detail: `before cut ${(moment.slot ?? 0) + 1}`,
    };
  },
  cut: (design, moment, beside) => {
    const { set, id, face, azimuth_deg } = slotPlace(design, moment);
    const against = face === null ? `azimuth ${number(azimuth_deg)}°` : `face ${face}`;
    const sameAngle = beside.every((other) =>
      other.sets.some((known) => known.id === set.id && known.angle_deg === set.angle_deg),
    );
    const angle = sameAngle ? `${number(set.angle_deg)}°, ` : '';
    return {
      title: `Cut ${(moment.slot ?? 0) + 1}`,
      detail: `${id}, ${angle}${against} at the ${wallOf(set)}`,
    };
  },
  strip: (design, moment) => {
    const { set, id } = slotPlace(design, moment);
    const timbers = [...new Set(set.strip.layers.map((layer) => timberName(layer.timber)))];
    return { title: `Strip ${(moment.slot ?? 0) + 1}`, detail: `${timbers.join(' and ')} glued into ${id}` };
  },
  glued: ({ order }) =>
    order.length === 0
      ? { title: 'Block', detail: 'no cuts yet' }
      : { title: 'Glued block', detail: count(order.length, 'strip') },
  turned: () => ({ title: 'Turned outside', detail: 'on the lathe' }),
  hollowed: () => ({ title: 'Hollowed', detail: 'on the lathe' }),
  finished: (design) => ({
    title: 'Finished',
    detail: design.order.length === 0 ? 'no rings' : count(design.order.length, 'ring'),
  }),
};

/** What a set's blank lies against. */
function wallOf({ cut = DEFAULT_CUT }: SlotSet): string {
  return CUT_WORDS[cut].wall;
}

interface SlotPlace {
  readonly id: string;
  readonly set: SlotSet;
  readonly azimuth_deg: number;
  readonly face: string | null;
}

function slotPlace(design: Design, moment: Moment): SlotPlace {
  const id = design.order[moment.slot ?? 0];
  for (const set of design.sets) {
    for (const [n, azimuth_deg] of set.fence_azimuths_deg.entries()) {
      if (`${set.id}.${n + 1}` === id)
        return {
          id,
          set,
          azimuth_deg,
          face: faceLetterAt(sectionGeometry(design.blank.section), azimuth_deg),
        };
    }
  }
  throw new Error(`order names ${id}, which no set has`);
}

function number(value: number): string {
  return String(Math.round(value * 100) / 100);
}

export function count(n: number, thing: string): string {
  return `${n} ${thing}${n === 1 ? '' : 's'}`;
}
