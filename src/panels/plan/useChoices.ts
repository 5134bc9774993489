/**
 * What the maker asks of the plan (plan/makersChoices.ts), kept in this browser's storage: it is the maker's, not one
 * design's. Where storage is blocked it lasts as long as the station is open.
 */
import { useState } from 'react';
import type { DisplayUnit } from '../../design/document.ts';
import { readChoices, type MakersChoices } from '../../plan/makersChoices.ts';

const KEY = 'kerfweave-plan-choices';

export interface ChosenBy {
  readonly choices: MakersChoices;
  readonly choose: (change: Partial<MakersChoices>) => void;
}

/** A choice is no edit of the design: no step of its history ends when the field is left. */
export const settle = () => undefined;

export function useChoices(unit: DisplayUnit): ChosenBy {
  // What was chosen is kept; what was not follows the unit of the design.
  const [chosen, setChosen] = useState(load);
  const choose = (change: Partial<MakersChoices>) => {
    const next = { ...chosen, ...change };
    setChosen(next);
    try {
      localStorage.setItem(KEY, JSON.stringify(next));
    } catch {
      // Blocked or full: the choice holds for now, as the fields show.
    }
  };
  return { choices: readChoices(JSON.stringify(chosen), unit), choose };
}

function load(): Partial<MakersChoices> {
  try {
    const stored: unknown = JSON.parse(localStorage.getItem(KEY) ?? '{}');
    return typeof stored === 'object' && stored !== null ? stored : {};
  } catch {
    // Blocked, or not ours: as usual.
    return {};
  }
}
