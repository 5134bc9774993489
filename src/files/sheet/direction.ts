/**
 * Text in both directions: the stretches of a line in the order in which they stand from left to right (Unicode Standard
 * Annex #9, by bidi-js). The letters of a stretch stay in the order in which they are read: the font turns them as it shapes.
 */
import bidiFactory from 'bidi-js';

export interface Stretch {
  readonly text: string;
  readonly rightToLeft: boolean;
}

/** Letters that are written from right to left: Hebrew, Arabic, Syriac, Thaana, N'Ko and their presentation forms. */
const RIGHT_TO_LEFT = /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufeff]/;

const bidi = bidiFactory();

/** A line that has no letter from the right is one stretch. */
export function stretchesOf(line: string): Stretch[] {
  if (!RIGHT_TO_LEFT.test(line)) return [{ text: line, rightToLeft: false }];
  const embedding = bidi.getEmbeddingLevels(line);
  const mirrored = bidi.getMirroredCharactersMap(line, embedding.levels);
  const stretches: { text: string; rightToLeft: boolean; next: number }[] = [];
  for (const i of bidi.getReorderedIndices(line, embedding)) {
    const rightToLeft = embedding.levels[i] % 2 === 1;
    const letter = mirrored.get(i) ?? line[i];
    const last = stretches.at(-1);
    if (last?.rightToLeft === rightToLeft && last.next === i) {
      last.text = rightToLeft ? letter + last.text : last.text + letter;
      last.next += rightToLeft ? -1 : 1;
    } else stretches.push({ text: letter, rightToLeft, next: rightToLeft ? i - 1 : i + 1 });
  }
  return stretches;
}
