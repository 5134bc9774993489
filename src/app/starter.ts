/** The design that is open on a first visit, and the empty blank that a new one starts from. Lengths mm. */
import { DEFAULT_SAW } from '../design/defaults.ts';
import { DESIGN_FORMAT, type Design, type DisplayUnit } from '../design/document.ts';

export const STARTER: Design = {
  format: DESIGN_FORMAT,
  version: 1,
  name: 'Four rings on a candle stick',
  unit: 'in',
  blank: { section: { shape: 'square', width_mm: 76.2 }, length_mm: 203.2, timber: 'black-walnut' },
  sets: [
    {
      id: 'S1',
      angle_deg: 45,
      center_mm: 101.6,
      fence_azimuths_deg: [0, 90, 180, 270],
      high_side: 'fence',
      kerf_mm: 1.016,
      web_mm: 2.54,
      strip: { layers: [{ timber: 'hard-maple', thickness_mm: 1.016 }] },
    },
  ],
  order: ['S1.1', 'S1.2', 'S1.3', 'S1.4'],
  form: {
    outline: [
      { z_mm: 0, r_mm: 0 },
      { z_mm: 0, r_mm: 30 },
      { z_mm: 101.6, r_mm: 18, smooth: true },
      { z_mm: 203.2, r_mm: 22 },
      { z_mm: 203.2, r_mm: 0 },
    ],
  },
  saw: DEFAULT_SAW,
};

/** A blank of a common size, nothing cut and nothing turned. */
export function emptyDesign(unit: DisplayUnit): Design {
  return {
    format: DESIGN_FORMAT,
    version: STARTER.version,
    name: 'New design',
    unit,
    blank: {
      section: { shape: 'square', width_mm: unit === 'in' ? 76.2 : 75 },
      length_mm: unit === 'in' ? 203.2 : 200,
      timber: 'black-walnut',
    },
    sets: [],
    order: [],
    form: null,
    saw: DEFAULT_SAW,
  };
}
