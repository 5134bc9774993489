/** The designs that the bench measures: 4, 24 and 96 slots on one candle stick, and a hollow bowl of eight. */
import type { Design, Form, SlotSet } from '../../src/design/document.ts';
import { fourRings, hollowForm, slotSet } from '../fixtures/designs.ts';

/** Facets and rows of every turned solid in the bench. */
export const RESOLUTION = { facets: 256, rows: 128 } as const;

export interface BenchCase {
  readonly label: string;
  readonly design: Design;
  readonly turned: boolean;
  /** Whether the chained procedure of three-bvh-csg is measured too. */
  readonly chain: boolean;
}

/**
 * Sets of four quarter-turns at 45°, 24 mm apart along a stick as long as they need: every ring crosses its
 * own set and the neighbours, so the work grows with the number of slots and not with its square or cube.
 */
export function stick(slots: 4 | 24 | 96): Design {
  const count = slots / 4;
  const length_mm = Math.max(203.2, 24 * (count - 1) + 83.2);
  const sets: SlotSet[] = Array.from({ length: count }, (_, i) =>
    slotSet({ id: `S${i + 1}`, center_mm: length_mm / 2 + 24 * (i - (count - 1) / 2) }),
  );
  return fourRings({ name: `Stick of ${slots} slots`, length_mm, sets, form: stickForm(length_mm) });
}

function stickForm(length_mm: number): Form {
  return {
    outline: [
      { z_mm: 0, r_mm: 0 },
      { z_mm: 0, r_mm: 30 },
      { z_mm: length_mm / 2, r_mm: 18, smooth: true },
      { z_mm: length_mm, r_mm: 22 },
      { z_mm: length_mm, r_mm: 0 },
    ],
  };
}

/** The same number of slots on the short stick: of 96, 5 mm apart, each strip is crossed by nearly every other. */
export function crowdedStick(slots: 24 | 96): Design {
  const count = slots / 4;
  const sets: SlotSet[] = Array.from({ length: count }, (_, i) =>
    slotSet({ id: `S${i + 1}`, center_mm: 101.6 + (i / (count - 1) - 0.5) * 120 }),
  );
  return fourRings({ name: `Crowded stick of ${slots} slots`, sets });
}

export function bowl(): Design {
  const length_mm = 70;
  return fourRings({
    name: 'Hollow bowl of eight slots',
    section: { shape: 'square', width_mm: 160 },
    length_mm,
    sets: [
      slotSet({ center_mm: 30, kerf_mm: 2 }),
      slotSet({ id: 'S2', angle_deg: 60, center_mm: 40, kerf_mm: 2 }),
    ],
    form: hollowForm(length_mm, 76, 6, 8),
  });
}

export const CASES: readonly BenchCase[] = [
  { label: 'A  4 slots, block', design: stick(4), turned: false, chain: true },
  { label: 'B  4 slots, turned', design: stick(4), turned: true, chain: true },
  { label: 'C  24 slots, block', design: stick(24), turned: false, chain: true },
  { label: 'C  24 slots, turned', design: stick(24), turned: true, chain: true },
  { label: 'D  96 slots, block', design: stick(96), turned: false, chain: false },
  { label: 'D  96 slots, turned', design: stick(96), turned: true, chain: false },
  { label: 'E  8 slots, hollow bowl', design: bowl(), turned: true, chain: false },
];
