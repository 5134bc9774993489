/** The maker's own sum: timber, hours, markup; the price that comes of it; and the one page to hand over. */
import { HOUR_KINDS, type Design, type Quote } from '../../design/document.ts';
import * as limit from '../../design/limits.ts';
import { setOffer, setQuote, setQuoteHours, setTimberPrice } from '../../design/offerEdits.ts';
import { NumberField } from '../../panels/fields/NumberField.tsx';
import { moneyText } from '../../plan/money.ts';
import { HOUR_NAMES, hoursOf, quoteSum } from '../../plan/quote.ts';
import { useApp } from '../AppContext.ts';
import { amountQuantity, HOURS, PERCENT } from './amounts.ts';
import { ratesOf, rememberMaker } from './maker.ts';
import { QuotePage } from './QuotePage.tsx';
import { currencyOf, firstQuote, useCurrency } from './useCurrency.ts';
import { useEdits } from './useEdits.ts';
import { CurrencyRow, Extras, Sum, TimberPrices } from './QuoteParts.tsx';

/** The rates of a design that has none yet, in the currency that its price has already. */
function beginning({ offer }: Design): Quote {
  const quote = firstQuote();
  return { ...quote, currency: offer?.currency ?? quote.currency };
}

export function QuoteSection() {
  const design = useApp((state) => state.design);
  const glueUps = useApp((state) => {
    const report = state.reports.get(state.design);
    if (report?.state === 'ready') return report.plan.sessions.sessions.length;
    return state.lastReady?.plan.sessions.sessions.length ?? state.design.order.length;
  });
  const newer = useApp((state) => state.document.newer !== null);
  const { edit, endGesture } = useEdits();
  const setCurrency = useCurrency();
  // A design without a quote begins with the rates used last; the first change writes them into it.
  const rated: Design = design.quote ? design : { ...design, quote: beginning(design) };
  const change = (what: string, next: (from: Design) => Design, gesture?: string) => {
    edit(
      `quote: ${what}`,
      (current) => next(current.quote ? current : { ...current, quote: beginning(current) }),
      gesture ?? `quote ${what}`,
    );
  };
  const settle = () => endGesture();
  const set = (what: string, fields: Partial<Quote>, gesture?: string) => {
    change(what, (from) => setQuote(from, fields), gesture);
    rememberMaker({ quote: ratesOf({ ...rated.quote, ...fields }) });
  };
  const currency = currencyOf(rated);
  const money = amountQuantity(currency);
  const quote = rated.quote ?? {};
  const sum = quoteSum({ ...rated, quote: { ...quote, currency } }, glueUps);
  const hours = hoursOf(rated, glueUps);
  if (newer) return <p className="lede">Open for reading only: a price is reckoned in a copy.</p>;
  return (
    <>
      <p className="lede">
        Yours alone: neither the client’s page nor the quote shows any of it but the price.
      </p>
      <CurrencyRow value={currency} onChange={setCurrency} />
      <NumberField
        label="An hour of your work"
        value={quote.hour_rate ?? 0}
        quantity={money}
        min={0}
        max={limit.MAX_AMOUNT}
        onChange={(hour_rate, gesture) => set('rate', { hour_rate }, gesture)}
        onSettle={settle}
      />
      <h3>Hours</h3>
      {HOUR_KINDS.map((kind) => (
        <NumberField
          key={kind}
          label={HOUR_NAMES[kind]}
          value={hours[kind]}
          quantity={HOURS}
          min={0}
          max={limit.MAX_HOURS}
          onChange={(value, gesture) =>
            change(`hours, ${kind}`, (from) => setQuoteHours(from, kind, value), gesture)
          }
          onSettle={settle}
        />
      ))}
      <p className="lede">
        {quote.hours ? (
          <button
            type="button"
            className="button"
            onClick={() => change('hours', (from) => setQuote(from, { hours: undefined }))}
          >
            Hours as the plan proposes
          </button>
        ) : (
          'As the plan proposes: a rough start from cuts, glue-ups and size. Type your own over them.'
        )}
      </p>
      <h3>Timber</h3>
      <TimberPrices
        design={rated}
        currency={currency}
        onChange={(timber, perM3, gesture) => {
          change(`price of ${timber}`, (from) => setTimberPrice(from, timber, perM3), gesture);
          rememberMaker({
            quote: ratesOf({ ...quote, timber_per_m3: { ...quote.timber_per_m3, [timber]: perM3 } }),
          });
        }}
        onSettle={settle}
      />
      <Extras
        extras={quote.extras ?? []}
        currency={currency}
        onChange={(extras, gesture) => change('extras', (from) => setQuote(from, { extras }), gesture)}
        onSettle={settle}
      />
      <h3>On top</h3>
      <NumberField
        label="Markup"
        value={quote.markup_percent ?? 0}
        quantity={PERCENT}
        min={0}
        max={limit.MAX_MARKUP_PERCENT}
        onChange={(markup_percent, gesture) => set('markup', { markup_percent }, gesture)}
        onSettle={settle}
      />
      <NumberField
        label="Tax, if you add it"
        value={quote.tax_percent ?? 0}
        quantity={PERCENT}
        min={0}
        max={limit.MAX_TAX_PERCENT}
        onChange={(tax_percent, gesture) => set('tax', { tax_percent }, gesture)}
        onSettle={settle}
      />
      <NumberField
        label="Rounded up to"
        value={quote.round_to ?? 0}
        quantity={money}
        min={0}
        max={limit.MAX_AMOUNT}
        onChange={(round_to, gesture) => set('rounding', { round_to }, gesture)}
        onSettle={settle}
      />
      <Sum sum={sum} />
      <button
        type="button"
        className="button"
        disabled={
          sum.price === 0 || (design.offer?.price === sum.price && design.offer.currency === sum.currency)
        }
        onClick={() =>
          edit('offer: price', (current) => setOffer(current, { price: sum.price, currency: sum.currency }))
        }
      >
        Offer it for {moneyText(sum.price, sum.currency)}
      </button>
      <QuotePage />
    </>
  );
}
