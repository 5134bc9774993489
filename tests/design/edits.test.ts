/** Edits of a design: what each is for, by hand. */
import { describe, expect, it } from 'vitest';
import {
  addSet,
  addSlot,
  duplicateSet,
  mirrorSet,
  moveInOrder,
  nextSetId,
  removeSet,
  removeSlot,
  renameSet,
  resetOrder,
  setBlank,
  setLocked,
  setNotes,
  spaceEvenly,
  updateSet,
} from '../../src/design/edits.ts';
import type { Design, SlotSet } from '../../src/design/document.ts';
import { checkDesign } from '../../src/design/parse.ts';
import { slotsOf } from '../../src/blank/slots.ts';
import { fourRings } from '../fixtures/designs.ts';
import { threeSets } from './threeSets.ts';

describe('the order of cutting', () => {
  it('gains new slots at its end', () => {
    expect(addSet(threeSets).order).toEqual([...threeSets.order, 'S4.1', 'S4.2']);
    expect(addSlot(threeSets, 'S2', 90).order).toEqual([...threeSets.order, 'S2.3']);
    expect(updateSet(threeSets, 'S1', { fence_azimuths_deg: [0, 90, 180, 270] }).order).toEqual([
      ...threeSets.order,
      'S1.3',
      'S1.4',
    ]);
  });

  it('loses the slots that go', () => {
    expect(removeSet(threeSets, 'S1').order).toEqual(['S3.1', 'S2.1', 'S3.2', 'S2.2']);
    expect(updateSet(threeSets, 'S3', { fence_azimuths_deg: [90] }).order).toEqual([
      'S3.1',
      'S1.1',
      'S2.1',
      'S1.2',
      'S2.2',
    ]);
  });

  it('follows a slot whose number changes because one before it goes', () => {
    const left = removeSlot(threeSets, 'S3.1');
    expect(left.sets[2].fence_azimuths_deg).toEqual([180]);
    // S3.2, the cut from azimuth 180, stays fourth among six and is now called S3.1.
    expect(left.order).toEqual(['S1.1', 'S2.1', 'S3.1', 'S1.2', 'S2.2']);
  });

  it('follows a set that is renamed', () => {
    const renamed = renameSet(threeSets, 'S3', 'rim');
    expect(renamed.sets[2].id).toBe('rim');
    expect(renamed.order).toEqual(['rim.1', 'S1.1', 'S2.1', 'rim.2', 'S1.2', 'S2.2']);
  });

  it('lets a slot move, and goes back to the default', () => {
    expect(moveInOrder(threeSets, 'S3.1', 2).order).toEqual(['S1.1', 'S2.1', 'S3.1', 'S3.2', 'S1.2', 'S2.2']);
    expect(moveInOrder(threeSets, 'S2.2', 0).order[0]).toBe('S2.2');
    expect(moveInOrder(threeSets, 'S3.1', 99).order.at(-1)).toBe('S3.1');
    expect(resetOrder(threeSets).order).toEqual(['S1.1', 'S1.2', 'S2.1', 'S2.2', 'S3.1', 'S3.2']);
  });
});

describe('sets', () => {
  it('take the first free id', () => {
    expect(nextSetId(threeSets)).toBe('S4');
    expect(nextSetId(removeSet(threeSets, 'S2'))).toBe('S2');
  });

  it('removing the last slot of a set removes the set', () => {
    const one = updateSet(threeSets, 'S2', { fence_azimuths_deg: [0] });
    expect(removeSlot(one, 'S2.1').sets.map((set) => set.id)).toEqual(['S1', 'S3']);
  });

  it('a copy stands after its original, nearer the head, with the same everything else', () => {
    const { sets } = duplicateSet(threeSets, 'S1');
    expect(sets.map((set) => set.id)).toEqual(['S1', 'S4', 'S2', 'S3']);
    // Five kerfs of 1.016 mm at 45°: 5 · 1.016 · √2 along the axis.
    expect(sets[1].center_mm).toBeCloseTo(10 + 5 * 1.016 * Math.SQRT2, 9);
    expect({ ...sets[1], id: 'S1', center_mm: 10 }).toEqual(sets[0]);
  });

  it('the mirror image is the slot seen in a mirror at the middle of the blank', () => {
    const layered = fourRings({
      set: {
        center_mm: 60,
        strip: {
          layers: [
            { timber: 'wenge', thickness_mm: 0.4 },
            { timber: 'hard-maple', thickness_mm: 0.616 },
          ],
        },
      },
    });
    const mirrored = mirrorSet(layered, 'S1');
    expect(checkDesign(mirrored).ok).toBe(true);
    expect(mirrorSet(mirrored, 'S1')).toEqual(layered);
    expect(mirrored.sets[0].strip.layers.map((layer) => layer.timber)).toEqual(['hard-maple', 'wenge']);
    // Plane by plane: n · (x, y, L − z) − c of the original is −(n′ · (x, y, z) − c′) of the image.
    const before = slotsOf(layered);
    slotsOf(mirrored).forEach((image, i) => {
      expect(image.normal[0]).toBeCloseTo(-before[i].normal[0], 12);
      expect(image.normal[1]).toBeCloseTo(-before[i].normal[1], 12);
      expect(image.normal[2]).toBeCloseTo(before[i].normal[2], 12);
      expect(image.offset_mm).toBeCloseTo(before[i].normal[2] * 203.2 - before[i].offset_mm, 9);
      expect(image.stop_mm).toBe(before[i].stop_mm);
    });
  });

  it('are spaced evenly between the outermost two, wherever they stand in the list', () => {
    const shuffled = { ...threeSets, sets: [threeSets.sets[2], threeSets.sets[0], threeSets.sets[1]] };
    const centers = spaceEvenly(shuffled, ['S1', 'S2', 'S3']).sets.map((set) => set.center_mm);
    expect(centers).toEqual([200, 10, 105]);
    expect(spaceEvenly(threeSets, ['S1', 'S2'])).toBe(threeSets);
  });

  it('lose their notes when the notes are emptied', () => {
    const noted = updateSet(threeSets, 'S1', { notes: 'slow here' });
    expect(noted.sets[0].notes).toBe('slow here');
    expect('notes' in updateSet(noted, 'S1', { notes: '' }).sets[0]).toBe(false);
    expect('notes' in setNotes(setNotes(threeSets, 'x'), '')).toBe(false);
  });
});

describe('the blank', () => {
  it('has a depth while it is a rectangle and only then', () => {
    const rectangle = setBlank(threeSets, { shape: 'rectangle' });
    expect(rectangle.blank.section).toEqual({ shape: 'rectangle', width_mm: 76.2, depth_mm: 76.2 });
    expect(setBlank(rectangle, { depth_mm: 40 }).blank.section.depth_mm).toBe(40);
    expect(setBlank(rectangle, { shape: 'octagon' }).blank.section).toEqual({
      shape: 'octagon',
      width_mm: 76.2,
    });
  });
});

describe('a lock', () => {
  it('is there or not, and is not copied', () => {
    const locked = setLocked(threeSets, 'S2', true);
    expect(locked.sets.map((set) => set.locked)).toEqual([undefined, true, undefined]);
    expect(setLocked(locked, 'S2', false)).toEqual(threeSets);
    expect(duplicateSet(locked, 'S2').sets[2]).not.toHaveProperty('locked');
    expect(addSet(setLocked(threeSets, 'S3', true)).sets[3]).not.toHaveProperty('locked');
  });
});

describe('an edit of something that is not there', () => {
  it('changes nothing', () => {
    for (const edited of [
      removeSet(threeSets, 'S9'),
      duplicateSet(threeSets, 'S9'),
      updateSet(threeSets, 'S9', { kerf_mm: 2 }),
      renameSet(threeSets, 'S9', 'S1'),
      addSlot(threeSets, 'S9', 0),
      removeSlot(threeSets, 'S1.3'),
      removeSlot(threeSets, 'S1'),
      removeSlot(threeSets, 'S9.1'),
      moveInOrder(threeSets, 'S9.1', 0),
    ])
      expect(edited).toBe(threeSets);
    expect(mirrorSet(threeSets, 'S9')).toEqual(threeSets);
  });
});

/** Light timbers stand well above CIELAB lightness 60, dark ones below (status M of the table of timbers). */
describe('a first set', () => {
  const first = (timber: string, more: Partial<Design> = {}) =>
    addSet({ ...fourRings({ sets: [] }), ...more, blank: { ...fourRings().blank, timber } }).sets[0];

  it('has a strip that shows against the body, under whichever name the timber goes', () => {
    for (const light of ['hard-maple', 'sugar-maple', 'red-maple', 'american-holly', 'white-ash'])
      expect(first(light).strip.layers[0].timber).toBe('black-walnut');
    for (const dark of ['black-walnut', 'wenge', 'african-ebony', 'purpleheart'])
      expect(first(dark).strip.layers[0].timber).toBe('sugar-maple');
    const stained = first('white-ash', { colors: { 'white-ash': '#3a2a20' } });
    expect(stained.strip.layers[0].timber).toBe('sugar-maple');
  });

  it('is in round numbers of the unit at hand, the strip as thick as the kerf', () => {
    const sizes = ({ kerf_mm, web_mm, strip }: SlotSet) => [kerf_mm, web_mm, strip.layers[0].thickness_mm];
    expect(sizes(first('wenge', { unit: 'mm' }))).toEqual([1, 2.5, 1]);
    expect(sizes(first('wenge', { unit: 'in' })).map((mm) => mm / 25.4)).toEqual([0.04, 0.1, 0.04]);
  });
});
