/** Names of timbers as they stand in a sentence or where there is little room. English as the trade writes it. */
import { timberById } from './timbers.ts';

/** First words that are names of places. */
const OF_A_PLACE = /^(African|American|Honduran|Indian)\b/;

/** The name of a timber by its id; the id itself where no timber has it. */
export function timberName(id: string): string {
  return timberById(id)?.name ?? id;
}

/** Without its second name: `Hard maple` of `Hard (sugar) maple`. */
export function shortTimberName(id: string): string {
  return timberName(id).replace(/ \([^)]*\)/, '');
}

/** `hard maple`, `African padauk`: a timber's name in the middle of a sentence. */
export function inSentence(name: string): string {
  return OF_A_PLACE.test(name) ? name : name.charAt(0).toLowerCase() + name.slice(1);
}
