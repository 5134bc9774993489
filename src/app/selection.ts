/** What stays selected or pointed at when the design under it changes. */
import type { Design } from '../design/document.ts';
import type { Pointed } from '../panels/bench.ts';

export function selectionAfter(design: Design, selected: string | null): string | null {
  if (selected !== null && design.sets.some((set) => set.id === selected)) return selected;
  return design.sets[0]?.id ?? null;
}

export function stillThere(design: Design, pointed: Pointed | null): Pointed | null {
  if (!pointed) return null;
  const ids = new Set(design.order);
  const there =
    pointed.kind === 'ring' ? ids.has(pointed.slot) : ids.has(pointed.under) && ids.has(pointed.over);
  return there ? pointed : null;
}
