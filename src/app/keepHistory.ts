/** Undo and redo as the library keeps them: one line of states, and the place of the present on it. */
import type { Design } from '../design/document.ts';
import type { Timeline } from '../files/kept.ts';
import type { Work } from '../panels/bench.ts';
import { type History, historyOf, type Step } from './history.ts';
import type { OpenDocument } from './openDocument.ts';

export function timelineOf({ past, present, future }: History<Work>): Timeline {
  const works = [...past.map((step) => step.state), present, ...future.map((step) => step.state)];
  // A step of the past is labelled with the change after it, one of the future with the change before it.
  const labels = [null, ...past.map((step) => step.label), ...future.map((step) => step.label)];
  return { states: works.map((work, i) => ({ label: labels[i], work })), at: past.length };
}

export function historyFrom({ states, at }: Timeline): History<Work> {
  const past = states
    .slice(0, at)
    .map((state, i): Step<Work> => ({ label: states[i + 1].label ?? 'edit', state: state.work }));
  const future = states
    .slice(at + 1)
    .map((state): Step<Work> => ({ label: state.label ?? 'edit', state: state.work }));
  return { ...historyOf<Work>(states[at].work), past, future };
}

/** One for each document, so that it is seen to be the same when it is written again. */
const unread = new WeakMap<OpenDocument, Timeline>();

/** What is written of an open document: its history; of a file of a later version the file as it came. */
export function keptOf(document: OpenDocument, history: History<Work>): Timeline {
  if (!document.newer) return timelineOf(history);
  const known = unread.get(document);
  if (known) return known;
  const design = document.newer.raw as unknown as Design;
  const variants = [{ ...history.present.variants[0], design }];
  const timeline = { states: [{ label: null, work: { variants, active: 0 } }], at: 0 };
  unread.set(document, timeline);
  return timeline;
}
