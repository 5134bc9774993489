/** Limits of the saw that are the same for several cuts but for their names, in the unit of the design. */
import type { DisplayUnit } from '../../design/document.ts';
import type { SawLimit } from '../../plan/sawLimits.ts';
import { listed, slotRuns, worded } from '../../plan/wording.ts';

export interface LimitGroup {
  readonly text: string;
  readonly remedies: readonly string[];
}

export function limitGroups(limits: readonly SawLimit[], unit: DisplayUnit): LimitGroup[] {
  const groups = new Map<string, LimitGroup & { readonly others: string[] }>();
  for (const { slot, limit, words, remedies } of limits) {
    const text = worded(words, unit);
    const told = remedies.map((remedy) => worded(remedy.words, unit));
    const key = [limit, text, ...told].join('\n').replaceAll(slot, '*');
    const group = groups.get(key);
    if (group) group.others.push(slot);
    else groups.set(key, { text, remedies: told, others: [] });
  }
  return [...groups.values()].map(({ text, remedies, others }) => ({
    text: others.length === 0 ? text : `${text} The same for ${listed(slotRuns(others))}.`,
    remedies,
  }));
}
