/** What a measure says against the plan. Worked out by hand: θ 45°, kerf 1.016, web 2.54 mm, strips within 0.0508, stop within 0.1. */
import { expect, test } from 'vitest';
import type { MadeSlot } from '../../../src/design/document.ts';
import { setMade } from '../../../src/design/sawEdits.ts';
import { slotWords } from '../../../src/panels/atsaw/slotWords.ts';
import { stepsOf } from '../../../src/panels/atsaw/steps.ts';
import { verdictOf } from '../../../src/panels/atsaw/verdicts.ts';
import { setupsOf } from '../../../src/plan/setups.ts';
import { fourRings } from '../../fixtures/designs.ts';

const design = fourRings({ unit: 'mm' });

function said(measured: MadeSlot, field: keyof MadeSlot) {
  const made = setMade(design, 'S1.1', measured);
  const [setup] = setupsOf(made);
  return verdictOf(field, setup, made);
}

test('nothing measured, nothing said', () => {
  expect(said({}, 'kerf_mm')).toBeNull();
  expect(said({ kerf_mm: 1.1 }, 'strip_mm')).toBeNull();
});

test('a kerf within what strips may be off is only told, one beyond is to be heeded', () => {
  expect(said({ kerf_mm: 1.016 }, 'kerf_mm')).toEqual({ words: 'as planned', off: false });
  expect(said({ kerf_mm: 1.056 }, 'kerf_mm')).toEqual({ words: '0.04 mm wider', off: false });
  expect(said({ kerf_mm: 0.916 }, 'kerf_mm')).toEqual({
    words: '0.10 mm narrower: make this strip to the slot',
    off: true,
  });
});

test('a web that came out otherwise says how far the blade stop goes: 0.3 / sin 45° = 0.42', () => {
  expect(said({ web_mm: 2.5 }, 'web_mm')).toEqual({ words: 'as planned', off: false });
  expect(said({ web_mm: 2.24 }, 'web_mm')).toEqual({
    words: '0.30 mm thinner: move the blade stop 0.42 mm back for the next cut',
    off: true,
  });
  expect(said({ web_mm: 2.84 }, 'web_mm')?.words).toBe(
    '0.30 mm thicker: move the blade stop 0.42 mm on for the next cut',
  );
  // 1.54 − 0.508 cos 45° = 1.18 at its thinnest, where 1.5 holds (common practice).
  expect(said({ web_mm: 1.54 }, 'web_mm')?.words).toBe(
    '1.00 mm thinner: move the blade stop 1.41 mm back for the next cut; weak, 1.18 mm at its thinnest: support both halves',
  );
});

test('a strip beyond what it may be off is to be made again', () => {
  expect(said({ strip_mm: 1.016 }, 'strip_mm')).toEqual({ words: 'as thick as the kerf', off: false });
  expect(said({ strip_mm: 1.036 }, 'strip_mm')).toEqual({
    words: '0.02 mm thicker: tight, within ± 0.05 mm',
    off: false,
  });
  expect(said({ kerf_mm: 1.1, strip_mm: 1.0 }, 'strip_mm')).toEqual({
    words: '0.10 mm thinner: loose, beyond ± 0.05 mm: make another',
    off: true,
  });
});

test('measuring says where on the kerf’s end the web is what: 2.54 ∓ 0.508 cos 45°', () => {
  const step = stepsOf(design, { setups: setupsOf(design), sessions: [['S1.1']] }).find(
    ({ kind }) => kind === 'measure',
  );
  if (step?.kind !== 'measure') throw new Error('no step to measure at');
  const words = slotWords(step, design);
  expect(words.lead).toContain('square to the fence, in the middle of the kerf');
  expect(words.checks).toContain(
    'Web 2.54 mm in the middle: 2.18 mm at the thin edge, 2.90 mm at the thick one',
  );
});
