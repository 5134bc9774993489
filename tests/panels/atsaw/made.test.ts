/** Measures, steppers, the clamp timer's memory. Values worked out by hand from the formulas named beside them. */
import { expect, test } from 'vitest';
import { setMade } from '../../../src/design/sawEdits.ts';
import { setSaw } from '../../../src/design/edits.ts';
import { asMade } from '../../../src/panels/atsaw/made.ts';
import { passesOf } from '../../../src/plan/passes.ts';
import { clockText, EMPTY_MEMORY, readMemory, withTimer } from '../../../src/panels/atsaw/shopMemory.ts';
import { stepped } from '../../../src/panels/atsaw/Stepper.tsx';
import { samePlan } from '../../../src/panels/atsaw/useSawPlan.ts';
import { setWorkDone } from '../../../src/design/sawEdits.ts';
import { setupsOf } from '../../../src/plan/setups.ts';
import { fourRings } from '../../fixtures/designs.ts';

/** θ 45°, kerf 1.016 mm, web 2.54 mm. */
const design = fourRings();
const setup = setupsOf(design)[0];

test('with nothing measured the plan holds', () => {
  const made = asMade(design, 'S1.1');
  expect(made).toMatchObject({
    kerf_mm: 1.016,
    kerfFrom: 'design',
    web_mm: 2.54,
    fit_mm: 0,
    stripMeasured: false,
  });
  expect(made.strip_depth_mm).toBeCloseTo(setup.strip_depth_mm, 9);
});

test('the strip follows the kerf that was measured, the web what is left of it', () => {
  const measured = setMade(design, 'S1.1', { kerf_mm: 1.1, web_mm: 2.0, strip_mm: 1.05 });
  const made = asMade(measured, 'S1.1');
  expect(made.kerfFrom).toBe('slot');
  expect(made.fit_mm).toBeCloseTo(-0.05, 9);
  // The strip to make is the kerf's, whatever strip was measured already.
  expect(made.toMake_mm).toBeCloseTo(1.1, 9);
  // w − (k/2) cos θ = 2 − 0.55 · 0.70711
  expect(made.thinnest_web_mm).toBeCloseTo(1.61109, 5);
  // The slot runs (2.54 − 2)/sin 45° = 0.76368 deeper, its mouth (1.1 − 1.016)/2 · cot 45° = 0.042 wider.
  expect(made.strip_depth_mm - setup.strip_depth_mm).toBeCloseTo(0.80568, 5);
});

test('a test cut stands for every slot that was not measured itself', () => {
  const tested = setSaw(design, { blade_kerf_mm: 1.04 });
  expect(asMade(tested, 'S1.1')).toMatchObject({ kerf_mm: 1.04, kerfFrom: 'test cut' });
  expect(asMade(setMade(tested, 'S1.1', { kerf_mm: 1.02 }), 'S1.1').kerf_mm).toBe(1.02);
});

test('a slot wider than the blade is sawn in passes and comes out as planned', () => {
  const thin = setSaw(design, { blade_kerf_mm: 0.6 });
  expect(passesOf(thin.saw, setup)?.passes).toHaveLength(2);
  expect(asMade(thin, 'S1.1')).toMatchObject({ kerf_mm: 1.016, kerfFrom: 'design' });
  // Within what a strip may be off (0.0508 mm) one pass will do.
  expect(passesOf(setSaw(design, { blade_kerf_mm: 0.98 }).saw, setup)).toBeNull();
  expect(passesOf(design.saw, setup)).toBeNull();
});

test('ticks and measures leave the plan as it is; anything else does not', () => {
  const ticked = setMade(setWorkDone(design, 'S1.1:cut', true), 'S1.1', { kerf_mm: 1.1 });
  expect(samePlan(ticked, design)).toBe(true);
  expect(samePlan(setSaw(design, { blade_kerf_mm: 1 }), design)).toBe(true);
  expect(samePlan(setSaw(design, { stop_side: 'obtuse' }), design)).toBe(false);
  expect(samePlan({ ...design, sets: [...design.sets] }, design)).toBe(false);
});

test('steppers go by whole thousandths of an inch and hundredths of a millimetre', () => {
  const thou = 0.0254;
  expect(stepped(1.016, thou, thou)).toBeCloseTo(41 * thou, 9);
  expect(stepped(1.016, -10 * thou, thou)).toBeCloseTo(30 * thou, 9);
  expect(stepped(1.016, 0.01, 0.01)).toBe(1.02);
  expect(stepped(1.016, -0.01, 0.01)).toBe(1.01);
  expect(stepped(1.02, 0.1, 0.01)).toBe(1.12);
});

test('the clock reads whole seconds, the last one until it is over', () => {
  expect(clockText(20 * 60_000)).toBe('20:00');
  expect(clockText(61_001)).toBe('1:02');
  expect(clockText(1)).toBe('0:01');
  expect(clockText(0)).toBe('0:00');
  expect(clockText(-5)).toBe('0:00');
  expect(clockText(3_723_000)).toBe('1:02:03');
});

test('timers come back from storage; what is no timer is left out', () => {
  const timer = { ends_ms: 1_800_000_000_000, length_ms: 1_200_000 };
  const memory = withTimer({ ...EMPTY_MEMORY, step: 'S1.1:clamp' }, 'S1.1:clamp', timer);
  expect(readMemory(JSON.stringify(memory))).toEqual(memory);
  expect(withTimer(memory, 'S1.1:clamp', null).timers).toEqual({});
  for (const text of [null, '', '{', '[]', '7', 'null', '{"step":3,"timers":[1]}'])
    expect(readMemory(text)).toEqual(EMPTY_MEMORY);
  expect(
    readMemory('{"timers":{"a":{"ends_ms":"soon","length_ms":1},"b":{"ends_ms":5,"length_ms":2}}}').timers,
  ).toEqual({ b: { ends_ms: 5, length_ms: 2 } });
});
