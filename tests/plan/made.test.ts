/** What was measured at the saw, and what the plan makes of it: worked out by hand. */
import { describe, expect, it } from 'vitest';
import { slotsOf } from '../../src/blank/slots.ts';
import type { Design } from '../../src/design/document.ts';
import { asBuiltSlots } from '../../src/plan/asBuilt.ts';
import { asMadeOf, type AsMade } from '../../src/plan/made.ts';
import { messagesOf } from '../../src/plan/messages.ts';
import { worded } from '../../src/plan/wording.ts';
import { reportOf } from '../../src/plan/report.ts';
import { setupsOf } from '../../src/plan/setups.ts';
import { stripGroups } from '../../src/plan/strips.ts';
import { fourRings, slotSet, type FourRingsOverrides } from '../fixtures/designs.ts';

/** Kerf and strip 1.016, web 2.54, 45°. */
const first = (overrides: FourRingsOverrides): AsMade => asMadeOf(fourRings(overrides))[0];
const made = (entry: NonNullable<Design['made']>[string]) => ({ made: { 'S1.1': entry } });
const texts = (design: Design) =>
  messagesOf(design).flatMap(({ slot, code, words }) =>
    slot === 'S1.1' ? [`${code}: ${worded(words, 'mm')}`] : [],
  );

describe('nothing measured', () => {
  it('is as designed', () => {
    expect(first({})).toMatchObject({
      kerf_mm: 1.016,
      kerfFrom: 'design',
      web_mm: 2.54,
      strip_mm: 1.016,
      fit_mm: 0,
      webMeasured: false,
      stripMeasured: false,
    });
    expect(first({}).strip_depth_mm).toBeCloseTo(73.66 * Math.SQRT2 + 0.508 + 3, 12);
  });
});

describe('a kerf that was measured', () => {
  it('gives the strip to make, as loose or tight as it was meant', () => {
    expect(first(made({ kerf_mm: 1.1 }))).toMatchObject({ kerf_mm: 1.1, kerfFrom: 'slot', strip_mm: 1.1 });
    const loose = { strip: { layers: [{ timber: 'hard-maple', thickness_mm: 0.99 }] } };
    expect(first({ set: loose, ...made({ kerf_mm: 1.1 }) }).strip_mm).toBeCloseTo(1.074, 12);
    // Meant 0.2 mm too thin, more than strips may be off: not carried over.
    const wrong = { strip: { layers: [{ timber: 'hard-maple', thickness_mm: 0.816 }] } };
    expect(first({ set: wrong, ...made({ kerf_mm: 1.1 }) }).strip_mm).toBe(1.1);
  });

  it('comes before the test cut, and that before the design', () => {
    const saw = { blade_kerf_mm: 1.05 };
    expect(first({ saw })).toMatchObject({ kerf_mm: 1.05, kerfFrom: 'test cut', strip_mm: 1.05 });
    expect(first({ saw, ...made({ kerf_mm: 1.1 }) })).toMatchObject({ kerf_mm: 1.1, kerfFrom: 'slot' });
    // Three layers, 3.048 mm: sawn in passes, as wide as designed.
    expect(first({ saw, set: { kerf_mm: 3.048 } })).toMatchObject({ kerf_mm: 3.048, kerfFrom: 'design' });
  });

  it('is said, with the strip to make; the fit is told of a strip that is there', () => {
    const kerf = 'S1.1 measures 1.1 mm, 0.084 mm wider than designed, and so comes its ring';
    expect(texts(fourRings(made({ kerf_mm: 1.1 })))).toEqual([
      `kerf-differs: The kerf of ${kerf}: make the strip 1.1 mm thick.`,
    ]);
    expect(texts(fourRings(made({ kerf_mm: 1.05 })))).toEqual([]);
    expect(texts(fourRings(made({ strip_mm: 1.08 })))[0]).toMatch(
      /^strip-tight: The strip of S1.1 is 0.064 mm/,
    );
    const both = texts(fourRings(made({ kerf_mm: 1.1, strip_mm: 1.02 })));
    expect(both[0]).toBe(`kerf-differs: The kerf of ${kerf}.`);
    expect(both[1]).toMatch(/^strip-loose: The strip of S1.1 is 0.08 mm thinner/);
  });
});

describe('a web that was measured', () => {
  it('makes the slot deeper or shallower, and the strip with it', () => {
    const thin = first(made({ web_mm: 1.54 }));
    expect(thin).toMatchObject({ web_mm: 1.54, webMeasured: true });
    // One millimetre less web is √2 mm more down the slope.
    expect(thin.strip_depth_mm).toBeCloseTo(74.66 * Math.SQRT2 + 0.508 + 3, 12);
    expect(thin.thinnest_web_mm).toBeCloseTo(1.54 - 0.508 / Math.SQRT2, 12);
    expect(texts(fourRings(made({ web_mm: 1.54 })))[0]).toMatch(/^web-thin: The web of S1.1 is only 1.18 mm/);
    expect(texts(fourRings(made({ web_mm: 0 })))[0]).toMatch(/^web-thin: S1.1 leaves no web/);
  });

  it('with the table tilted: as much farther along the feed', () => {
    const table = { cut: 'table', angle_deg: 30 } as const;
    const before = first({ set: table });
    const after = first({ set: table, ...made({ web_mm: 1.54, kerf_mm: 2.016 }) });
    expect(after.strip_length_mm - before.strip_length_mm).toBeCloseTo(1, 12);
    expect(after.thinnest_web_mm).toBeCloseTo(1.54, 12);
  });
});

describe('what follows', () => {
  it('a kerf of the test cut goes into strips, stop, passes and messages of every slot not measured', () => {
    const planned = fourRings();
    const tested = fourRings({ saw: { blade_kerf_mm: 1.1 }, made: { 'S1.2': { kerf_mm: 1.13 } } });
    const before = asMadeOf(planned);
    const after = asMadeOf(tested);
    // Mark on the fence face, from the foot: 101.6 + 38.1 · cot 45°; the blade's near side is (k/2) / sin 45° before it.
    const near = (kerf_mm: number) => 139.7 - kerf_mm / Math.SQRT2;
    expect(before.map((one) => one.stop_to_kerf_near_mm)).toEqual(
      Array(4).fill(expect.closeTo(near(1.016), 9)),
    );
    expect(after.map((one) => one.stop_to_kerf_near_mm)).toEqual(
      [1.1, 1.13, 1.1, 1.1].map((kerf): unknown => expect.closeTo(near(kerf), 9)),
    );
    expect(after.map(({ strip_mm }) => strip_mm)).toEqual([1.1, 1.13, 1.1, 1.1]);
    expect(
      stripGroups(tested, { sliceKerf_mm: 1 }).map(({ thickness_mm, count }) => [thickness_mm, count]),
    ).toEqual([
      [expect.closeTo(1.1, 9), 3],
      [expect.closeTo(1.13, 9), 1],
    ]);
    const codes = (design: Design) => messagesOf(design).filter(({ code }) => code === 'kerf-differs');
    expect(codes(planned)).toEqual([]);
    expect(codes(tested).map(({ slot }) => slot)).toContain('S1.2');
  });

  it('passes through a wide slot follow the kerf that was measured', () => {
    const passesAt = (blade_kerf_mm: number) =>
      setupsOf(fourRings({ set: { kerf_mm: 3.048 }, saw: { blade_kerf_mm } }))[0].passes;
    // 3.048 / 1.05 → 3 passes; the outer ones (3.048 − 1.05) / 2 from the middle at 139.7, over sin 45° along the fence.
    const wide = passesAt(1.05);
    expect(wide?.passes.map((pass) => pass.stop_to_blade_center_mm)).toEqual(
      [-0.999, 0, 0.999].map((off): unknown => expect.closeTo(139.7 + off * Math.SQRT2, 9)),
    );
    // A blade of 1 mm: 4 passes, 2.048 / 3 apart.
    const thin = passesAt(1);
    expect(thin?.passes).toHaveLength(4);
    expect(thin?.step_along_fence_mm).toBeCloseTo((2.048 / 3) * Math.SQRT2, 9);
    expect(passesAt(3.03)).toBeNull();
  });

  it('strips to make, each slot its own thickness', () => {
    const groups = stripGroups(fourRings(made({ kerf_mm: 1.1 })), { sliceKerf_mm: 1 });
    expect(groups.map(({ thickness_mm, count }) => [Number(thickness_mm.toFixed(9)), count])).toEqual([
      [1.1, 1],
      [1.016, 3],
    ]);
    const layers = [1.016, 2.032].map((thickness_mm) => ({ timber: 'wenge', thickness_mm }));
    const layered = fourRings({
      sets: [slotSet({ kerf_mm: 3.048, strip: { layers }, fence_azimuths_deg: [0] })],
      ...made({ kerf_mm: 3.348 }),
    });
    // Layers keep their shares of the strip.
    expect(stripGroups(layered, { sliceKerf_mm: 1 }).map(({ thickness_mm }) => thickness_mm)).toEqual([
      expect.closeTo(1.116, 9),
      expect.closeTo(2.232, 9),
    ]);
  });

  it('the ideal piece stays as it was meant', () => {
    const { messages: _, ...ideal } = reportOf(fourRings());
    const { messages: __, ...measured } = reportOf(
      fourRings(made({ kerf_mm: 1.2, web_mm: 2, strip_mm: 1.2 })),
    );
    expect(measured).toEqual(ideal);
  });

  it('the piece as built has the kerf and the web that were measured', () => {
    const design = fourRings(made({ kerf_mm: 1.2, web_mm: 2 }));
    const slots = slotsOf(design);
    const built = asBuiltSlots(slots, design.saw, 7, design.made);
    const sampled = asBuiltSlots(slots, design.saw, 7);
    expect(built.slice(1)).toEqual(sampled.slice(1));
    expect(built[0]).toEqual({ ...sampled[0], kerf_mm: 1.2, web_mm: 2, stop_mm: 38.1 - 2 });
  });
});
