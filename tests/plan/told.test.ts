/**
 * Messages that would contradict or repeat each other on one cut. What is true comes from plane geometry (worked out
 * beside each check): without wood there is no cut, without a web none that is thin or short-grained.
 */
import { describe, expect, it } from 'vitest';
import type { Design } from '../../src/design/document.ts';
import { messagesOf, type Message, type MessageCode } from '../../src/plan/messages.ts';
import { toldOf } from '../../src/plan/told.ts';
import { worded } from '../../src/plan/wording.ts';
import { cylinderForm, fourRings, randomDesign, slotSet } from '../fixtures/designs.ts';
import { starterDesigns } from '../fixtures/starters.ts';
import { countFor, SEED } from '../soak/counts.ts';

/** Two messages that cannot both be true of one slot, or the second of which says nothing more. */
const NEVER_TOGETHER: readonly (readonly [MessageCode, MessageCode])[] = [
  // No wood is taken.
  ...(
    [
      'web-lost',
      'web-thin',
      'web-cross-grain',
      'slot-through-end',
      'slot-through-side',
      'slots-too-close',
      'wedge-loose',
      'angle-out-of-range',
      'face-not-flat',
      'tilts-left',
      'blank-too-tall',
      'throat-too-small',
      'kerf-differs',
      'strip-loose',
      'strip-tight',
      'strip-lost',
      'strip-unseen',
      'ring-misses',
      'ring-not-whole',
      'ring-runs-off',
    ] as const
  ).map((code) => ['slot-misses', code] as const),
  // No web is left, so it is neither thin nor short-grained; the kerf leaves the blank at the web, not at the entry only.
  ['web-lost', 'web-thin'],
  ['web-lost', 'web-cross-grain'],
  ['web-lost', 'slot-through-end'],
  // One word on a web: the stronger.
  ['web-thin', 'web-cross-grain'],
  ['strip-loose', 'strip-tight'],
  // A strip of which nothing is left does not show; nothing is left to say of its ring.
  ['strip-lost', 'strip-unseen'],
  ['strip-lost', 'ring-misses'],
  ['strip-lost', 'ring-not-whole'],
  ['strip-lost', 'ring-runs-off'],
  ['strip-unseen', 'ring-misses'],
  ['strip-unseen', 'ring-not-whole'],
  ['strip-unseen', 'ring-runs-off'],
  // A ring that misses the outside has no parts on it.
  ['ring-misses', 'ring-not-whole'],
  ['ring-misses', 'ring-runs-off'],
];

/** Pairs of one slot that say different true things: looked at one by one. */
const TOGETHER = new Set(
  [
    // How it is set, and what becomes of it.
    ...(
      [
        'angle-out-of-range',
        'face-not-flat',
        'tilts-left',
        'blank-too-tall',
        'throat-too-small',
        'kerf-differs',
      ] as const
    ).flatMap((setting) =>
      (
        [
          'angle-out-of-range',
          'face-not-flat',
          'tilts-left',
          'blank-too-tall',
          'throat-too-small',
          'web-lost',
          'web-thin',
          'web-cross-grain',
          'slot-through-end',
          'slot-through-side',
          'slots-too-close',
          'wedge-loose',
          'strip-loose',
          'strip-tight',
          'strip-lost',
          'strip-unseen',
          'ring-misses',
          'ring-not-whole',
          'ring-runs-off',
        ] as const
      ).map((other) => [setting, other] as const),
    ),
    // The web, the strip and the ring are different things.
    ...(
      ['web-lost', 'web-thin', 'web-cross-grain', 'slot-through-end', 'slot-through-side'] as const
    ).flatMap((cut) =>
      (
        [
          'slot-through-end',
          'slot-through-side',
          'slots-too-close',
          'wedge-loose',
          'strip-loose',
          'strip-tight',
          'strip-lost',
          'strip-unseen',
          'ring-misses',
          'ring-not-whole',
          'ring-runs-off',
        ] as const
      ).map((other) => [cut, other] as const),
    ),
    ...(['web-lost', 'web-thin', 'web-cross-grain'] as const).map(
      (web) => [web, 'slot-through-side'] as const,
    ),
    ...(['slots-too-close', 'wedge-loose', 'strip-loose', 'strip-tight'] as const).flatMap((strip) =>
      (
        [
          'slots-too-close',
          'wedge-loose',
          'strip-loose',
          'strip-tight',
          'strip-lost',
          'strip-unseen',
          'ring-misses',
          'ring-not-whole',
          'ring-runs-off',
        ] as const
      ).map((other) => [strip, other] as const),
    ),
    // So much lies in the web; and the ring runs off besides.
    ['ring-not-whole', 'ring-runs-off'] as const,
  ].map(([a, b]) => pairName(a, b)),
);

function pairName(a: MessageCode, b: MessageCode): string {
  return [a, b].toSorted().join(' + ');
}

function pairsOf(messages: readonly Message[]): string[] {
  return messages.flatMap(({ slot, code }, i) =>
    slot === null
      ? []
      : messages.slice(i + 1).flatMap((other) => (other.slot === slot ? [pairName(code, other.code)] : [])),
  );
}

const codes = (design: Design, slot = 'S1.1') =>
  toldOf(messagesOf(design)).flatMap((message) => (message.slot === slot ? [message.code] : []));
const reported = (design: Design, slot = 'S1.1') =>
  messagesOf(design).flatMap((message) => (message.slot === slot ? [message.code] : []));

const oneSlot = (set: Parameters<typeof slotSet>[0], more: Parameters<typeof fourRings>[0] = {}) =>
  fourRings({
    sets: [slotSet({ fence_azimuths_deg: [0], ...set })],
    form: cylinderForm(203.2, 30),
    ...more,
  });

describe('no cut is told two things that cannot both be true', () => {
  const forbidden = new Set(NEVER_TOGETHER.map(([a, b]) => pairName(a, b)));

  it('on the starters and on random designs, every pair is one that was settled', () => {
    const rounds = countFor('told-pairs', 40, 2000);
    const designs = [
      ...starterDesigns(),
      ...Array.from({ length: rounds }, (_, n) => randomDesign(SEED + n, { maxSlots: 8 })),
      ...Array.from({ length: rounds }, (_, n) => awkward(SEED + n)),
    ];
    const seen = new Map<string, number>();
    for (const design of designs)
      for (const pair of pairsOf(toldOf(messagesOf(design)))) {
        expect(forbidden.has(pair), `${design.name}: ${pair}`).toBe(false);
        expect(TOGETHER.has(pair), `${design.name}: ${pair} was never looked at`).toBe(true);
        seen.set(pair, (seen.get(pair) ?? 0) + 1);
      }
    console.log(`pairs of messages met: ${seen.size}`);
    expect(seen.size).toBeGreaterThan(15);
  });
});

/** Webs of every size, grain across, cuts past the ends, tilted tables. */
function awkward(seed: number): Design {
  const design = randomDesign(seed, { maxSlots: 5 });
  const { blank, sets } = design;
  return {
    ...design,
    name: `Awkward ${design.name}`,
    blank: seed % 2 === 0 ? { ...blank, grain: { along: 'across', azimuth_deg: 30 } } : blank,
    saw: { ...design.saw, max_cut_height_mm: 60, throat_mm: 50, blade_kerf_mm: 1.2 },
    sets: sets.map((set, i) => ({
      ...set,
      web_mm: Math.min(set.web_mm, [0, 0.4, 1, 2, 2.8][(seed + i) % 5]),
      center_mm: set.center_mm + [-60, 0, 0, 60, 400][(seed + 2 * i) % 5],
      ...((seed + i) % 3 === 0 ? { cut: 'table' as const } : {}),
    })),
  };
}

describe('settled one by one', () => {
  it('a web that is lost is neither thin nor short-grained', () => {
    // At 45° the kerf stands at z₀ + 35.56 ± 0.72 where its web should be: with z₀ = 190 far past 203.2.
    const lost = oneSlot({ center_mm: 190, web_mm: 1.5 });
    const across: Design = { ...lost, blank: { ...lost.blank, grain: { along: 'across' } } };
    expect(codes(across)).toContain('web-lost');
    expect(reported(across)).not.toContain('web-thin');
    expect(reported({ ...across, sets: [{ ...across.sets[0], web_mm: 2.54 }] })).not.toContain(
      'web-cross-grain',
    );
    // The same webs where they hold the blank are told.
    expect(reported(oneSlot({ web_mm: 1.5 }))).toContain('web-thin');
  });

  it('a lost web is told with the least that saves it', () => {
    // 190 + 35.56 + 0.718 − 203.2 = 23.08 mm.
    const [message] = messagesOf(oneSlot({ center_mm: 190 })).filter(({ code }) => code === 'web-lost');
    const text = worded(message.words, 'mm');
    const [, by] =
      /Move its set (\d+\.\d+) mm toward the foot, or leave \1 mm more wood at the head end/.exec(text)!;
    expect(Number(by)).toBeCloseTo(190 + 35.56 + 0.508 * Math.SQRT2 - 203.2, 1);
    expect(reported(oneSlot({ center_mm: 190 - Number(by) }))).not.toContain('web-lost');
    expect(reported(oneSlot({ center_mm: 190 - Number(by) + 0.02 }))).toContain('web-lost');
  });

  it('a slot that takes no wood says that alone; the report keeps what is true of its set-up', () => {
    // 300 mm up the axis of a blank of 203.2 at 25°, steeper than the fence goes.
    const design = oneSlot({ center_mm: 300, angle_deg: 80, web_mm: 1, fence_azimuths_deg: [10] });
    expect(codes(design)).toEqual(['slot-misses']);
    expect(reported(design)).toContain('face-not-flat');
    expect(reported(design)).not.toContain('web-thin');
  });

  it('a slot that takes no wood leaves none too thin beside it', () => {
    const parallel = fourRings({
      sets: [
        slotSet({ fence_azimuths_deg: [0], angle_deg: 90, center_mm: 210 }),
        slotSet({ id: 'S2', fence_azimuths_deg: [0], angle_deg: 90, center_mm: 211 }),
      ],
      form: null,
    });
    expect(codes(parallel, 'S2.1')).toEqual(['slot-misses']);
  });

  it('a ring that runs off is not told besides that it does not close', () => {
    // At 45° on r = 30 the ring reaches 30 mm to both sides of its centre.
    const design = oneSlot({ center_mm: 29 });
    expect(reported(design)).toEqual(expect.arrayContaining(['ring-not-whole', 'ring-runs-off']));
    expect(codes(design)).toContain('ring-runs-off');
    expect(codes(design)).not.toContain('ring-not-whole');
    // With a part in the web as well, that part alone is told beside it (h − w = 28.1 < 30).
    const both = toldOf(messagesOf(oneSlot({ center_mm: 29, web_mm: 10 })));
    const text = worded(both.find(({ code }) => code === 'ring-not-whole')!.words, 'mm');
    expect(text).toContain('lie in the web');
    expect(text).not.toContain('close');
  });

  it('a strip that later cuts take away has no ring to speak of', () => {
    const design = fourRings({
      sets: [
        slotSet({ fence_azimuths_deg: [0], center_mm: 20, kerf_mm: 1 }),
        slotSet({ id: 'S2', fence_azimuths_deg: [0], center_mm: 20, kerf_mm: 2 }),
      ],
      form: cylinderForm(203.2, 30),
    });
    expect(reported(design)).toEqual(expect.arrayContaining(['strip-lost', 'ring-runs-off']));
    expect(codes(design).filter((code) => code.startsWith('ring') || code.startsWith('strip'))).toEqual([
      'strip-lost',
    ]);
  });
});
