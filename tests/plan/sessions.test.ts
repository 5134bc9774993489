/**
 * Sessions against brute force, which knows only the rules: it tries every set of slots as the next session.
 * The pairs that interfere come from blank/interference.ts, checked on its own against a boolean library.
 */
import { describe, expect, it } from 'vitest';
import { blankSolid, interfere, sawsThroughWeb } from '../../src/blank/interference.ts';
import { slotsOf, type Slot } from '../../src/blank/slots.ts';
import type { Design, SlotSet } from '../../src/design/document.ts';
import { sessionsOf, type SessionPlan } from '../../src/plan/sessions.ts';
import { setupsOf } from '../../src/plan/setups.ts';
import { tabled } from '../fixtures/decorated.ts';
import { fourRings, randomDesign, slotSet } from '../fixtures/designs.ts';
import { seededRandom } from '../fixtures/random.ts';
import { countFor, SEED } from '../soak/counts.ts';

function planOf(design: Design): SessionPlan {
  return sessionsOf(slotsOf(design), design.blank, design.saw.max_open_slots, {
    stopSide: design.saw.stop_side,
  });
}

/** Rules of a plan, straight from their wording. */
function expectLawful(design: Design, plan: SessionPlan, what: string): void {
  const slots = slotsOf(design);
  const solid = blankSolid(design.blank);
  const place = new Map(plan.sessions.flatMap((session, n) => session.map((id) => [id, n] as const)));
  expect(plan.sessions.flat().sort(), what).toEqual([...design.order].sort());
  for (const session of plan.sessions) {
    expect(session.length, what).toBeGreaterThan(0);
    expect(session.length, what).toBeLessThanOrEqual(design.saw.max_open_slots);
  }
  slots.forEach((a, i) =>
    slots.slice(i + 1).forEach((b) => {
      const early = place.get(a.id) ?? NaN;
      const late = place.get(b.id) ?? NaN;
      if (interfere(a, b, solid)) expect(early, `${what}: ${a.id} before ${b.id}`).toBeLessThan(late);
      if (early === late) {
        expect(liesAlike(a, b), what).toBe(true);
        expect(sawsThroughWeb(a, b, solid) || sawsThroughWeb(b, a, solid), what).toBe(false);
      }
    }),
  );
}

/**
 * One face at the fence; or, table tilted, one side at the ledge, the web on one side and one end down, which is the head
 * where the slot is higher at the ledge.
 */
function liesAlike(a: Slot, b: Slot): boolean {
  if (a.cut !== b.cut || Math.abs(a.fenceAzimuth_deg - b.fenceAzimuth_deg) > 1e-9) return false;
  const apart = [0, 1].some((axis) => Math.abs(a.stopNormal[axis] - b.stopNormal[axis]) > 1e-9);
  return a.cut === 'fence' || (a.slope === b.slope && !apart);
}

/** Fewest sessions, and the fewest changes of fence angle and stop with that many, by trying everything. */
function bruteForce(design: Design): { sessions: number; changes: number; chain: number } {
  const slots = slotsOf(design);
  const n = slots.length;
  const solid = blankSolid(design.blank);
  const setups = setupsOf(design);
  const clash = slots.map((a) => slots.map((b) => a !== b && interfere(a, b, solid)));
  const together = (a: number, b: number) =>
    !clash[a][b] &&
    liesAlike(slots[a], slots[b]) &&
    !sawsThroughWeb(slots[a], slots[b], solid) &&
    !sawsThroughWeb(slots[b], slots[a], solid);
  const sameCut = (a: number, b: number) => setups[a].cut === setups[b].cut;
  const change = (a: number, b: number) =>
    (sameCut(a, b) && Math.abs(setups[a].fence_angle_deg - setups[b].fence_angle_deg) < 1e-6 ? 0 : 1) +
    (sameCut(a, b) &&
    setups[a].stop_end === setups[b].stop_end &&
    Math.abs(setups[a].stop_to_kerf_center_mm - setups[b].stop_to_kerf_center_mm) < 1e-6
      ? 0
      : 1);
  const lawful: boolean[] = [];
  for (let set = 1; set < 1 << n; set++) {
    const members = [...Array(n).keys()].filter((i) => set & (1 << i));
    lawful[set] =
      members.length <= design.saw.max_open_slots &&
      members.every((a) => members.every((b) => a === b || together(a, b)));
  }
  const known = new Map<string, [number, number]>();
  const best = (done: number, last: number): [number, number] => {
    if (done === (1 << n) - 1) return [0, 0];
    const key = `${done} ${last}`;
    const before = known.get(key);
    if (before) return before;
    let result: [number, number] = [Infinity, Infinity];
    for (let set = 1; set < 1 << n; set++) {
      if (set & done || !lawful[set]) continue;
      const members = [...Array(n).keys()].filter((i) => set & (1 << i));
      if (members.some((m) => clash[m].some((c, i) => c && i < m && !(done & (1 << i))))) continue;
      for (const order of permutations(members)) {
        let changes = 0;
        let at = last;
        for (const slot of order) {
          if (at >= 0) changes += change(at, slot);
          at = slot;
        }
        const [sessions, more] = best(done | set, at);
        if (sessions + 1 < result[0] || (sessions + 1 === result[0] && changes + more < result[1]))
          result = [sessions + 1, changes + more];
      }
    }
    known.set(key, result);
    return result;
  };
  let chain = 0;
  const longestFrom = (i: number): number =>
    1 + Math.max(0, ...slots.map((_, j) => (j > i && clash[i][j] ? longestFrom(j) : 0)));
  slots.forEach((_, i) => (chain = Math.max(chain, longestFrom(i))));
  const [sessions, changes] = best(0, -1);
  return { sessions, changes, chain };
}

function permutations(items: readonly number[]): number[][] {
  if (items.length <= 1) return [[...items]];
  return items.flatMap((item, n) =>
    permutations(items.filter((_, k) => k !== n)).map((rest) => [item, ...rest]),
  );
}

/** Designs in which slots can be open together: few faces, some of them well apart. */
function smallDesign(seed: number): Design {
  const design = randomDesign(seed, {
    maxSlots: 6,
    form: 'none',
    flatsOnly: true,
    maxOpenSlots: seed % 6 === 0 ? 1 : 2 + (seed % 3),
  });
  if (seed % 2 === 0) return seed % 4 === 0 ? withTables(seed, design) : design;
  // Thin slots a little apart on one or two faces: many that may share a session, some that may not.
  const count = 2 + (seed % 5);
  const sets = Array.from({ length: count }, (_, n) =>
    slotSet({
      id: `S${n + 1}`,
      angle_deg: [60, 45, 75][(seed + n * n) % 3],
      center_mm: 40 + ((n * 37 + seed * 13) % 120),
      fence_azimuths_deg: [((seed + n) % 3 === 0 ? 1 : 0) * 90],
      high_side: (seed + n) % 4 === 0 ? 'entry' : 'fence',
      web_mm: n % 2 === 0 ? 2.54 : 12,
    }),
  );
  const few = fourRings({ sets, form: null, saw: { max_open_slots: seed % 7 === 0 ? 1 : 2 + (seed % 3) } });
  // The same at the tilted table: nearly upright slots side by side, some of other lies.
  const tilted = sets.map((set, n): SlotSet => ({
    ...set,
    angle_deg: n % 3 === 2 ? 25 : 20,
    cut: 'table',
    ...(n % 4 === 3 ? { web_side: 'behind' } : {}),
  }));
  return seed % 5 === 0 ? { ...few, sets: tilted } : few;
}

function setOf(design: Design, slot: string): Design['sets'][number] {
  return design.sets.find(({ id }) => slot.startsWith(`${id}.`))!;
}

/** Some sets, or all, cut with the table tilted. */
function withTables(seed: number, design: Design): Design {
  const random = seededRandom(seed);
  return { ...design, sets: design.sets.map((set) => tabled(random, design.blank.section, set)) };
}

describe('sessions against brute force', () => {
  it('fewest sessions, fewest changes, longest chain', () => {
    const rounds = countFor('sessions', 500, 5000);
    let shared = 0;
    let reordered = 0;
    let tilted = 0;
    for (let n = 0; n < rounds; n++) {
      const seed = SEED + n;
      const design = smallDesign(seed);
      const plan = planOf(design);
      const expected = bruteForce(design);
      const what = `seed ${seed}`;
      expectLawful(design, plan, what);
      expect(plan.sessions.length, what).toBe(expected.sessions);
      expect(plan.exact, what).toBe(true);
      expect(plan.fewestChanges, what).toBe(true);
      expect(plan.changes, `${what} changes`).toBe(expected.changes);
      expect(plan.longestChain, what).toBe(expected.chain);
      expect(plan.bound, what).toBeGreaterThanOrEqual(expected.chain);
      if (plan.sessions.length < design.order.length) shared++;
      if (plan.sessions.some((ids) => ids.length > 1 && setOf(design, ids[0]).cut === 'table')) tilted++;
      if (plan.sessions.flat().join() !== design.order.join()) reordered++;
    }
    console.log(
      `plans that share sessions: ${shared}, at the tilted table: ${tilted}, that change the order of cutting: ${reordered}`,
    );
    expect(shared).toBeGreaterThan(rounds / 6);
    expect(reordered).toBeGreaterThan(0);
    expect(tilted).toBeGreaterThan(rounds / 100);
  });
});

describe('plans of known size', () => {
  it('one open slot at a time: the cutting order, one by one, where no other saves a change', () => {
    const design = fourRings();
    expect(planOf(design)).toEqual({
      sessions: [['S1.1'], ['S1.2'], ['S1.3'], ['S1.4']],
      longestChain: 4,
      bound: 4,
      exact: true,
      changes: 0,
      fewestChanges: true,
    });
    const shuffled = fourRings({ order: ['S1.3', 'S1.1', 'S1.4', 'S1.2'] });
    expect(planOf(shuffled).sessions.flat()).toEqual(shuffled.order);
  });

  it('four quarter-turned slots through one centre wait for each other however many may be open', () => {
    expect(planOf(fourRings({ saw: { max_open_slots: 4 } })).sessions.length).toBe(4);
  });

  const sixGroups = (maxOpen: number, spacing_mm: number) =>
    fourRings({
      length_mm: 700,
      sets: Array.from({ length: 6 }, (_, n) =>
        slotSet({ id: `S${n + 1}`, center_mm: 60 + n * spacing_mm, angle_deg: 60 }),
      ),
      form: null,
      saw: { max_open_slots: maxOpen },
    });

  it('24 slots in six groups apart: 24 glue-ups one at a time, 8 with three open, 4 with six', () => {
    // At 60° a slot of the 76.2 square reaches 44 mm along the axis: groups 110 mm apart are strangers.
    for (const [open, glueUps] of [
      [1, 24],
      [2, 12],
      [3, 8],
      [6, 4],
      [24, 4],
    ]) {
      const design = sixGroups(open, 110);
      const plan = planOf(design);
      expectLawful(design, plan, `${open} open`);
      expect(plan.sessions.length, `${open} open`).toBe(glueUps);
      expect(plan.exact).toBe(true);
      expect(plan.longestChain).toBe(4);
    }
  });

  it('200 slots: a lawful plan, the same every time', () => {
    const design = fourRings({
      length_mm: 3100,
      sets: Array.from({ length: 50 }, (_, n) =>
        slotSet({ id: `S${n + 1}`, center_mm: 60 + n * 60, angle_deg: n % 3 === 0 ? 45 : 60 }),
      ),
      form: null,
      saw: { max_open_slots: 3 },
    });
    const before = performance.now();
    const plan = planOf(design);
    const took_ms = performance.now() - before;
    expectLawful(design, plan, '200 slots');
    expect(planOf(design)).toEqual(plan);
    console.log(
      `200 slots: ${plan.sessions.length} sessions, bound ${plan.bound}, chain ${plan.longestChain}, ` +
        `${plan.changes} changes, ${took_ms.toFixed(0)} ms`,
    );
    // Each of the four faces has 50 slots: ⌈50/3⌉ = 17 sessions of its own, so 68 is the least there can be.
    expect(plan.bound).toBe(68);
    expect(plan.sessions.length).toBe(68);
    expect(plan.exact).toBe(true);
  });
});
