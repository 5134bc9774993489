/** What the records of a design say, however they were found: the timeline, or why there is none. */
import type { NewerFile } from '../design/parse.ts';
import {
  headerFrom,
  type KeptHeader,
  type KeptWork,
  LAYOUT,
  sealOf,
  type Timeline,
  type WorkCheck,
  workChecker,
} from './kept.ts';
import type { Spoilt } from './keptDatabase.ts';

export type ReadBack =
  | { readonly state: 'none' }
  | {
      readonly state: 'good';
      readonly header: KeptHeader;
      readonly timeline: Timeline;
      /** Numbers of the states in the records. */
      readonly seqs: readonly number[];
      /** What could not be read, with everything as it was found; the timeline is the rest. */
      readonly lost: Spoilt | null;
    }
  | { readonly state: 'newer'; readonly header: KeptHeader; readonly newer: NewerFile }
  | { readonly state: 'damaged'; readonly header: KeptHeader | null; readonly reason: string };

/** The timeline in the records of a design: the present, and as much on both sides of it as can be read. */
export function readBack(headerRecord: unknown, records: readonly unknown[]): ReadBack {
  const header = headerFrom(headerRecord);
  if (!header && records.length === 0) return { state: 'none' };
  if (!header) return { state: 'damaged', header, reason: 'its record is no record of a design' };
  if (header.layout > LAYOUT)
    return {
      state: 'damaged',
      header,
      reason: 'it was kept by a newer Kerfweave; update this one to open it',
    };
  const check = workChecker();
  const states = records.map((record) => {
    const { seq, label, work, seal } = (record ?? {}) as Record<string, unknown>;
    // The present is always checked in full.
    const sealed = seq !== header.at && typeof seal === 'string' && seal === sealOf(work as KeptWork);
    const result: WorkCheck = sealed ? { ok: true, work: work as KeptWork } : check(work);
    return { seq: seq as number, label: typeof label === 'string' ? label : 'edit', result };
  });
  const present = states.findIndex(({ seq }) => seq === header.at);
  const { result } = states[present] ?? {};
  if (result && !result.ok && result.newer) return { state: 'newer', header, newer: result.newer };
  // The state nearest to the present that can be read; before it rather than after it.
  const from = present >= 0 ? present : states.length - 1;
  const before = states.findLastIndex((state, i) => i <= from && state.result.ok);
  const at = before >= 0 ? before : states.findIndex((state) => state.result.ok);
  if (at < 0) {
    const why = result && !result.ok ? result.reason : 'its states are missing';
    return { state: 'damaged', header, reason: why };
  }
  let first = at;
  while (first > 0 && states[first - 1].result.ok && states[first - 1].seq === states[first].seq - 1) first--;
  let last = at;
  while (states[last + 1]?.result.ok && states[last + 1].seq === states[last].seq + 1) last++;
  const good = states.slice(first, last + 1);
  const reason =
    at !== present
      ? `the last state could not be read (${result && !result.ok ? result.reason : 'it is missing'})`
      : good.length < Math.max(states.length, header.count)
        ? 'a part of its undo history could not be read'
        : null;
  return {
    state: 'good',
    header,
    timeline: {
      states: good.map(({ label, result: read }, i) => ({
        label: i === 0 ? null : label,
        work: (read as Extract<typeof read, { ok: true }>).work,
      })),
      at: at - first,
    },
    seqs: good.map(({ seq }) => seq),
    lost: reason === null ? null : { reason, found: { header: headerRecord, records } },
  };
}
