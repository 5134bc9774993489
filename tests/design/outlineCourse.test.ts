/**
 * Whether an outline bounds a solid. Expectations are drawn by hand or decided by brute force over all pairs
 * of pieces with an independent intersection test (parametric, not by sides).
 */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { OutlinePoint } from '../../src/design/document.ts';
import { courseFault } from '../../src/design/outlineCourse.ts';
import { flattenOutline } from '../../src/geometry/outline.ts';
import { cylinderForm, hollowForm, randomDesign } from '../fixtures/designs.ts';
import { SEED } from '../soak/counts.ts';
import { cpuMilliseconds } from './cpu.ts';

/** `0,0 0,30 50,18s 100,0`: z,r of each point, s for smooth. */
function outline(text: string): OutlinePoint[] {
  return text.split(' ').map((point) => {
    const [z_mm, r_mm] = point.replace('s', '').split(',').map(Number);
    return point.endsWith('s') ? { z_mm, r_mm, smooth: true } : { z_mm, r_mm };
  });
}

describe('an outline that bounds a solid', () => {
  it.each([
    ['a cylinder', '0,0 0,30 100,30 100,0'],
    ['a cone', '0,0 0,30 100,0'],
    ['a double cone', '0,0 50,30 100,0'],
    ['a ball, smooth at its equator', '0,0 50,50s 100,0'],
    ['a bowl with a recess in its foot', '3,0 3,20 0,22 0,30 60,70s 90,75 90,70 60,64s 10,20s 9,0'],
    ['a form that swells below its foot line', '5,0 5,10 0,20s 40,40s 80,20 80,0'],
    ['a run along the axis before it leaves', '0,0 10,0 10,20 50,20 50,0'],
    ['a point given twice', '0,0 0,30 0,30 100,30 100,0'],
    ['a smooth end, which is a corner', '0,0s 0,30 100,30 100,0s'],
    ['a deep undercut', '0,0 0,40 80,40 80,30 20,30 20,20 80,20 80,10 10,10 10,0'],
  ])('%s', (_, text) => {
    expect(courseFault(outline(text))).toBeNull();
  });

  it.each([
    ['a bangle with a rectangular section', '5,36 17,36 17,30 5,30'],
    ['a triangle', '5,36 17,33 5,30'],
    ['a ring, all smooth', '0,40s 10,50s 20,40s 10,30s'],
    ['a bangle that starts on its inside', '17,30 5,30 5,36 17,36'],
    ['a rim drawn inward', '0,36 30,40 30,20 25,20 25,36 5,30'],
    ['a point given twice', '5,36 17,36 17,36 17,30 5,30'],
  ])('loop: %s', (_, text) => {
    expect(courseFault(outline(text), true)).toBeNull();
  });

  it('is every form that the tests build on', () => {
    const forms = [cylinderForm(100, 30), hollowForm(120, 40, 6, 8)];
    for (const form of forms) expect(courseFault(form.outline)).toBeNull();
    for (let seed = 0; seed < 300; seed++) {
      const { form } = randomDesign(SEED + seed);
      if (form) expect(courseFault(form.outline), `seed ${SEED + seed}`).toBeNull();
    }
  });
});

describe('an outline that does not', () => {
  it.each([
    ['outline-crosses', 'a straight bow tie', '0,0 0,10 80,40 80,10 20,40 100,50 100,0'],
    ['outline-crosses', 'an inside through the outside', '0,0 0,30 100,30 100,25 50,40 10,5 10,0'],
    ['outline-crosses', 'a loop inside one smooth segment', '0,0 0,20 60,20s 10,60s 50,21 100,20 100,0'],
    ['outline-touches', 'a way out and back', '0,0 0,30 50,30 50,60 50,30 100,30 100,0'],
    ['outline-touches', 'a wall of no thickness', '0,0 0,30 100,30 100,20 60,30 10,20 10,0'],
    ['outline-touches', 'a corner on another corner', '0,0 0,30 50,10 100,30 100,20 50,10 10,5 10,0'],
    ['outline-meets-axis', 'two cones tip to tip', '0,0 0,30 50,0 100,30 100,0'],
    ['outline-meets-axis', 'a waist that is turned away', '0,0 0,30 40,1s 60,1s 100,30 100,0'],
    ['outline-ends', 'drawn from the head to the foot', '100,0 100,30 0,30 0,0'],
    ['outline-ends', 'a floor of no thickness', '0,0 0,30 50,30 50,20 0,0'],
    ['outline-empty', 'nothing but the axis', '0,0 50,0 100,0'],
  ])('%s: %s', (code, _, text) => {
    expect(courseFault(outline(text))?.code).toBe(code);
  });

  it.each([
    ['outline-crosses', 'a figure of eight', '0,40 10,30 10,40 0,30'],
    ['outline-crosses', 'a last piece through the first', '0,30 20,30 20,20 10,20 10,40 5,25'],
    ['outline-touches', 'a corner on the first piece', '0,30 20,30 20,20 10,30 0,20'],
    ['outline-touches', 'a last piece back along the first', '0,30 20,30 20,20 10,20 10,30'],
    ['outline-touches', 'all on one line', '0,30 10,35 20,40'],
    ['outline-touches', 'out and back', '0,30 10,30 5,30'],
    ['outline-empty', 'one point', '5,30 5,30 5,30'],
    ['outline-meets-axis', 'a curve that swings to the axis', '0,5 20,30 40,2s 20,1'],
    ['outline-direction', 'the inside first', '5,30 17,30 17,36 5,36'],
    ['outline-direction', 'a ring the wrong way round', '10,30s 20,40s 10,50s 0,40s'],
  ])('loop: %s: %s', (code, _, text) => {
    expect(courseFault(outline(text), true)?.code).toBe(code);
  });

  it('says where', () => {
    expect(courseFault(outline('0,0 0,10 80,40 80,10 20,40 100,50 100,0'))?.message).toMatch(
      /^crosses itself near z [\d.]+ mm, r [\d.]+ mm$/,
    );
    expect(courseFault(outline('0,0 0,30 50,0 100,30 100,0'))?.message).toBe(
      'meets the axis at z 50 mm, before its end',
    );
  });
});

/** Whether any two pieces of the polyline that are not neighbours meet, by solving for both parameters. */
function meetsByBruteForce(points: readonly OutlinePoint[], loop = false): boolean {
  const { z_mm, r_mm } = flattenOutline(points, undefined, loop);
  for (let i = 0; i + 1 < z_mm.length; i++)
    for (let j = i + 2; j + 1 < z_mm.length; j++) {
      if (loop && i === 0 && j === z_mm.length - 2) continue;
      const [az, ar] = [z_mm[i + 1] - z_mm[i], r_mm[i + 1] - r_mm[i]];
      const [bz, br] = [z_mm[j + 1] - z_mm[j], r_mm[j + 1] - r_mm[j]];
      const determinant = az * br - ar * bz;
      const [dz, dr] = [z_mm[j] - z_mm[i], r_mm[j] - r_mm[i]];
      const s = (dz * br - dr * bz) / determinant;
      const t = (dz * ar - dr * az) / determinant;
      if (s >= 0 && s <= 1 && t >= 0 && t <= 1) return true;
    }
  return false;
}

describe('crossing', () => {
  it('is found exactly where trying every pair of pieces finds it', () => {
    const point = fc.record({
      z_mm: fc.double({ min: 1, max: 99, noNaN: true }),
      r_mm: fc.double({ min: 20, max: 60, noNaN: true }),
      smooth: fc.boolean(),
    });
    let crossing = 0;
    let sound = 0;
    fc.assert(
      fc.property(fc.array(point, { minLength: 1, maxLength: 5 }), (inner) => {
        const points = [{ z_mm: 0, r_mm: 0 }, ...inner, { z_mm: 100, r_mm: 0 }];
        const code = courseFault(points)?.code;
        // What only touches is decided by exact signs; here parameters are rounded.
        fc.pre(code === undefined || code === 'outline-crosses');
        expect(meetsByBruteForce(points)).toBe(code === 'outline-crosses');
        if (code === undefined) sound++;
        else crossing++;
      }),
      { seed: SEED, numRuns: 200, endOnFailure: true },
    );
    expect(crossing).toBeGreaterThan(20);
    expect(sound).toBeGreaterThan(20);
  });

  it('of a loop as well', () => {
    const point = fc.record({
      z_mm: fc.double({ min: 1, max: 99, noNaN: true }),
      r_mm: fc.double({ min: 40, max: 90, noNaN: true }),
      smooth: fc.boolean(),
    });
    const codes = new Map<string, number>();
    fc.assert(
      fc.property(fc.array(point, { minLength: 3, maxLength: 6 }), (points) => {
        const code = courseFault(points, true)?.code ?? 'sound';
        fc.pre(['outline-crosses', 'outline-direction', 'sound'].includes(code));
        expect(meetsByBruteForce(points, true)).toBe(code === 'outline-crosses');
        if (code !== 'outline-crosses') {
          // The other way round, it is the other of the two.
          const other = courseFault(points.toReversed(), true)?.code ?? 'sound';
          expect(other).toBe(code === 'sound' ? 'outline-direction' : 'sound');
        }
        codes.set(code, (codes.get(code) ?? 0) + 1);
      }),
      { seed: SEED, numRuns: 200, endOnFailure: true },
    );
    for (const code of ['outline-crosses', 'outline-direction', 'sound'])
      expect(codes.get(code), code).toBeGreaterThan(20);
  });

  it('does not take long on 500 points, whatever they do', () => {
    const wild: [string, (i: number) => OutlinePoint][] = [
      ['zigzag', (i) => ({ z_mm: i % 2 ? 9000 : 1 + i * 0.01, r_mm: (i % 2 ? 9000 : 10) + i, smooth: true })],
      ['waves', (i) => ({ z_mm: i * 20, r_mm: i % 2 ? 9000 : 3000, smooth: true })],
      ['diagonals', (i) => ({ z_mm: (i % 2 ? 9000 : 100) - i / 100, r_mm: (i % 2 ? 9100 : 100) + i / 100 })],
    ];
    for (const [name, at] of wild) {
      const points = Array.from({ length: 498 }, (_, i) => at(i));
      const begun = cpuMilliseconds();
      courseFault([{ z_mm: 0, r_mm: 0 }, ...points, { z_mm: 10_000, r_mm: 0 }]);
      // Part of "a wrong file is refused within a second".
      expect(cpuMilliseconds() - begun, name).toBeLessThan(1000);
    }
  });
});
