/** Undo and redo: any run of changes, undone as often, gives back the first state itself. */
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { changed, gestureEnded, historyOf, redone, undone, type History } from '../../src/app/history.ts';

const change = fc.record({
  value: fc.integer({ min: 0, max: 5 }),
  gesture: fc.constantFrom(null, 'drag-1', 'drag-2'),
  end: fc.boolean(),
});

test('n undos lead back to the first state, n redos to the last', () => {
  fc.assert(
    fc.property(fc.array(change, { maxLength: 60 }), (changes) => {
      let history: History<number> = historyOf(0);
      for (const { value, gesture, end } of changes) {
        history = changed(history, `set ${value}`, value, gesture);
        if (end) history = gestureEnded(history);
      }
      const last = history.present;
      const steps = history.past.length;
      for (let i = 0; i < steps; i++) history = undone(history);
      expect(history.present).toBe(0);
      expect(undone(history)).toBe(history);
      for (let i = 0; i < steps; i++) history = redone(history);
      expect(history.present).toBe(last);
      expect(history.past).toHaveLength(steps);
    }),
    { seed: 20261125, numRuns: 300 },
  );
});

test('changes of one gesture are one step, and the end of the gesture parts them', () => {
  let history = historyOf('a');
  history = changed(history, 'drag', 'b', 'g');
  history = changed(history, 'drag', 'c', 'g');
  expect(history.past.map((step) => step.state)).toEqual(['a']);
  history = changed(gestureEnded(history), 'drag', 'd', 'g');
  expect(history.past.map((step) => step.state)).toEqual(['a', 'c']);
});

test('a change that changes nothing is no step and keeps what can be redone', () => {
  let history = changed(historyOf('a'), 'edit', 'b', null);
  history = undone(history);
  expect(changed(history, 'edit', 'a', null)).toBe(history);
  expect(redone(history).present).toBe('b');
});
