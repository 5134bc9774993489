/**
 * Undo and redo as a list of states that share structure. Pure; the store holds the value.
 * Changes of one gesture (a drag, a run of key presses on one field) fold into one step.
 */

export interface Step<T> {
  /** What the change after this state did, in words for the undo button. */
  readonly label: string;
  readonly state: T;
}

export interface History<T> {
  readonly past: readonly Step<T>[];
  readonly present: T;
  readonly future: readonly Step<T>[];
  /** Gesture of the last change while it may still be folded into. */
  readonly gesture: string | null;
}

/** Steps kept; older ones fall off the far end. */
const MAX_STEPS = 1000;

export function historyOf<T>(present: T): History<T> {
  return { past: [], present, future: [], gesture: null };
}

/** The history with a new present; the same history when nothing changed. */
export function changed<T>(history: History<T>, label: string, next: T, gesture: string | null): History<T> {
  if (Object.is(next, history.present)) return history;
  const folds = gesture !== null && gesture === history.gesture && history.past.length > 0;
  const past = folds ? history.past : [...history.past, { label, state: history.present }].slice(-MAX_STEPS);
  return { past, present: next, future: [], gesture };
}

/** Whether two histories have the same steps; the end of a gesture makes another history of them. */
export function sameSteps<T>(a: History<T>, b: History<T>): boolean {
  return a.past === b.past && a.present === b.present && a.future === b.future;
}

/** Ends the gesture: the next change is a step of its own. */
export function gestureEnded<T>(history: History<T>): History<T> {
  return history.gesture === null ? history : { ...history, gesture: null };
}

export function undone<T>(history: History<T>): History<T> {
  const last = history.past[history.past.length - 1];
  if (!last) return history;
  return {
    past: history.past.slice(0, -1),
    present: last.state,
    future: [{ label: last.label, state: history.present }, ...history.future],
    gesture: null,
  };
}

export function redone<T>(history: History<T>): History<T> {
  const next = history.future[0];
  if (!next) return history;
  return {
    past: [...history.past, { label: next.label, state: history.present }],
    present: next.state,
    future: history.future.slice(1),
    gesture: null,
  };
}
