/**
 * What the maker asks the plan, and no design holds: how far off is too far, between which humidities the piece will
 * live, which boards are on the rack. Kept on the device, given to the command line as options. Millimetres, %.
 */
import type { DisplayUnit } from '../design/document.ts';
import type { Board } from './strips.ts';

export interface MakersChoices {
  /** A crossing off by more than this is off. */
  readonly offBy_mm: number;
  readonly dry_pct: number;
  readonly damp_pct: number;
  readonly board: Board;
}

/** Half a millimetre, a heated room in winter and summer, a common short board; round in the unit of the design. */
export function usualChoices(unit: DisplayUnit): MakersChoices {
  const inches = unit === 'in';
  return {
    offBy_mm: inches ? 0.508 : 0.5,
    dry_pct: 35,
    damp_pct: 65,
    board: inches
      ? { length_mm: 609.6, width_mm: 101.6, thickness_mm: 25.4 }
      : { length_mm: 600, width_mm: 100, thickness_mm: 25 },
  };
}

/** Between which values each of them makes sense. */
export const CHOICE_LIMITS = {
  offBy_mm: [0.001, 100],
  humidity_pct: [1, 99],
  board: { length_mm: [1, 10_000], width_mm: [1, 2000], thickness_mm: [0.1, 500] },
} as const;

/** What a stored text says as far as it makes sense, the rest as usual. */
export function readChoices(text: string | null, unit: DisplayUnit): MakersChoices {
  const usual = usualChoices(unit);
  if (text === null) return usual;
  let stored: unknown;
  try {
    stored = JSON.parse(text);
  } catch {
    // Cut short or not ours: questions can be asked again.
    return usual;
  }
  type Limits = readonly [least: number, most: number];
  const value = (from: unknown, key: string, [least, most]: Limits, otherwise: number): number => {
    const found = typeof from === 'object' && from !== null ? (from as Record<string, unknown>)[key] : null;
    return typeof found === 'number' && found >= least && found <= most ? found : otherwise;
  };
  const board = typeof stored === 'object' && stored !== null ? (stored as { board?: unknown }).board : null;
  return {
    offBy_mm: value(stored, 'offBy_mm', CHOICE_LIMITS.offBy_mm, usual.offBy_mm),
    dry_pct: value(stored, 'dry_pct', CHOICE_LIMITS.humidity_pct, usual.dry_pct),
    damp_pct: value(stored, 'damp_pct', CHOICE_LIMITS.humidity_pct, usual.damp_pct),
    board: {
      length_mm: value(board, 'length_mm', CHOICE_LIMITS.board.length_mm, usual.board.length_mm),
      width_mm: value(board, 'width_mm', CHOICE_LIMITS.board.width_mm, usual.board.width_mm),
      thickness_mm: value(board, 'thickness_mm', CHOICE_LIMITS.board.thickness_mm, usual.board.thickness_mm),
    },
  };
}
