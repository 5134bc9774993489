/**
 * Texts of a design as they may be shown beside other words. Marks that turn the direction of writing round or close
 * letters off (Unicode Standard Annex 9, section 2) reach beyond a text into the words after it, and make them say
 * another thing. The letters of any language need none of them; the plain marks U+200E, U+200F and U+061C stay.
 */
export function withoutTurns(text: string): string {
  return text.replace(/[\u202a-\u202e\u2066-\u2069]/g, '');
}
