/** What the sheet says of one cut, by its kind: how the blank lies, what is set, what is marked. */
import { fenceEntry } from './fenceCut.ts';
import type { Cut, SheetSource } from './source.ts';
import { tableEntry } from './tableCut.ts';

/** A setting or a size: its name, its value. */
export type Row = readonly [label: string, value: string];

export interface CutEntry {
  /** For the title. */
  readonly lies: readonly string[];
  /** Under the drawing. */
  readonly seen: string;
  /** At the dimension of the drawing, from stop or ledge to the middle of the kerf. */
  readonly stop: string;
  /** The three settings, each with a note. */
  readonly settings: readonly (readonly [label: string, value: string, note: string])[];
  readonly rows: readonly Row[];
}

export function entryOf(cut: Cut, { design }: SheetSource): CutEntry {
  const { setup, made } = cut;
  switch (setup.cut) {
    case 'fence':
      return fenceEntry(setup, made, design);
    case 'table':
      return tableEntry(setup, made, design);
  }
}
