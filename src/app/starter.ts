/** The design that is open on a first visit, and the empty blank that a new one starts from. Lengths mm. */
import firstDesign from '../../assets/designs/01-lantern-candle-stick.json?raw';
import { DEFAULT_SAW } from '../design/defaults.ts';
import { DESIGN_FORMAT, type Design, type DisplayUnit, type Saw } from '../design/document.ts';
import { CURRENT_VERSION } from '../design/migrations.ts';
import { parseDesign } from '../design/parse.ts';
import { isSameSaw } from '../design/sawEdits.ts';
import { unitOfLanguages } from './regions.ts';

/** Read like any file, so that a starter that is no valid design stops the app at once. In the unit of the maker's region. */
export function firstStarter(languages: readonly string[] = navigator.languages): Design {
  const result = parseDesign(firstDesign);
  if (!result.ok) throw new Error(`the first starter design: ${result.faults[0]?.message ?? 'wrong'}`);
  return { ...result.design, unit: unitOfLanguages(languages) };
}

/** A blank of a common size, nothing cut and nothing turned, for this saw. */
export function emptyDesign(unit: DisplayUnit, saw: Saw = DEFAULT_SAW): Design {
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
    saw: isSameSaw(saw, DEFAULT_SAW) ? usualSaw(unit) : saw,
  };
}

/** As a file that says nothing of the saw; in round numbers for one who works in millimetres. */
function usualSaw(unit: DisplayUnit): Saw {
  return unit === 'in' ? DEFAULT_SAW : { ...DEFAULT_SAW, strip_tolerance_mm: 0.05 };
}
