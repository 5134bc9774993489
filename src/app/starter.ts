/** The design that is open on a first visit, and the empty blank that a new one starts from. Lengths mm. */
import firstDesign from '../../assets/designs/01-lantern-candle-stick.json?raw';
import { DEFAULT_SAW } from '../design/defaults.ts';
import { DESIGN_FORMAT, type Design, type DisplayUnit } from '../design/document.ts';
import { CURRENT_VERSION } from '../design/migrations.ts';
import { parseDesign } from '../design/parse.ts';

/** Read like any file, so that a starter that is no valid design stops the app at once. */
export function firstStarter(): Design {
  const result = parseDesign(firstDesign);
  if (!result.ok) throw new Error(`the first starter design: ${result.faults[0]?.message ?? 'wrong'}`);
  return result.design;
}

/** A blank of a common size, nothing cut and nothing turned. */
export function emptyDesign(unit: DisplayUnit): Design {
  return {
    format: DESIGN_FORMAT,
    version: CURRENT_VERSION,
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
