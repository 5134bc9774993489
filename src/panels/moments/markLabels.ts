/** Which marks of the line of moments carry a label, so that no two labels touch. Pixels along the rule. */
import type { Moment } from '../../blank/moments.ts';

/** Width of a character of the label's type, and the least gap between two labels. */
const CHARACTER_PX = 7;
const GAP_PX = 6;

const WORDS: Partial<Record<Moment['kind'], string>> = {
  finished: 'Finished',
  block: 'Block',
  glued: 'Glued',
};

/**
 * Labels by index of the moment. The ends come first, then cut numbers in the finest of the steps 1, 2, 5, 10 …
 * that leaves room, then the words between.
 */
export function markLabels(moments: readonly Moment[], width_px: number): Map<number, string> {
  const last = Math.max(moments.length - 1, 1);
  const placed: { from: number; to: number }[] = [];
  const labels = new Map<number, string>();
  const put = (index: number, text: string): boolean => {
    const width = text.length * CHARACTER_PX;
    const centre = (index / last) * width_px;
    // The first and the last label hang over the ends of the rule by no more than its inset.
    const from = Math.min(Math.max(centre - width / 2, -8), width_px + 8 - width);
    const span = { from: from - GAP_PX / 2, to: from + width + GAP_PX / 2 };
    if (placed.some((other) => span.from < other.to && other.from < span.to)) return false;
    placed.push(span);
    labels.set(index, text);
    return true;
  };
  const indexOf = (kind: Moment['kind']) => moments.findLastIndex((moment) => moment.kind === kind);
  const words = (kinds: readonly Moment['kind'][]) =>
    kinds.forEach((kind) => {
      const index = indexOf(kind);
      const word = WORDS[kind];
      if (index >= 0 && word !== undefined) put(index, word);
    });
  const cuts = moments.flatMap((moment, i) => (moment.kind === 'cut' ? [i] : []));
  // Without a cut nothing is glued.
  const glued: readonly Moment['kind'][] = cuts.length > 0 ? ['glued'] : [];
  words(['finished']);
  if (!labels.size) words(glued);
  const apart_px = cuts.length > 1 ? ((cuts[1] - cuts[0]) / last) * width_px : width_px;
  const widest = String(cuts.length).length * CHARACTER_PX + 2 * GAP_PX;
  const step = [1, 2, 5, 10, 20, 50].find((n) => n * apart_px >= widest) ?? 100;
  cuts.forEach((index, n) => {
    if (step === 1 || (n + 1) % step === 0) put(index, String(n + 1));
  });
  words(['block', ...glued]);
  return labels;
}
