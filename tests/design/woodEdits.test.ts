/** Edits of how the wood looks: grain, colours, finish. */
import { describe, expect, it } from 'vitest';
import { setBlank } from '../../src/design/edits.ts';
import { setForm } from '../../src/design/formEdits.ts';
import { clearColor, setColor, setFinish, setGrain, setStripGrain } from '../../src/design/woodEdits.ts';
import { fourRings } from '../fixtures/designs.ts';

describe('how the wood looks', () => {
  it('grain is said or left to the program, and one along the axis has no azimuth', () => {
    const across = setGrain(fourRings(), { along: 'across', azimuth_deg: 30, pith_mm: [1, 2] });
    expect(across.blank.grain).toEqual({ along: 'across', azimuth_deg: 30, pith_mm: [1, 2] });
    expect(setGrain(across, { ...across.blank.grain, along: 'axis' }).blank.grain).toEqual({
      along: 'axis',
      pith_mm: [1, 2],
    });
    expect(setGrain(across, null)).toEqual(fourRings());
    expect(setBlank(across, { length_mm: 50 }).blank.grain).toEqual(across.blank.grain);
  });

  it('a layer has its own grain', () => {
    const deep = setStripGrain(fourRings(), 'S1', 0, 'depth');
    expect(deep.sets[0].strip.layers[0].grain).toBe('depth');
    expect(setStripGrain(deep, 'S1', 0, null)).toEqual(fourRings());
    for (const edited of [setStripGrain(deep, 'S1', 1, 'depth'), setStripGrain(deep, 'S9', 0, 'depth')])
      expect(edited).toBe(deep);
  });

  it('a timber has one colour, whatever it is called', () => {
    const maple = setColor(fourRings(), 'hard-maple', '#F0DCB8');
    expect(maple.colors).toEqual({ 'hard-maple': '#f0dcb8' });
    expect(setColor(maple, 'sugar-maple', '#ffffff').colors).toEqual({ 'sugar-maple': '#ffffff' });
    expect(clearColor(maple, 'sugar-maple')).toEqual(fourRings());
    expect(clearColor(maple, 'teak')).toBe(maple);
  });

  it('a finish is part of the form', () => {
    const raw = setFinish(fourRings(), 'raw');
    expect(raw.form?.finish).toBe('raw');
    expect(setFinish(raw, null)).toEqual(fourRings());
    const square = setForm(fourRings(), null);
    expect(setFinish(square, 'raw')).toBe(square);
  });
});
