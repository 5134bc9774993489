/** Designs whose sheets are checked: inches and millimetres, one to three angles, layered strips, odd blanks. */
import { readFontFiles } from '../../../src/cli/fonts.ts';
import type { Design } from '../../../src/design/document.ts';
import type { PaperName } from '../../../src/files/sheet/frame.ts';
import { shopSheet } from '../../../src/files/sheet/sheet.ts';
import { cylinderForm, fourRings, hollowForm, slotSet } from '../../fixtures/designs.ts';
import { readPdf, type ReadPdf } from './readPdf.ts';

export const CANDLE_STICK: Design = fourRings();

export const BOWL: Design = fourRings({
  name: 'Bowl with eight rings, 7½″',
  unit: 'mm',
  section: { shape: 'octagon', width_mm: 180 },
  length_mm: 70,
  saw: { max_open_slots: 2, stop_side: 'obtuse', clamp_minutes: 45 },
  sets: [
    slotSet({
      angle_deg: 72.5,
      center_mm: 35,
      high_side: 'entry',
      fence_azimuths_deg: [0, 45, 90, 135],
      kerf_mm: 3,
      web_mm: 6,
      strip: {
        layers: [
          { timber: 'wenge', thickness_mm: 0.5 },
          { timber: 'hard-maple', thickness_mm: 2.1 },
          { timber: 'wenge', thickness_mm: 0.5 },
        ],
      },
    }),
    slotSet({
      id: 'S2',
      angle_deg: 75,
      center_mm: 38,
      fence_azimuths_deg: [22.5, 112.5, 202.5, 292.5],
      kerf_mm: 2,
      web_mm: 4,
      strip: { layers: [{ timber: 'african-padauk', thickness_mm: 2 }] },
    }),
  ],
  form: hollowForm(70, 85, 8, 12),
});

export const HANDLE: Design = fourRings({
  name: 'Handle, round blank',
  unit: 'mm',
  section: { shape: 'round', width_mm: 40 },
  length_mm: 420,
  sets: [
    slotSet({ angle_deg: 90, center_mm: 100, fence_azimuths_deg: [0], kerf_mm: 2, web_mm: 3 }),
    slotSet({ id: 'S2', angle_deg: 30, center_mm: 250, fence_azimuths_deg: [0, 180], kerf_mm: 2, web_mm: 3 }),
  ],
  form: cylinderForm(420, 15),
});

const made = new Map<string, Promise<{ bytes: Uint8Array; pdf: ReadPdf }>>();

/** The sheet of a design, made once per run of the tests. */
export function sheetOf(design: Design, paper: PaperName) {
  const key = `${design.name} ${paper}`;
  let sheet = made.get(key);
  if (!sheet) {
    sheet = shopSheet(design, { paper, fonts: readFontFiles() }).then(async (bytes) => ({
      bytes,
      pdf: await readPdf(bytes),
    }));
    made.set(key, sheet);
  }
  return sheet;
}

/** Twenty-four rings in inches, three sets at a time whose marks lie 2 mm apart. */
export const CROWDED: Design = fourRings({
  name: 'Twenty-four rings, 2 mm apart',
  length_mm: 254,
  sets: [0, 1, 2, 3, 4, 5].map((i) =>
    slotSet({
      id: `S${i + 1}`,
      center_mm: 101.6 + i * 2 + (i > 2 ? 40 : 0),
      angle_deg: i > 2 ? 60 : 45,
    }),
  ),
  form: cylinderForm(254, 30),
  saw: { max_open_slots: 4 },
});

/** Slots at every sixth of a round blank, two sets whose marks nearly meet. */
export const ROUND: Design = fourRings({
  name: 'Rings all round',
  unit: 'mm',
  section: { shape: 'round', width_mm: 60 },
  length_mm: 160,
  sets: [70, 71.5].map((center_mm, i) =>
    slotSet({
      id: `S${i + 1}`,
      center_mm,
      angle_deg: 60,
      fence_azimuths_deg: [0, 60, 120, 180, 240, 300],
    }),
  ),
  form: cylinderForm(160, 26),
});
