/** The design that is open on a first visit. */
import type { Design } from '../design/document.ts';

export const STARTER: Design = {
  format: 'kerfweave-design',
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
  saw: {
    stop_side: 'acute',
    fence_min_deg: 30,
    fence_max_deg: 90,
    max_cut_height_mm: 150,
    strip_overhang_mm: 3,
    angle_tolerance_deg: 0.1,
    stop_tolerance_mm: 0.1,
    strip_tolerance_mm: 0.0508,
    max_open_slots: 1,
    clamp_minutes: 20,
  },
};
