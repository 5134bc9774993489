/**
 * The currency of amounts. It is the maker's: the edited design's rates and the price of every choice that has one go over
 * to it together, the figures as they are, and it is remembered for the next design.
 */
import { useCallback } from 'react';
import type { Design, Offer, Quote } from '../../design/document.ts';
import { setOffer, setQuote } from '../../design/offerEdits.ts';
import { DEFAULT_CURRENCY } from '../../plan/quote.ts';
import type { Work } from '../../panels/bench.ts';
import { currencyOfLanguages } from './localeCurrency.ts';
import { rememberedMaker, rememberMaker } from './maker.ts';
import { useEdits } from './useEdits.ts';

/** The currency of the design, or else the one that a design begins with. */
export function currencyOf({ offer, quote }: { offer?: Offer; quote?: Pick<Quote, 'currency'> }): string {
  // Rates that name no currency are in the one that was meant before browsers were asked.
  return offer?.currency ?? quote?.currency ?? (quote ? DEFAULT_CURRENCY : firstQuote().currency);
}

/**
 * What a design without a quote begins with: the rates used last, in the currency used last, else in that of the browser's
 * region. The currency is always said, so that amounts mean the same in another browser.
 */
export function firstQuote(): Quote & { readonly currency: string } {
  const { quote } = rememberedMaker();
  const { currency = Object.keys(quote).length > 0 ? DEFAULT_CURRENCY : ownCurrency() } = quote;
  return { ...quote, currency };
}

function ownCurrency(): string {
  return currencyOfLanguages(navigator.languages) ?? DEFAULT_CURRENCY;
}

/** The work with its amounts in another currency; a design that has no rates yet begins with `rates`. */
export function inCurrency(work: Work, code: string, rates: Quote): Work {
  const priced = (design: Design) =>
    design.offer?.price === undefined ? design : setOffer(design, { currency: code });
  const rated = (design: Design) => setQuote(design, { ...rates, ...design.quote, currency: code });
  return {
    ...work,
    variants: work.variants.map((variant, i) => {
      const design = priced(variant.design);
      return { ...variant, design: i === work.active || design.quote ? rated(design) : design };
    }),
  };
}

export function useCurrency(): (code: string) => void {
  const { editWork } = useEdits();
  return useCallback(
    (code) => {
      const { quote } = rememberedMaker();
      if (editWork('currency', (work) => inCurrency(work, code, quote)) === null)
        rememberMaker({ quote: { ...quote, currency: code } });
    },
    [editWork],
  );
}
