/**
 * Edits of what a client is told and what the maker reckons with: offer, quote and choice. Pure functions from a
 * document to the next, as in edits.ts. Amounts in whole units of the currency, hours in hours.
 */
import { DEFAULT_SAW } from './defaults.ts';
import type { Choice, Design, HourKind, Offer, Quote, SlotSet } from './document.ts';

/** Changes what a client is told; `undefined` and an empty text take a field away. */
export function setOffer(design: Design, change: { readonly [F in keyof Offer]?: Offer[F] }): Design {
  const { offer: before, ...rest } = design;
  const offer = given<Offer>({ ...before, ...change });
  return offer ? { ...rest, offer } : before ? rest : design;
}

/** Changes what the maker reckons with; `undefined` and what is empty take a field away. */
export function setQuote(design: Design, change: { readonly [F in keyof Quote]?: Quote[F] }): Design {
  const { quote: before, ...rest } = design;
  const quote = given<Quote>({ ...before, ...change });
  return quote ? { ...rest, quote } : before ? rest : design;
}

/** Hours of one part of the work; null: as the plan proposes. */
export function setQuoteHours(design: Design, kind: HourKind, hours: number | null): Design {
  const { [kind]: _, ...others } = design.quote?.hours ?? {};
  return setQuote(design, { hours: hours === null ? others : { ...others, [kind]: hours } });
}

/** Price of a cubic metre of a timber, by the name that the design uses; null: not known. */
export function setTimberPrice(design: Design, timber: string, perM3: number | null): Design {
  const { [timber]: _, ...others } = design.quote?.timber_per_m3 ?? {};
  return setQuote(design, { timber_per_m3: perM3 === null ? others : { ...others, [timber]: perM3 } });
}

/** Records that a client chose the design, or takes that back. */
export function setChoice(design: Design, choice: Choice | null): Design {
  const { choice: before, ...rest } = design;
  if (choice === null) return before ? rest : design;
  const { made_on, by, note } = choice;
  return { ...rest, choice: { made_on, ...(by ? { by } : {}), ...(note ? { note } : {}) } };
}

/**
 * What of a design is for a client: the piece and the offer. Rates, notes, the saw, what was measured and done at it,
 * locks and other people's choices stay with the maker.
 */
export function forClient(design: Design): Design {
  const { quote: _, choice: __, made: ___, work: ____, notes: _____, ...rest } = design;
  return { ...rest, sets: design.sets.map(setForClient), saw: DEFAULT_SAW };
}

function setForClient(set: SlotSet): SlotSet {
  const { notes: _, locked: __, ...shown } = set;
  return shown;
}

/** Whether two designs are the same piece: the same wood, cuts and form, whatever is said of it. */
export function isSamePiece(a: Design, b: Design): boolean {
  return pieceText(a) === pieceText(b);
}

/** Whether two designs are the same to a client: the same piece, offered in the same words. */
export function isSameOffer(a: Design, b: Design): boolean {
  return isSamePiece(a, b) && a.name === b.name && canonical(a.offer ?? {}) === canonical(b.offer ?? {});
}

/** Whether nothing but offer, quote and choice tells two documents apart: one is the other after edits of these. */
export function differsInOfferAlone(a: Design, b: Design): boolean {
  const { offer: _a, quote: __a, choice: ___a, ...restOfA } = a;
  const { offer: _b, quote: __b, choice: ___b, ...restOfB } = b;
  const fields = Object.keys(restOfA) as (keyof typeof restOfA)[];
  return (
    fields.length === Object.keys(restOfB).length &&
    fields.every((field) => restOfA[field] === restOfB[field])
  );
}

function pieceText(design: Design): string {
  const { blank, sets, order, form, colors } = forClient(design);
  return canonical({ blank, sets, order, form, colors: colors ?? {} });
}

/** JSON with the keys of every object in order. */
function canonical(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonical).join(',')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? 'null';
  const fields = Object.entries(value).filter(([, field]) => field !== undefined);
  return `{${fields
    .toSorted(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, field]) => `${JSON.stringify(key)}:${canonical(field)}`)
    .join(',')}}`;
}

/** The fields that say something; undefined: none. */
function given<T extends object>(fields: T): T | undefined {
  const kept = Object.entries(fields).filter(([, value]) => {
    if (value === undefined || value === '') return false;
    return typeof value !== 'object' || value === null || Object.keys(value as object).length > 0;
  });
  return kept.length > 0 ? (Object.fromEntries(kept) as T) : undefined;
}
