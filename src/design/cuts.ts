/** What a kind of cut means for a set: where it leaves its web, and what a document says of it. */
import { DEFAULT_CUT } from './defaults.ts';
import type { CutKind, SlotSet } from './document.ts';

type Cut = Pick<SlotSet, 'cut' | 'web_side'>;

export interface WebPlace {
  /** From the fence azimuth to the side of the web. */
  readonly turn_deg: number;
  /** It may stand behind as well: as far the other way. */
  readonly hasSides: boolean;
}

export const WEB_PLACES: Readonly<Record<CutKind, WebPlace>> = {
  fence: { turn_deg: 0, hasSides: false },
  table: { turn_deg: 90, hasSides: true },
};

export function cutOf({ cut = DEFAULT_CUT }: Pick<SlotSet, 'cut'>): CutKind {
  return cut;
}

/** What says nothing is left out: the usual cut, a web ahead, a side where there is only one. */
export function writtenCut({ cut = DEFAULT_CUT, web_side }: Cut): Cut {
  return {
    ...(cut === DEFAULT_CUT ? {} : { cut }),
    ...(WEB_PLACES[cut].hasSides && web_side === 'behind' ? { web_side } : {}),
  };
}
