/**
 * The work at the saw as one list of steps in working order: what comes before the first cut, then glue-up after
 * glue-up, then what comes after the last. Pure; the words and numbers of a step are in stepWords.ts.
 *
 * A step is ticked off by its marks, the names that a design file keeps in `work.done`: `S1.1:cut` for a slot,
 * `cure` for the whole work. A step of a glue-up carries one mark per slot, so that ticks stay true when slots
 * are put into other glue-ups.
 */
import type { Design, SlotId } from '../../design/document.ts';
import type { Setup } from '../../plan/setups.ts';
import type { Passes } from '../../plan/passes.ts';
import type { WorkPlan } from '../plan/workPlan.ts';
import { passesOf } from '../../plan/passes.ts';

/** Steps of one slot, in the order of doing them. `fence`, `stop` and `bladestop` only where they change. */
export const SLOT_KINDS = [
  'lay',
  'fence',
  'stop',
  'bladestop',
  'marks',
  'cut',
  'backout',
  'measure',
  'strip',
] as const;
export const GLUE_KINDS = ['glue', 'clamp', 'trim'] as const;
export const FIRST_KINDS = ['safety', 'blank', 'letters', 'strips', 'practice'] as const;
export const LAST_KINDS = ['cure', 'lathe', 'dust'] as const;

export type SlotKind = (typeof SLOT_KINDS)[number];
export type GlueKind = (typeof GLUE_KINDS)[number];
export type WholeKind = (typeof FIRST_KINDS)[number] | (typeof LAST_KINDS)[number];
export type StepKind = SlotKind | GlueKind | WholeKind;

interface StepBase {
  /** First of the marks: names the step. */
  readonly id: string;
  /** All of them done: the step is done. */
  readonly marks: readonly string[];
}

/** A cut as it is set up, beside the one before it in working order. */
export interface CutPlace {
  readonly setup: Setup;
  readonly before: Setup | null;
  /** From 1, in working order. */
  readonly number: number;
  /** Passes through a slot wider than the blade; null: one pass. */
  readonly passes: Passes | null;
  /** The stop (or ledge) was moved from pass to pass of the cut before: it stands where the last pass left it. */
  readonly stopMoved: boolean;
}

export interface SlotStep extends StepBase {
  readonly kind: SlotKind;
  /** Index of the glue-up. */
  readonly session: number;
  readonly slots: readonly [SlotId];
  readonly cut: CutPlace;
}

export interface GlueStep extends StepBase {
  readonly kind: GlueKind;
  readonly session: number;
  readonly slots: readonly SlotId[];
}

export interface WholeStep extends StepBase {
  readonly kind: WholeKind;
  readonly session: null;
  readonly slots: readonly [];
}

export type SawStep = SlotStep | GlueStep | WholeStep;

/** What the list is made from. */
export interface StepSource {
  readonly setups: readonly Setup[];
  readonly sessions: readonly (readonly SlotId[])[];
}

export function stepSource(plan: WorkPlan): StepSource {
  return { setups: plan.setups, sessions: plan.sessions.sessions };
}

/** All steps; none when there is nothing to saw. */
export function stepsOf(design: Pick<Design, 'form' | 'saw'>, { setups, sessions }: StepSource): SawStep[] {
  if (setups.length === 0) return [];
  const bySlot = new Map(setups.map((setup) => [setup.slot, setup]));
  const steps: SawStep[] = FIRST_KINDS.map(wholeStep);
  let before: Setup | null = null;
  let number = 0;
  sessions.forEach((slots, session) => {
    const strips: SlotStep[] = [];
    for (const slot of slots) {
      const setup = bySlot.get(slot);
      if (!setup) throw new Error(`the sessions name ${slot}, which no set-up has`);
      number += 1;
      const stopMoved: boolean = before !== null && passesOf(design.saw, before) !== null;
      const cut: CutPlace = { setup, before, number, passes: passesOf(design.saw, setup), stopMoved };
      const own = SLOT_KINDS.filter((kind) => needed(kind, cut)).map((kind) => slotStep(kind, session, cut));
      steps.push(...own.filter(({ kind }) => kind !== 'strip'));
      strips.push(...own.filter(({ kind }) => kind === 'strip'));
      before = setup;
    }
    steps.push(...strips, ...GLUE_KINDS.map((kind) => glueStep(kind, session, slots)));
  });
  steps.push(...LAST_KINDS.filter((kind) => kind === 'cure' || design.form !== null).map(wholeStep));
  return steps;
}

/** Settings closer than this are the same: far finer than a fence or a stop is set. */
const SAME = 1e-6;

/** A setting that stands already is only checked, at the marks. */
function needed(kind: SlotKind, { setup, before, stopMoved }: CutPlace): boolean {
  if (kind === 'fence') return !sameFence(setup, before);
  if (kind === 'stop') return stopMoved || !sameStop(setup, before);
  if (kind === 'bladestop') return !sameWeb(setup, before);
  return true;
}

export function sameFence(setup: Setup, before: Setup | null): boolean {
  return (
    before !== null &&
    turned(setup) === turned(before) &&
    Math.abs(setup.fence_angle_deg - before.fence_angle_deg) < SAME
  );
}

/** What is turned to the angle, and which way. */
function turned(setup: Setup): string {
  switch (setup.cut) {
    case 'fence':
      return 'fence';
    case 'table':
      return `table, ${setup.table.tilts} side down`;
  }
}

/** The stop is measured along the fence from the blade: at another angle it is set again. */
export function sameStop(setup: Setup, before: Setup | null): boolean {
  return (
    before !== null &&
    sameFence(setup, before) &&
    Math.abs(setup.stop_to_kerf_center_mm - before.stop_to_kerf_center_mm) < SAME
  );
}

export function sameWeb(setup: Setup, before: Setup | null): boolean {
  return (
    before !== null && setup.cut === before.cut && Math.abs(setup.blade_stop_mm - before.blade_stop_mm) < SAME
  );
}

function wholeStep(kind: WholeKind): WholeStep {
  return { kind, id: kind, marks: [kind], session: null, slots: [] };
}

function slotStep(kind: SlotKind, session: number, cut: CutPlace): SlotStep {
  const mark = `${cut.setup.slot}:${kind}`;
  return { kind, id: mark, marks: [mark], session, slots: [cut.setup.slot], cut };
}

function glueStep(kind: GlueKind, session: number, slots: readonly SlotId[]): GlueStep {
  const marks = slots.map((slot) => `${slot}:${kind}`);
  return { kind, id: marks[0], marks, session, slots };
}

/** Whether every mark of a step is ticked off. */
export function isDone(step: SawStep, done: ReadonlySet<string>): boolean {
  return step.marks.every((mark) => done.has(mark));
}

/** Index of the first step that is not done; the last step when all are. */
export function firstOpen(steps: readonly SawStep[], done: ReadonlySet<string>): number {
  const open = steps.findIndex((step) => !isDone(step, done));
  return open < 0 ? steps.length - 1 : open;
}
