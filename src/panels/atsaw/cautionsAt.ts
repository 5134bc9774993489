/**
 * Which caution stands at which step. Every caution of the plan stands at one step at least; one that this
 * list does not know stands at the step where its kind of work begins.
 */
import type { Caution, CautionPlace } from '../../plan/cautions.ts';
import { names } from '../../plan/wording.ts';
import type { SawStep, StepKind } from './steps.ts';

const STEPS: Readonly<Record<string, readonly StepKind[]>> = {
  'manual-first': ['safety'],
  'blade-covered': ['safety'],
  'no-restart': ['safety'],
  'jig-sound': ['blank', 'fence'],
  'guide-low': ['practice', 'cut'],
  hands: ['practice', 'cut'],
  clamped: ['lay'],
  'back-out': ['backout'],
  'weak-web': ['backout', 'glue'],
  'deep-cut': ['cut'],
  'no-flat': ['lay'],
  'on-edge': ['lay'],
  'steep-sled': ['lay'],
  'open-together': ['backout'],
  'small-blank': ['cut'],
  'tilted-table': ['lay'],
  'clamp-time': ['clamp'],
  'oily-timber': ['glue'],
  'full-cure': ['cure'],
  'face-shield': ['lathe'],
  'stand-aside': ['lathe'],
  speed: ['lathe'],
  'all-filled': ['lathe'],
  sensitising: ['safety', 'dust'],
};

const OF_PLACE: Readonly<Record<CautionPlace, StepKind>> = {
  everywhere: 'safety',
  saw: 'cut',
  glue: 'glue',
  lathe: 'lathe',
  dust: 'dust',
};

/** Cautions of a step in the plan's order. A design that is left square has no step `dust`: they stand at `cure`. */
export function cautionsAt(step: SawStep, cautions: readonly Caution[], hasForm: boolean): Caution[] {
  return cautions
    .filter((caution) => {
      const known = STEPS[caution.id] ?? [OF_PLACE[caution.where]];
      const kinds = hasForm ? known : known.map((kind) => (kind === 'dust' ? 'cure' : kind));
      if (!kinds.includes(step.kind)) return false;
      return caution.slots.length === 0 || caution.slots.some((slot) => step.slots.some((s) => s === slot));
    })
    .map((caution) => narrowed(caution, step));
}

/** At a step a caution names the step's own slots, not all that it is about. */
function narrowed(caution: Caution, step: SawStep): Caution {
  if (caution.slots.length < 2 || step.slots.length === 0 || caution.id === 'open-together') return caution;
  const own = caution.slots.filter((slot) => step.slots.some((s) => s === slot));
  return {
    ...caution,
    words: caution.words.map((part) =>
      typeof part !== 'string' && part.kind === 'slots' ? names(own) : part,
    ),
  };
}
