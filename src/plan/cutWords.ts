/** What the parts of a set-up are called, by the kind of cut. */
import type { CutKind } from '../design/document.ts';

export interface CutWords {
  /** What the blank lies against. */
  readonly wall: 'fence' | 'ledge';
  /** What the place of the kerf is measured from. */
  readonly stop: 'stop' | 'ledge';
  /** The angle that is set. */
  readonly angle: string;
}

export const CUT_WORDS: Readonly<Record<CutKind, CutWords>> = {
  fence: { wall: 'fence', stop: 'stop', angle: 'Fence to blade' },
  table: { wall: 'ledge', stop: 'ledge', angle: 'Table tilt' },
};
