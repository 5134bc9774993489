/** The grain that a blank has when its design says nothing of it, or only a part. By hand, from the file's page. */
import { describe, expect, it } from 'vitest';
import { colorGiven } from '../../src/design/colors.ts';
import type { Blank, Section } from '../../src/design/document.ts';
import { grainOf, stripGrainOf } from '../../src/design/grain.ts';
import { sectionGeometry } from '../../src/design/section.ts';
import { cross } from '../../src/geometry/vector.ts';

function blankOf(section: Section, length_mm: number, grain?: Blank['grain']): Blank {
  return { section, length_mm, timber: 'teak', ...(grain ? { grain } : {}) };
}

const SECTIONS: readonly Section[] = [
  { shape: 'square', width_mm: 60 },
  { shape: 'rectangle', width_mm: 90, depth_mm: 40 },
  { shape: 'rectangle', width_mm: 40, depth_mm: 90 },
  { shape: 'hexagon', width_mm: 50 },
  { shape: 'octagon', width_mm: 120 },
  { shape: 'round', width_mm: 80 },
];

describe('the fibre', () => {
  it('runs along the axis, and across a blank that is shorter than it is wide', () => {
    expect(grainOf(blankOf({ shape: 'square', width_mm: 60 }, 200)).along).toBe('axis');
    expect(grainOf(blankOf({ shape: 'square', width_mm: 60 }, 60)).along).toBe('axis');
    expect(grainOf(blankOf({ shape: 'square', width_mm: 60 }, 59)).along).toBe('across');
    // Wider than long one way only.
    expect(grainOf(blankOf({ shape: 'rectangle', width_mm: 90, depth_mm: 40 }, 60)).along).toBe('axis');
  });

  it('is what the design says', () => {
    const grain = grainOf(blankOf(SECTIONS[0], 200, { along: 'across', azimuth_deg: 90, pith_mm: [3, -8] }));
    expect(grain).toMatchObject({ along: 'across', azimuth_deg: 90, pith_mm: [3, -8] });
    // Toward azimuth 90°; the pith counts toward azimuth 180° and toward the head.
    expect(grain.fibre).toEqual([0, 1, 0]);
    expect(grain.first).toEqual([-1, 0, 0]);
    expect(grain.second).toEqual([0, 0, 1]);
    expect(grain.middle_mm).toEqual([0, 0, 100]);
    expect(grainOf(blankOf(SECTIONS[0], 20, { along: 'axis' }))).toMatchObject({
      fibre: [0, 0, 1],
      first: [1, 0, 0],
      second: [0, 1, 0],
    });
  });

  it('makes a right-handed frame with the two directions of the pith', () => {
    for (const azimuth_deg of [0, 30, 135, -77]) {
      const { first, second, fibre } = grainOf(blankOf(SECTIONS[0], 20, { along: 'across', azimuth_deg }));
      cross(first, second).forEach((value, i) => expect(value).toBeCloseTo(fibre[i], 12));
    }
  });

  it('of a strip runs along its length', () => {
    expect(stripGrainOf({ timber: 'teak', thickness_mm: 1 })).toBe('length');
    expect(stripGrainOf({ timber: 'teak', thickness_mm: 1, grain: 'depth' })).toBe('depth');
  });
});

describe('the pith', () => {
  it('is in no blank, and near enough that its rings are curved', () => {
    for (const section of SECTIONS) {
      const { faceAzimuths_deg, faceDistances_mm, circumscribedRadius_mm } = sectionGeometry(section);
      const [x, y] = grainOf(blankOf(section, 300)).pith_mm;
      const beyond = faceAzimuths_deg.some(
        (azimuth, i) =>
          x * Math.cos((azimuth * Math.PI) / 180) + y * Math.sin((azimuth * Math.PI) / 180) >
          faceDistances_mm[i],
      );
      expect(beyond || (section.shape === 'round' && Math.hypot(x, y) > 40)).toBe(true);
      expect(Math.hypot(x, y)).toBeLessThan(2 * circumscribedRadius_mm);
      const short = grainOf(blankOf(section, 30));
      expect(short.along).toBe('across');
      expect(short.pith_mm[1]).toBeGreaterThan(15);
    }
  });
});

describe('the colour of a timber', () => {
  it('is given under any name that the timber has', () => {
    const colors = {
      'sugar-maple': '#f0dcb8',
      teak: '#a08060',
      'soft-maple': '#111111',
      'red-maple': '#222222',
    };
    expect(colorGiven({ colors }, 'hard-maple')).toBe('#f0dcb8');
    expect(colorGiven({ colors }, 'teak')).toBe('#a08060');
    expect(colorGiven({ colors }, 'soft-maple')).toBe('#111111');
    expect(colorGiven({ colors }, 'red-maple')).toBe('#222222');
    expect(colorGiven({ colors }, 'wenge')).toBeUndefined();
    expect(colorGiven({}, 'teak')).toBeUndefined();
  });
});
