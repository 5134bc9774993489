/** Random sequences of edits, held to the file's own rules. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Design, Finish, Grain, Hole, StripGrain } from '../../src/design/document.ts';
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
  setName,
  setNotes,
  setSaw,
  setUnit,
  spaceEvenly,
  updateSet,
} from '../../src/design/edits.ts';
import { faultLine } from '../../src/design/faults.ts';
import {
  addOutlinePoint,
  moveOutlinePoint,
  removeOutlinePoint,
  setForm,
  setLoop,
  toggleSmooth,
} from '../../src/design/formEdits.ts';
import { addHole, removeHole, updateHole } from '../../src/design/holeEdits.ts';
import { checkDesign, parseDesign } from '../../src/design/parse.ts';
import { serializeDesign } from '../../src/design/serialize.ts';
import { clearColor, setColor, setFinish, setGrain, setStripGrain } from '../../src/design/woodEdits.ts';
import { cylinderForm, fourRings } from '../fixtures/designs.ts';
import { SEED } from '../soak/counts.ts';
import { threeSets } from './threeSets.ts';

/** An edit with values in range. Set and slot are chosen by a share in [0, 1) of those present. */
const share = fc.double({ min: 0, max: 0.999, noNaN: true });
/** Without −0, which no file keeps and no field gives. */
const within = (low: number, high: number) =>
  fc.double({ min: low, max: high, noNaN: true }).map((value) => value + 0);
const azimuths = fc.array(within(-360, 720), { minLength: 1, maxLength: 8 });
const timber = fc.constantFrom('black-walnut', 'hard-maple', 'wenge', 'teak', 'soft-maple');
const stripGrain = fc.constantFrom<StripGrain>('length', 'depth');
const layers = fc.array(
  fc.record(
    { timber, thickness_mm: within(0.1, 5), grain: stripGrain },
    { requiredKeys: ['timber', 'thickness_mm'] },
  ),
  { minLength: 1, maxLength: 4 },
);
const setFields = fc.record(
  {
    angle_deg: within(1, 90),
    center_mm: within(-50, 400),
    fence_azimuths_deg: azimuths,
    high_side: fc.constantFrom('fence' as const, 'entry' as const),
    kerf_mm: within(0.1, 10),
    web_mm: within(0, 15),
    strip: fc.record({ layers }),
    locked: fc.boolean(),
    notes: fc.constantFrom('', 'from the offcut'),
  },
  { requiredKeys: [] },
);
const blankFields = fc.record(
  {
    shape: fc.constantFrom(
      'square' as const,
      'rectangle' as const,
      'hexagon' as const,
      'octagon' as const,
      'round' as const,
    ),
    width_mm: within(20, 200),
    length_mm: within(20, 400),
    depth_mm: within(20, 200),
    timber,
  },
  { requiredKeys: [] },
);

const grainFields: fc.Arbitrary<Grain> = fc.record(
  {
    along: fc.constantFrom('axis' as const, 'across' as const),
    azimuth_deg: within(-360, 360),
    pith_mm: fc.tuple(within(-200, 200), within(-200, 200)),
  },
  { requiredKeys: ['along'] },
);
const hole: fc.Arbitrary<Hole> = fc.record(
  {
    from: fc.constantFrom('head' as const, 'foot' as const, 'side' as const),
    diameter_mm: within(0.5, 60),
    depth_mm: fc.option(within(0.5, 300)),
    offset_mm: within(-40, 40),
    azimuth_deg: within(-360, 360),
    z_mm: within(0, 200),
  },
  { requiredKeys: ['from', 'diameter_mm', 'depth_mm'] },
);

const pick = <T>(values: readonly T[], at: number): T => values[Math.floor(at * values.length)];
const setAt = (design: Design, at: number): string => pick(design.sets, at)?.id ?? 'none';

type Edit = (design: Design) => Design;

const edit: fc.Arbitrary<Edit> = fc.oneof(
  blankFields.map(
    (fields): Edit =>
      (d) =>
        setBlank(d, fields),
  ),
  setFields.map(
    (fields): Edit =>
      (d) =>
        d.order.length > 150 ? d : addSet(d, fields),
  ),
  share.map(
    (at): Edit =>
      (d) =>
        removeSet(d, setAt(d, at)),
  ),
  share.map(
    (at): Edit =>
      (d) =>
        d.order.length > 150 ? d : duplicateSet(d, setAt(d, at)),
  ),
  fc.tuple(share, setFields).map(
    ([at, fields]): Edit =>
      (d) =>
        updateSet(d, setAt(d, at), fields),
  ),
  share.map(
    (at): Edit =>
      (d) =>
        mirrorSet(d, setAt(d, at)),
  ),
  share.map(
    (at): Edit =>
      (d) =>
        renameSet(d, setAt(d, at), `${nextSetId(d)}-b`),
  ),
  fc.tuple(share, within(0, 360)).map(
    ([at, azimuth]): Edit =>
      (d) =>
        addSlot(d, setAt(d, at), azimuth),
  ),
  share.map(
    (at): Edit =>
      (d) =>
        removeSlot(d, pick(d.order, at) ?? 'none'),
  ),
  fc.tuple(share, fc.integer({ min: -2, max: 60 })).map(
    ([at, index]): Edit =>
      (d) =>
        moveInOrder(d, pick(d.order, at) ?? 'none', index),
  ),
  fc.array(share, { maxLength: 6 }).map(
    (all): Edit =>
      (d) =>
        spaceEvenly(
          d,
          all.map((at) => setAt(d, at)),
        ),
  ),
  fc.constant<Edit>(resetOrder),
  fc.constantFrom<'in' | 'mm'>('in', 'mm').map(
    (unit): Edit =>
      (d) =>
        setUnit(d, unit),
  ),
  fc.constantFrom('', 'Lantern foot').map(
    (name): Edit =>
      (d) =>
        setName(d, name),
  ),
  fc.constantFrom('', 'dry stock only').map(
    (notes): Edit =>
      (d) =>
        setNotes(d, notes),
  ),
  fc.tuple(share, fc.boolean()).map(
    ([at, locked]): Edit =>
      (d) =>
        setLocked(d, setAt(d, at), locked),
  ),
  fc.option(grainFields).map(
    (grain): Edit =>
      (d) =>
        setGrain(d, grain),
  ),
  fc.tuple(share, fc.integer({ min: 0, max: 2 }), fc.option(stripGrain)).map(
    ([at, layer, grain]): Edit =>
      (d) =>
        setStripGrain(d, setAt(d, at), layer, grain),
  ),
  fc.tuple(timber, fc.constantFrom('#a0b1c2', '#FFFFFF')).map(
    ([name, color]): Edit =>
      (d) =>
        setColor(d, name, color),
  ),
  timber.map(
    (name): Edit =>
      (d) =>
        clearColor(d, name),
  ),
  fc.option(fc.constantFrom<Finish>('raw', 'oiled', 'gloss')).map(
    (finish): Edit =>
      (d) =>
        setFinish(d, finish),
  ),
  hole.map(
    (fields): Edit =>
      (d) =>
        addHole(d, fields),
  ),
  fc.tuple(share, hole).map(
    ([at, fields]): Edit =>
      (d) =>
        updateHole(d, Math.floor(at * (d.form?.holes?.length ?? 0)), fields),
  ),
  share.map(
    (at): Edit =>
      (d) =>
        removeHole(d, Math.floor(at * (d.form?.holes?.length ?? 0))),
  ),
  fc.integer({ min: 1, max: 5 }).map(
    (max_open_slots): Edit =>
      (d) =>
        setSaw(d, { max_open_slots }),
  ),
);

const point = fc.record({ z_mm: within(0, 200), r_mm: within(-5, 60) });
const formEdit: fc.Arbitrary<Edit> = fc.oneof(
  fc.constantFrom<Edit>(
    (d) => setForm(d, null),
    (d) => setForm(d, cylinderForm(100, 30)),
    (d) => setLoop(d, true),
    (d) => setLoop(d, false),
  ),
  fc.tuple(share, point).map(
    ([at, { z_mm, r_mm }]): Edit =>
      (d) =>
        addOutlinePoint(d, Math.floor(at * (d.form?.outline.length ?? 0)), { z_mm, r_mm: Math.abs(r_mm) }),
  ),
  fc.tuple(share, point).map(
    ([at, { z_mm, r_mm }]): Edit =>
      (d) =>
        moveOutlinePoint(d, Math.floor(at * (d.form?.outline.length ?? 0)), z_mm, r_mm),
  ),
  share.map(
    (at): Edit =>
      (d) =>
        removeOutlinePoint(d, Math.floor(at * (d.form?.outline.length ?? 0))),
  ),
  share.map(
    (at): Edit =>
      (d) =>
        toggleSmooth(d, Math.floor(at * (d.form?.outline.length ?? 0))),
  ),
);

describe('any sequence of edits', () => {
  const faultsOf = (design: Design): string[] => {
    const result = checkDesign(design);
    return result.ok ? [] : result.faults.map(faultLine);
  };

  it('with values in range leaves a document that reads back as itself', () => {
    fc.assert(
      fc.property(fc.array(edit, { minLength: 1, maxLength: 25 }), (edits) => {
        const edited = edits.reduce((design, apply) => apply(design), threeSets);
        expect(faultsOf(edited)).toEqual([]);
        expect(parseDesign(serializeDesign(edited))).toEqual({ ok: true, design: edited });
      }),
      { seed: SEED, numRuns: 300 },
    );
  });

  it('of the form can only be wrong in the course of the outline', () => {
    let sound = 0;
    fc.assert(
      fc.property(fc.array(formEdit, { minLength: 1, maxLength: 25 }), (edits) => {
        // As the app does: an edit that the check refuses is shown with its reason and not kept.
        edits.reduce((design, apply) => {
          const edited = apply(design);
          const faults = faultsOf(edited);
          for (const fault of faults) expect(fault).toMatch(/^form\.outline: /);
          if (faults.length > 0) return design;
          sound++;
          return edited;
        }, fourRings());
      }),
      { seed: SEED, numRuns: 200 },
    );
    expect(sound).toBeGreaterThan(500);
  });
});
