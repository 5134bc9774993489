/**
 * Cuts with the table tilted: set-ups worked out by hand, and a saw made of points: blade, tilted table and ledge in the
 * shop's own axes. The blank is laid on it as the set-up says and fed; what the blade has passed must be the slot.
 */
import { describe, expect, it } from 'vitest';
import { sectionGeometry, support_mm } from '../../src/blank/section.ts';
import { slotHolds, slotsOf, type Slot } from '../../src/blank/slots.ts';
import type { Design, SlotSet } from '../../src/design/document.ts';
import { dot, type Vec3 } from '../../src/geometry/vector.ts';
import { messagesOf } from '../../src/plan/messages.ts';
import { passesFor } from '../../src/plan/passes.ts';
import { reportOf } from '../../src/plan/report.ts';
import { sawLimitsOf as limitsOf } from '../../src/plan/sawLimits.ts';
import { worded } from '../../src/plan/wording.ts';
import { setupsOf, type Setup, type SetupOnTable } from '../../src/plan/setups.ts';
import { fourRings, randomDesign, slotSet, type FourRingsOverrides } from '../fixtures/designs.ts';
import { tabled } from '../fixtures/decorated.ts';
import { seededRandom } from '../fixtures/random.ts';
import { SEED } from '../soak/counts.ts';

const TAN30 = 1 / Math.sqrt(3);
const COS30 = Math.sqrt(3) / 2;

/** A bowl blank of 150 × 150 × 60 mm, cut at 30°, 20 mm from the foot, a web of 4 mm. */
function bowl({ set, ...rest }: FourRingsOverrides = {}): Design {
  return fourRings({
    section: { shape: 'square', width_mm: 150 },
    length_mm: 60,
    form: null,
    set: {
      cut: 'table',
      angle_deg: 30,
      center_mm: 20,
      fence_azimuths_deg: [0],
      kerf_mm: 1,
      web_mm: 4,
      ...set,
    },
    ...rest,
  });
}

function onTable(setup: Setup): SetupOnTable {
  if (setup.cut !== 'table') throw new Error(`${setup.slot} is not cut with the table tilted`);
  return setup;
}

describe('a bowl blank by hand', () => {
  const [setup] = setupsOf(bowl());
  const { table } = onTable(setup);

  it('high side at the ledge: the head lies on the table, 40 mm tan 30° from the axis', () => {
    expect(table.end_down).toBe('head');
    expect(table.ledge_to_kerf_center_mm).toBeCloseTo(75 - 40 * TAN30, 12);
    // The kerf of 1 mm is 1 / cos 30° wide on the table.
    expect(table.ledge_to_kerf_near_mm).toBeCloseTo(75 - 40 * TAN30 - 0.5 / COS30, 12);
    expect(table.mark_head).toMatchObject({ nearer: 'ledge', face: 'A' });
    expect(table.mark_head!.from_axis_mm).toBeCloseTo(40 * TAN30, 12);
    expect(table.mark_head!.from_side_mm).toBeCloseTo(75 - 40 * TAN30, 12);
    expect(table.mark_foot).toMatchObject({ nearer: 'far', face: 'C' });
    expect(table.mark_foot!.from_axis_mm).toBeCloseTo(-20 * TAN30, 12);
    expect(table.mark_foot!.from_side_mm).toBeCloseTo(75 - 20 * TAN30, 12);
  });

  it('a kerf that meets the table beyond the ledge is nearer with its other side', () => {
    const steep = onTable(setupsOf(bowl({ set: { angle_deg: 60, kerf_mm: 2 } }))[0]).table;
    // 40 mm tan 60° = 69.28 mm is still on the blank's side; 50 mm is not.
    expect(steep.ledge_to_kerf_near_mm).toBeCloseTo(75 - 40 / TAN30 - 2, 12);
    const beyond = onTable(setupsOf(bowl({ set: { angle_deg: 60, center_mm: 10, kerf_mm: 2 } }))[0]).table;
    expect(beyond.ledge_to_kerf_center_mm).toBeCloseTo(75 - 50 / TAN30, 12);
    // 1 mm on either side of the middle is 1 / cos 60° = 2 mm on the table.
    expect(beyond.ledge_to_kerf_near_mm).toBeCloseTo(75 - 50 / TAN30 + 2, 12);
  });

  it('is fed 146 mm from D, the web at B; 60 / cos 30° of wood along the blade', () => {
    expect([table.entry_face, table.web_face, setup.entry_face]).toEqual(['D', 'B', 'D']);
    expect(table.feed_mm).toBeCloseTo(146, 12);
    expect(setup.cut_height_mm).toBeCloseTo(60 / COS30, 12);
    expect(setup.thinnest_web_mm).toBeCloseTo(4, 12);
    // The strip's square ends must reach past the slot's slanted mouths: k tan θ more, and the overhang at both.
    expect(setup.strip_depth_mm).toBeCloseTo(60 / COS30 + 1 * TAN30 + 6, 12);
    expect(setup.strip_length_mm).toBeCloseTo(146 + 3, 12);
  });

  it('web behind: the same marks, fed the other way, the left side of the table down', () => {
    const [behind] = setupsOf(bowl({ set: { web_side: 'behind' } }));
    expect(onTable(behind).table).toMatchObject({
      tilts: 'left',
      entry_face: 'B',
      web_face: 'D',
      mark_foot: table.mark_foot,
      mark_head: table.mark_head,
    });
    expect(messagesOf(bowl({ set: { web_side: 'behind' } })).map(({ code }) => code)).toContain('tilts-left');
    expect(messagesOf(bowl()).map(({ code }) => code)).not.toContain('tilts-left');
  });

  it('high side at the entry: the foot lies on the table, 20 mm tan 30° from the axis', () => {
    const [entry] = setupsOf(bowl({ set: { high_side: 'entry' } }));
    expect(onTable(entry).table.end_down).toBe('foot');
    expect(onTable(entry).table.ledge_to_kerf_center_mm).toBeCloseTo(75 - 20 * TAN30, 12);
  });

  it('a rectangle: fed along the other side', () => {
    const section = { shape: 'rectangle', width_mm: 150, depth_mm: 90 } as const;
    expect(onTable(setupsOf(bowl({ section }))[0]).table.feed_mm).toBeCloseTo(86, 12);
    expect(
      onTable(setupsOf(bowl({ section, set: { fence_azimuths_deg: [90] } }))[0]).table.feed_mm,
    ).toBeCloseTo(146, 12);
  });

  it('the slope leaves through the side: the run is as long as the side lets it', () => {
    // 20 mm wide, 30°: across u it runs 20 / sin 30° = 40 mm at most; 60 / cos 30° = 69 mm would be there.
    const [narrow] = setupsOf(bowl({ section: { shape: 'square', width_mm: 20 }, set: { center_mm: 30 } }));
    expect(narrow.cut_height_mm).toBeCloseTo(40, 12);
    expect(onTable(narrow).table.mark_foot).toBe(null);
    expect(onTable(narrow).table.mark_head).toBe(null);
  });

  it('at 90° the kerf lies flat on the table: no marks, no ledge, and a report that says so', () => {
    const design = bowl({ set: { angle_deg: 90 } });
    const [flat] = setupsOf(design);
    expect(onTable(flat).table).toMatchObject({
      ledge_to_kerf_center_mm: null,
      ledge_to_kerf_near_mm: null,
      mark_foot: null,
      mark_head: null,
    });
    const report = reportOf(design);
    expect(report.messages.map(({ code }) => code)).toEqual(
      expect.arrayContaining(['angle-out-of-range', 'slot-through-side']),
    );
  });
});

/** A blank on the saw: x to the right, y the way it is fed, z up; the blade stands in x = 0 with its teeth at y = 0. */
function laidOnTable(slot: Slot, setup: Setup, design: Design): (p: Vec3) => Vec3 {
  const { table } = onTable(setup);
  if (table.ledge_to_kerf_center_mm === null) throw new Error('not a cut that can be laid');
  const tilt = (table.tilt_deg * Math.PI) / 180;
  const right = table.tilts === 'right' ? 1 : -1;
  const low: Vec3 = [right * Math.cos(tilt), 0, -Math.sin(tilt)];
  const up: Vec3 = [right * Math.sin(tilt), 0, Math.cos(tilt)];
  const ledge_mm = table.ledge_to_kerf_center_mm;
  const u: Vec3 = slot.fenceDirection;
  // The side of the web comes last; the other one touches the teeth first and is then fed on.
  const section = sectionGeometry(design.blank.section);
  const trailing = slot.stopNormal;
  const leading_mm = support_mm(section, (Math.atan2(-trailing[1], -trailing[0]) * 180) / Math.PI);
  return (p) => {
    const across = ledge_mm + dot(u, p) - slot.fenceSupport_mm;
    const above = table.end_down === 'foot' ? p[2] : design.blank.length_mm - p[2];
    const y = table.feed_mm - leading_mm - dot(trailing, p);
    return [low[0] * across + up[0] * above, y, low[2] * across + up[2] * above];
  };
}

/** A turn keeps right hands right: the blank must be laid, not mirrored. */
function handedness(lay: (p: Vec3) => Vec3): number {
  const [o, x, y, z] = (
    [
      [0, 0, 0],
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ] as const
  ).map(lay);
  const [a, b, c] = [x, y, z].map((p) => p.map((value, i) => value - o[i]));
  return (
    a[0] * (b[1] * c[2] - b[2] * c[1]) -
    a[1] * (b[0] * c[2] - b[2] * c[0]) +
    a[2] * (b[0] * c[1] - b[1] * c[0])
  );
}

describe('random cuts on a saw made of points', () => {
  it('what the blade has passed is the slot; frame, height and feed are as the set-up says', () => {
    let cuts = 0;
    for (let n = 0; n < 60; n++) {
      const random = seededRandom(SEED + n);
      const plain = randomDesign(SEED + n, { form: 'none' });
      const sets = plain.sets.map((set): SlotSet => tabled(random, plain.blank.section, set));
      const design = { ...plain, sets };
      const setups = setupsOf(design);
      slotsOf(design).forEach((slot, i) => {
        const setup = setups[i];
        if (setup.cut !== 'table' || slot.angle_deg > 89) return;
        cuts++;
        const lay = laidOnTable(slot, setup, design);
        const what = `seed ${SEED + n}, ${slot.id}`;
        expect(handedness(lay), what).toBeCloseTo(1, 9);
        const { length_mm } = design.blank;
        const section = sectionGeometry(design.blank.section);
        const reach = section.circumscribedRadius_mm;
        for (let k = 0; k < 80; k++) {
          // Half of the points about the kerf, so that both answers come.
          const [x, y] = [random.between(-reach, reach), random.between(-reach, reach)];
          const middle = (slot.offset_mm - slot.normal[0] * x - slot.normal[1] * y) / slot.normal[2];
          const z = k % 2 ? random.between(0, length_mm) : middle + random.between(-1, 1) * slot.kerf_mm;
          const p: Vec3 = [x, y, z];
          const [px, py] = lay(p);
          if (Math.abs(Math.abs(px) - slot.kerf_mm / 2) < 1e-6 || Math.abs(py) < 1e-6) continue;
          expect(slotHolds(slot, p), what).toBe(Math.abs(px) < slot.kerf_mm / 2 && py > 0);
        }
        let frame = -Infinity;
        for (let azimuth = 0; azimuth < 360; azimuth += 5)
          for (const z of [0, length_mm]) {
            const r = support_mm(section, azimuth);
            const phi = (azimuth * Math.PI) / 180;
            if (!section.round) continue;
            const at = lay([r * Math.cos(phi), r * Math.sin(phi), z]);
            frame = Math.max(frame, -at[0]);
          }
        for (const [x, y] of section.corners_mm)
          for (const z of [0, length_mm]) frame = Math.max(frame, -lay([x, y, z])[0]);
        const { frame_end } = setup.table;
        const beyond = frame_end === 'foot' ? setup.beyond_foot_mm : setup.beyond_head_mm;
        // Round blanks are seen in steps of 5°: 1 − cos 2.5° of the radius may be missed.
        expect(beyond - frame, what).toBeGreaterThan(-1e-9);
        expect(beyond - frame, what).toBeLessThan(section.round ? 1e-3 * reach : 1e-9);
      });
    }
    expect(cuts).toBeGreaterThan(60);
  });
});

describe('webs', () => {
  const codes = (design: Design) => messagesOf(design).map(({ code }) => code);

  it('holds where the blank has wood beside the kerf', () => {
    expect(codes(bowl())).toEqual([]);
    expect(codes(bowl({ set: { web_mm: 1.2 } }))).toContain('web-thin');
    expect(codes(bowl({ set: { web_mm: 0 } }))).toContain('web-thin');
  });

  it('is lost in a round blank where the kerf passes beside the middle', () => {
    // Radius 75, stop at 71: beside the axis by more than √(75² − 71²) = 24.2 mm no wood lies beyond the stop.
    const round = (center_mm: number) =>
      bowl({ section: { shape: 'round', width_mm: 150 }, set: { center_mm, angle_deg: 45 } });
    // At 45° and 60 mm of height the kerf runs from u = −center to u = 60 − center.
    expect(codes(round(30))).not.toContain('web-lost');
    expect(codes(round(-20))).not.toContain('web-lost');
    expect(codes(round(-25))).toContain('web-lost');
    expect(codes(round(86))).toContain('web-lost');
    // Face f = +0.5 lies 0.5 √2 nearer to the head: at −24.2 + 0.5 √2 along the axis.
    const [setup] = setupsOf(round(-20));
    const u = 20 + 0.5 * Math.SQRT2;
    expect(setup.thinnest_web_mm).toBeCloseTo(Math.sqrt(75 ** 2 - u ** 2) - 71, 9);
  });

  it('tapers where an octagon turns away', () => {
    // Flats 100 apart: the flat at the web is 100 tan 22.5° = 41.42 wide; beyond it the section falls at 45°.
    const octagon = (center_mm: number) =>
      bowl({
        section: { shape: 'octagon', width_mm: 100 },
        set: { center_mm, angle_deg: 45, web_mm: 10, kerf_mm: 0.001 },
      });
    expect(setupsOf(octagon(30))[0].thinnest_web_mm).toBeCloseTo(10, 9);
    // Nearest to the middle at u = 25: 50 − (25 − 20.71) − 40 = 5.71 left.
    expect(setupsOf(octagon(-25))[0].thinnest_web_mm).toBeCloseTo(10 - (25 - 50 * Math.tan(Math.PI / 8)), 2);
  });

  it('is short-grained where the fibre runs along the kerf', () => {
    const grained = (azimuth_deg: number, web_mm = 2) => {
      const design = bowl({ set: { web_mm, fence_azimuths_deg: [0] } });
      return codes({ ...design, blank: { ...design.blank, grain: { along: 'across', azimuth_deg } } });
    };
    // The normal leans cos 30° toward the ledge: a fibre along u bridges the kerf, one along the feed does not.
    expect(grained(0)).not.toContain('web-cross-grain');
    expect(grained(90)).toContain('web-cross-grain');
    expect(grained(90, 3)).not.toContain('web-cross-grain');
  });
});

const sawLimitsOf = (design: Design) =>
  limitsOf(design).map(({ limit, words, remedies }) => ({
    limit,
    text: worded(words, 'mm'),
    remedies: remedies.map((remedy) => worded(remedy.words, 'mm')),
  }));

describe('what the saw allows', () => {
  const limits = (design: Design) => sawLimitsOf(design).map(({ limit }) => limit);

  it('the tilt', () => {
    expect(limits(bowl({ set: { angle_deg: 45, center_mm: 30 } }))).toEqual([]);
    const steep = bowl({ set: { angle_deg: 50, center_mm: 30 } });
    const [limit] = sawLimitsOf(steep);
    expect(limit.text).toBe('S1.1 asks for a tilt of 50°, the table tilts no further than 45°.');
    expect(limit.remedies).toEqual([
      'Lower the angle of its set to 45°.',
      'Lay the blank on a wedge of 5° that adds to the tilt.',
    ]);
    // At the fence the web would lie 75 · cot 50° = 62.9 mm from the middle of 60 mm: past the end. At 80° 13.2 mm.
    const blunt = sawLimitsOf(bowl({ set: { angle_deg: 80, center_mm: 30 } }))[0];
    expect(blunt.remedies.at(-1)).toBe('Cut it against the fence at 80°.');
    // The fence's range is not the table's.
    expect(limits(bowl({ set: { angle_deg: 20 } }))).toEqual([]);
    expect(limits(bowl({ saw: { table_tilt_max_deg: 20 } }))).toEqual(['angle']);
  });

  it('the height along the blade', () => {
    expect(limits(bowl({ saw: { max_cut_height_mm: 69.3 } }))).toEqual([]);
    // 60 / cos 30° = 69.28 mm; 9.28 too many are 8.04 of the blank's own height.
    const [limit] = sawLimitsOf(bowl({ saw: { max_cut_height_mm: 60 } }));
    expect(limit.limit).toBe('height');
    expect(limit.remedies[0]).toContain('8.04 mm shorter');
    // 60 / 68 = cos 28.07°: at 28° it passes, at 28.1° not. And 60 / 60 = cos 0° leaves no angle at all.
    const near = sawLimitsOf(bowl({ saw: { max_cut_height_mm: 68 } }))[0];
    expect(near.remedies[1]).toBe('Lower the angle of its set to 28°.');
    expect(limit.remedies.some((words) => words.includes('angle'))).toBe(false);
  });

  it('the throat, on the side of the frame', () => {
    // Right side down, head on the table: the frame is at the head side. Farthest: (u, z) = (−75, 60):
    // sin 30° · 40 + cos 30° · 75 = 84.95; on the foot side (75, 0): sin 30° · 20 + cos 30° · 75 = 74.95.
    expect(limits(bowl({ saw: { throat_mm: 85 } }))).toEqual([]);
    const [limit] = sawLimitsOf(bowl({ saw: { throat_mm: 80 } }));
    expect(limit.limit).toBe('throat');
    expect(limit.text).toContain('84.95 mm');
    expect(limit.remedies[0]).toContain('other end');
    expect(sawLimitsOf(bowl({ saw: { throat_mm: 70 } }))[0].remedies.join(' ')).not.toContain('other end');
  });

  it('the throat at the fence: one end must hang clear', () => {
    // 45° in the middle of 203.2 × 76.2: sin 45° · 101.6 + cos 45° · 38.1 = 98.78 either way.
    const fence = (throat_mm: number, center_mm = 101.6) =>
      fourRings({ saw: { throat_mm }, form: null, set: { fence_azimuths_deg: [0], center_mm } });
    expect(limits(fence(99))).toEqual([]);
    expect(limits(fence(98))).toEqual(['throat']);
    // 98.78 less 90 is 8.78 across the plane, 8.78 / sin 45° = 12.42 along the blank.
    expect(sawLimitsOf(fence(90))[0].remedies[0]).toMatch(/^Take 12\.43? mm or more off the foot end/);
    // 20 mm nearer to the head: 84.64 there, 112.92 at the foot.
    expect(limits(fence(98, 121.6))).toEqual([]);
    expect(reportOf(fence(98, 121.6)).messages.filter(({ code }) => code === 'throat-too-small')).toEqual([
      {
        level: 'note',
        code: 'throat-too-small',
        slot: 'S1.1',
        text:
          'S1.1 has 112.92 mm of wood on the foot side of the blade, the throat is 98 mm: ' +
          'the foot must hang clear of the saw’s frame.',
      },
    ]);
  });

  it('a blade wider than the slot', () => {
    expect(limits(bowl({ saw: { blade_kerf_mm: 1.05 } }))).toEqual([]);
    expect(limits(bowl({ saw: { blade_kerf_mm: 1.2 } }))).toEqual(['kerf']);
  });

  it('passes step across the table', () => {
    // 3 mm in passes of 1.2 mm: three, 0.9 mm apart across the kerf, 0.9 / cos 30° on the table.
    const [setup] = setupsOf(bowl({ set: { kerf_mm: 3 }, saw: { blade_kerf_mm: 1.2 } }));
    expect(setup.passes?.passes.length).toBe(3);
    expect(setup.passes?.step_along_fence_mm).toBeCloseTo(0.9 / COS30, 12);
    const middle = setup.passes!.passes[1].stop_to_blade_center_mm;
    expect(middle).toBeCloseTo(75 - 40 * TAN30, 12);
    expect(passesFor(setup, 3)?.passes.length).toBe(1);
  });
});

describe('in the report', () => {
  it('a cut at the fence has the fields it always had; one at the table says so', () => {
    const sets = [
      slotSet({ id: 'F', fence_azimuths_deg: [0], center_mm: 60 }),
      slotSet({ id: 'T', fence_azimuths_deg: [0], center_mm: 150, cut: 'table', angle_deg: 30 }),
    ];
    const [fence, table] = reportOf(fourRings({ sets })).setups;
    expect(Object.keys(fence)).toEqual([
      'slot',
      'fence_angle_deg',
      'face',
      'stop_end',
      'stop_to_kerf_center_mm',
      'mark_fence_mm',
      'mark_entry_mm',
      'blade_stop_mm',
      'slot_depth_mm',
      'strip_thickness_mm',
      'strip_depth_mm',
      'strip_length_mm',
    ]);
    expect(Object.keys(table)).toEqual([...Object.keys(fence), 'table']);
    expect(table).toMatchObject({
      fence_angle_deg: null,
      stop_end: null,
      stop_to_kerf_center_mm: null,
      blade_stop_mm: null,
      face: 'A',
      table: { tilt_deg: 30, tilts: 'right', end_down: 'head', web_mm: 2.54 },
    });
  });
});
