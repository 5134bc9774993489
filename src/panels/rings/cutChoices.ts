/** What is said of each kind of cut where one is chosen for a set. */
import type { CutKind } from '../../design/document.ts';

export interface CutChoice {
  readonly name: string;
  /** What becomes otherwise than usual when it is chosen. */
  readonly explained: string | null;
}

export const CUT_CHOICES: Readonly<Record<CutKind, CutChoice>> = {
  fence: { name: 'Fence turned', explained: null },
  table: {
    name: 'Table tilted',
    explained:
      'The blank lies flat on an end and the angle is the table’s tilt; the blade stops across the blank.',
  },
};
