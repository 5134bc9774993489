/** A design for the tests of edits. */
import type { Design } from '../../src/design/document.ts';
import { fourRings, slotSet } from '../fixtures/designs.ts';

/** Three sets of two slots, with an order of its own. */
export const threeSets: Design = fourRings({
  sets: [10, 50, 200].map((center_mm, n) =>
    slotSet({ id: `S${n + 1}`, center_mm, fence_azimuths_deg: [0, 180] }),
  ),
  order: ['S3.1', 'S1.1', 'S2.1', 'S3.2', 'S1.2', 'S2.2'],
});
