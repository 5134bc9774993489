/**
 * The saw's throat: between the blade and its frame. The wood on the frame's side of the cutting plane has to go through
 * it. Millimetres.
 *
 * With the table tilted the frame stands on its high side where it tilts to the right (common practice), so the side is
 * known. At the fence the sled may stand either way, so either end may hang clear of the frame: one of them must.
 */
import type { Saw } from '../design/document.ts';
import type { Message } from './messages.ts';
import type { End, Setup } from './setups.ts';
import { ROUNDING_MM } from './thresholds.ts';
import { mm, said, type Wording } from './wording.ts';

export interface ThroatFault {
  /** warning: it does not go through; note: only one way round. */
  readonly level: Message['level'];
  readonly words: Wording;
  /** Wood beside the blade that must go through the throat. */
  readonly needs_mm: number;
}

export function throatFault(setup: Setup, { throat_mm }: Pick<Saw, 'throat_mm'>): ThroatFault | null {
  if (throat_mm === undefined) return null;
  const beyond = (end: End) => (end === 'foot' ? setup.beyond_foot_mm : setup.beyond_head_mm);
  const tooFar = (end: End) => beyond(end) > throat_mm + ROUNDING_MM;
  const throat = said`the throat is ${mm(throat_mm)}`;
  const wood = (end: End) => mm(beyond(end), 2, { beside_mm: throat_mm });
  const atFrame = frameEnd(setup);
  if (atFrame !== null) {
    if (!tooFar(atFrame)) return null;
    return {
      level: 'warning',
      needs_mm: beyond(atFrame),
      words: said`${setup.slot} has ${wood(atFrame)} of wood between the blade and the saw’s frame, ${throat}.`,
    };
  }
  const near = nearEnd(setup);
  const far = near === 'foot' ? 'head' : 'foot';
  if (!tooFar(far)) return null;
  if (tooFar(near))
    return {
      level: 'warning',
      needs_mm: beyond(near),
      words: said`${setup.slot} has ${wood('foot')} of wood beside the blade on the foot side and ${wood('head')} on the head side, ${throat}: the blank goes through neither way.`,
    };
  return {
    level: 'note',
    needs_mm: beyond(near),
    words: said`${setup.slot} has ${wood(far)} of wood on the ${far} side of the blade, ${throat}: the ${far} must hang clear of the saw’s frame.`,
  };
}

/** The end of the blank toward the saw's frame; null: either, as the sled stands. */
export function frameEnd(setup: Setup): End | null {
  switch (setup.cut) {
    case 'fence':
      return null;
    case 'table':
      return setup.table.frame_end;
  }
}

/** The end with less wood beside the blade. */
export function nearEnd({ beyond_foot_mm, beyond_head_mm }: Setup): End {
  return beyond_foot_mm <= beyond_head_mm ? 'foot' : 'head';
}
