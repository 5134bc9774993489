/**
 * The steps at the saw: nothing lost, everything in working order. The order that is asked for is common practice:
 * lay, set, check, cut, blade stopped, measure; strips fitted when the cuts of a glue-up are made; then glue, clamp,
 * trim, before the next glue-up begins.
 */
import { describe, expect, test } from 'vitest';
import { slotsOf } from '../../../src/blank/slots.ts';
import type { Design } from '../../../src/design/document.ts';
import { checkDesign } from '../../../src/design/parse.ts';
import { setWorkDone } from '../../../src/design/sawEdits.ts';
import { cautionsAt } from '../../../src/panels/atsaw/cautionsAt.ts';
import { turnTitle } from '../../../src/panels/atsaw/fenceWords.ts';
import {
  firstOpen,
  isDone,
  SLOT_KINDS,
  stepsOf,
  type SawStep,
  type SlotStep,
  type StepSource,
} from '../../../src/panels/atsaw/steps.ts';
import { stepPlace, stepWords } from '../../../src/panels/atsaw/stepWords.ts';
import { workPlanOf } from '../../../src/panels/plan/workPlan.ts';
import { measuresOf } from '../../../src/plan/measures.ts';
import { sessionsOf } from '../../../src/plan/sessions.ts';
import { setupsOf } from '../../../src/plan/setups.ts';
import { fourRings, randomDesign, slotSet } from '../../fixtures/designs.ts';
import { starterDesigns } from '../../fixtures/starters.ts';

function sourceOf(design: Design): StepSource {
  const { sessions } = sessionsOf(slotsOf(design), design.blank, design.saw.max_open_slots, {
    stopSide: design.saw.stop_side,
    limit: 500,
  });
  return { setups: setupsOf(design), sessions };
}

const cutSteps = (steps: readonly SawStep[]) => steps.filter((step): step is SlotStep => 'cut' in step);
const SEEDS = Array.from({ length: 120 }, (_, i) => 7000 + i);

test.each(SEEDS)('random design %i: every slot has its steps, session after session', (seed) => {
  const design = randomDesign(seed);
  const source = sourceOf(design);
  const steps = stepsOf(design, source);

  expect(steps.slice(0, 5).map(({ kind }) => kind)).toEqual([
    'safety',
    'blank',
    'letters',
    'strips',
    'practice',
  ]);
  expect(steps.filter(({ session }) => session === null).map(({ kind }) => kind)).toEqual([
    'safety',
    'blank',
    'letters',
    'strips',
    'practice',
    'cure',
    ...(design.form ? ['lathe', 'dust'] : []),
  ]);
  const sessions = steps.flatMap(({ session }) => (session === null ? [] : [session]));
  expect(sessions).toEqual(sessions.toSorted((a, b) => a - b));
  expect(new Set(steps.map(({ id }) => id)).size).toBe(steps.length);

  // Slots are sawn in the order of the sessions, and all of them are.
  const sawn = steps.filter(({ kind }) => kind === 'cut').flatMap(({ slots }) => slots);
  expect(sawn).toEqual(source.sessions.flat());
  expect(sawn.toSorted()).toEqual(design.order.toSorted());

  source.sessions.forEach((session, s) => {
    const own = steps.filter((step) => step.session === s);
    const kinds = own.map(({ kind }) => kind);
    expect(kinds.slice(-3)).toEqual(['glue', 'clamp', 'trim']);
    for (const step of own.slice(-3)) expect(step.slots).toEqual(session);
    const lastCut = kinds.lastIndexOf('measure');
    const firstStrip = kinds.indexOf('strip');
    expect(firstStrip).toBe(lastCut + 1);
    for (const slot of session) {
      const mine = own.filter((step) => 'cut' in step && step.slots[0] === slot).map(({ kind }) => kind);
      expect(mine).toEqual(SLOT_KINDS.filter((kind) => mine.includes(kind)));
      expect(mine).toEqual(expect.arrayContaining(['lay', 'marks', 'cut', 'backout', 'measure', 'strip']));
    }
  });
});

test.each(SEEDS.slice(0, 40))('random design %i: a setting has a step exactly where it changes', (seed) => {
  const design = randomDesign(seed);
  const source = sourceOf(design);
  const steps = stepsOf(design, source);
  const setups = new Map(source.setups.map((setup) => [setup.slot, setup]));
  let before: { fence: number; stop: number; web: number } | null = null;
  for (const slot of source.sessions.flat()) {
    const setup = setups.get(slot);
    if (!setup) throw new Error(`no set-up of ${slot}`);
    const now = {
      fence: setup.fence_angle_deg,
      stop: setup.stop_to_kerf_center_mm,
      web: setup.blade_stop_mm,
    };
    const has = (kind: string) => steps.some((step) => step.kind === kind && step.slots[0] === slot);
    const turned = before === null || Math.abs(now.fence - before.fence) > 1e-6;
    expect(has('fence'), slot).toBe(turned);
    expect(has('stop'), slot).toBe(turned || before === null || Math.abs(now.stop - before.stop) > 1e-6);
    expect(has('bladestop'), slot).toBe(before === null || Math.abs(now.web - before.web) > 1e-6);
    before = now;
  }
});

test.each(SEEDS.slice(0, 40))('random design %i: all steps ticked off is a valid design', (seed) => {
  const design = randomDesign(seed);
  const steps = stepsOf(design, sourceOf(design));
  const marks = steps.flatMap((step) => step.marks);
  const worked = marks.reduce((next, mark) => setWorkDone(next, mark, true), design);
  const result = checkDesign(worked);
  expect(result.ok ? [] : result.faults).toEqual([]);
  const done = new Set(worked.work?.done);
  expect(steps.every((step) => isDone(step, done))).toBe(true);
  done.delete(marks[7]);
  expect(isDone(steps[firstOpen(steps, done)], done)).toBe(false);
});

test('ticks stay with their slots when glue-ups are made otherwise', () => {
  const apart = fourRings();
  const steps = stepsOf(apart, {
    setups: setupsOf(apart),
    sessions: [['S1.1'], ['S1.2'], ['S1.3'], ['S1.4']],
  });
  const done = new Set(steps.slice(0, 17).flatMap((step) => step.marks));
  expect(steps[16].id).toBe('S1.1:trim');
  const joined = stepsOf(apart, {
    setups: setupsOf(apart),
    sessions: [['S1.1', 'S1.2'], ['S1.3'], ['S1.4']],
  });
  const states = new Map(joined.map((step) => [step.id, isDone(step, done)]));
  expect(states.get('S1.1:cut')).toBe(true);
  expect(states.get('S1.2:cut')).toBe(false);
  // Glued together now: not done until both are.
  expect(states.get('S1.1:glue')).toBe(false);
});

test('a design without slots has no steps', () => {
  expect(stepsOf(fourRings(), { setups: [], sessions: [] })).toEqual([]);
});

test('quarter-turns, half-turns and ends are named', () => {
  const design = fourRings({
    sets: [
      slotSet({ id: 'S1', fence_azimuths_deg: [0, 90, 270, 0] }),
      slotSet({ id: 'S2', fence_azimuths_deg: [0], high_side: 'entry', center_mm: 60 }),
    ],
  });
  const setups = setupsOf(design);
  const titles = cutSteps(stepsOf(design, { setups, sessions: design.order.map((slot) => [slot]) }))
    .filter(({ kind }) => kind === 'lay')
    .map(({ cut }) => turnTitle(cut));
  expect(titles).toEqual([
    'Face A to the fence',
    'Quarter-turn: face B to the fence',
    'Half-turn: face D to the fence',
    'Quarter-turn: face A to the fence',
    'End for end: face A stays at the fence',
  ]);
});

/** Two sets at 40°, the first with the table tilted and its web on either side. */
const tilted = ['ahead', 'behind'].map((side) =>
  fourRings({
    name: `table tilted, web ${side}`,
    sets: [
      slotSet({ id: 'S1', angle_deg: 40, cut: 'table', web_side: side === 'ahead' ? undefined : 'behind' }),
      slotSet({ id: 'S2', angle_deg: 40, center_mm: 60 }),
    ],
  }),
);

test('with the table tilted the steps speak of tilt, ledge and feed', () => {
  const [design] = tilted;
  const plan = workPlanOf(design, measuresOf(design));
  const steps = stepsOf(design, { setups: plan.setups, sessions: plan.sessions.sessions });
  const titles = steps
    .filter((step) => 'cut' in step && step.slots[0] === 'S1.1')
    .map((step) => stepWords(step, design, plan).title);
  expect(titles.slice(0, 5)).toEqual([
    'Stand it on its head end',
    'Tilt the table to 40°',
    'Set the ledge',
    'Set the feed stop',
    'Check the marks',
  ]);
  // From the tilted table to the fence at the same angle everything is set anew.
  const fence = steps.filter((step) => 'cut' in step && step.slots[0] === 'S2.1').map(({ kind }) => kind);
  expect(fence.slice(0, 4)).toEqual(['lay', 'fence', 'stop', 'bladestop']);
});

describe.each([...starterDesigns(), ...tilted].map((design) => [design.name, design] as const))(
  '%s',
  (_name, design) => {
    const plan = workPlanOf(design, measuresOf(design));
    const source = { setups: plan.setups, sessions: plan.sessions.sessions };
    const steps = stepsOf(design, source);

    test('no caution is lost', () => {
      const shown = new Set(
        steps.flatMap((step) => cautionsAt(step, plan.cautions, true).map(({ id }) => id)),
      );
      expect(plan.cautions.map(({ id }) => id).filter((id) => !shown.has(id))).toEqual([]);
      for (const step of steps.filter(({ kind }) => kind === 'cut'))
        expect(cautionsAt(step, plan.cautions, true).map(({ id }) => id)).toEqual(
          expect.arrayContaining(['guide-low', 'hands']),
        );
      for (const step of steps.filter(({ kind }) => kind === 'backout'))
        expect(cautionsAt(step, plan.cautions, true).map(({ id }) => id)).toContain('back-out');
      expect(cautionsAt(steps[0], plan.cautions, true)[0].id).toBe('manual-first');
    });

    test('every step has a title, at most three numbers, and no unfinished word', () => {
      for (const step of steps) {
        const words = stepWords(step, design, plan);
        expect(words.numbers.length).toBeLessThanOrEqual(3);
        const text = JSON.stringify([words, stepPlace(step, source.sessions.length)]);
        expect(text).not.toMatch(/undefined|NaN|null|\[object/);
        expect(words.title.length).toBeGreaterThan(3);
      }
    });
  },
);

describe('a slot wider than the blade', () => {
  const design = fourRings({
    sets: [
      slotSet({ kerf_mm: 3.048, fence_azimuths_deg: [0, 90] }),
      slotSet({ id: 'S2', fence_azimuths_deg: [180] }),
    ],
    saw: { blade_kerf_mm: 1.05 },
  });
  const plan = workPlanOf(design, measuresOf(design));
  const steps = stepsOf(design, { setups: plan.setups, sessions: plan.sessions.sessions });
  const kinds = (slot: string) =>
    steps.filter((step) => 'cut' in step && step.slots[0] === slot).map(({ kind }) => kind);

  test('the stop is set for its first pass, and again after its last', () => {
    const stop = steps.find((step) => step.id === 'S1.1:stop');
    const words = stop && stepWords(stop, design, plan);
    expect(words?.title).toBe('Set the stop for pass 1');
    // 139.7 mm less (3.048 − 1.05) / 2 / sin 45° = 1.4128 mm: 138.287 mm, 5.444 in.
    expect(words?.numbers.map(({ value }) => value)).toEqual(['5.444″']);
    // S1.2 lies at the same stop, but the passes of S1.1 have moved it; so have those of S1.2.
    expect(kinds('S1.2')).toContain('stop');
    expect(kinds('S2.1')).toContain('stop');
    const marks = steps.find((step) => step.id === 'S1.2:marks');
    const checks = marks ? stepWords(marks, design, plan).checks : [];
    expect(checks.join()).not.toMatch(/Stop still/);
    // 1.4128 mm along the fence.
    expect(checks[0]).toBe('For pass 1 the blade stands 0.056″ from the marks, toward the stop');
  });

  test('the slot of one pass after it is set as ever', () => {
    const stop = steps.find((step) => step.id === 'S2.1:stop');
    expect(stop && stepWords(stop, design, plan).title).toBe('Set the stop');
  });
});

test('up to three slots open: the steps go by the glue-ups, each with one clamp timer of its own', () => {
  // Two faces, three slots each that lie apart; those of one face may be open together.
  const sets = [40, 100, 160].map((center_mm, n) =>
    slotSet({ id: `S${n + 1}`, fence_azimuths_deg: [0, 180], angle_deg: 70, center_mm }),
  );
  const design = fourRings({
    sets,
    order: ['S1.1', 'S1.2', 'S2.1', 'S2.2', 'S3.1', 'S3.2'],
    saw: { max_open_slots: 3 },
  });
  const plan = workPlanOf(design, measuresOf(design));
  const steps = stepsOf(design, { setups: plan.setups, sessions: plan.sessions.sessions });
  expect(plan.sessions.sessions.map((session) => session.toSorted())).toEqual([
    ['S1.1', 'S2.1', 'S3.1'],
    ['S1.2', 'S2.2', 'S3.2'],
  ]);
  const clamps = steps.filter(({ kind }) => kind === 'clamp');
  expect(clamps).toHaveLength(2);
  expect(new Set(clamps.map(({ id }) => id)).size).toBe(2);
  clamps.forEach((clamp, n) => expect(clamp.slots).toEqual(plan.sessions.sessions[n]));
  // Every cut of a glue-up comes before its strips, these before its clamps, and these before the next glue-up.
  const order = steps.flatMap(({ kind, session }) =>
    session !== null && ['cut', 'strip', 'clamp'].includes(kind) ? [`${kind} ${session}`] : [],
  );
  expect(order).toEqual(
    [0, 1].flatMap((n) => [0, 0, 0, 1, 1, 1, 2].map((kind) => `${['cut', 'strip', 'clamp'][kind]} ${n}`)),
  );
  const glue = steps.find(({ kind }) => kind === 'glue');
  expect(glue && stepWords(glue, design, plan).title).toBe('Glue 3 strips');
});

test('with the table tilted the marks are where the kerf leaves the blank, whichever sides those are', () => {
  // Tall blank, 40°: the kerf crosses from side to side, z = 101.6 ± 38.1 · cot 40°, and meets neither end.
  const tall = fourRings({ sets: [slotSet({ cut: 'table', angle_deg: 40 })] });
  const plan = workPlanOf(tall, measuresOf(tall));
  const steps = stepsOf(tall, { setups: plan.setups, sessions: plan.sessions.sessions });
  const numbers = (id: string) => {
    const step = steps.find((one) => one.id === id);
    return step ? stepWords(step, tall, plan).numbers.map(({ name, value }) => `${name} ${value}`) : [];
  };
  // 38.1 · 1.191754 = 45.406 mm: 147.006 mm = 5.788 in and 56.194 mm = 2.212 in from the foot.
  expect(numbers('S1.1:marks')).toEqual(['On face A 5.788″', 'On face C 2.212″']);
  // On the table, at the head: u = 101.6 · tan 40° = 85.2525 mm from the axis, 47.15 mm (1.856 in) beyond the ledge at 38.1.
  expect(numbers('S1.1:stop')[0]).toBe('Beyond, to mid-kerf 1.856″');
  const low = fourRings({
    section: { shape: 'square', width_mm: 150 },
    length_mm: 75,
    sets: [slotSet({ cut: 'table', angle_deg: 30, center_mm: 37.5 })],
    form: null,
  });
  const lowPlan = workPlanOf(low, measuresOf(low));
  const marks = stepsOf(low, { setups: lowPlan.setups, sessions: lowPlan.sessions.sessions }).find(
    ({ id }) => id === 'S1.1:marks',
  );
  expect(marks && stepWords(marks, low, lowPlan).numbers.map(({ name }) => name)).toEqual([
    'On the foot',
    'On the head',
  ]);
});
