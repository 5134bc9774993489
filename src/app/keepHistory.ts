/** Undo and redo as the library keeps them: one line of states, and the place of the present on it. */
import type { Timeline } from '../files/kept.ts';
import type { Work } from '../panels/bench.ts';
import { type History, historyOf, type Step } from './history.ts';

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
