/** The maker's own sum: timber, hours, markup; the price that comes of it; and the one page to hand over. */
import { FileDown, Plus, X } from 'lucide-react';
import { useState } from 'react';
import { HOUR_KINDS, type Design, type Quote } from '../../design/document.ts';
import * as limit from '../../design/limits.ts';
import { setOffer, setQuote, setQuoteHours, setTimberPrice } from '../../design/offerEdits.ts';
import { dateOf } from '../../design/dates.ts';
import { download, fileStemOf } from '../../files/download.ts';
import type { PaperName } from '../../files/sheet/frame.ts';
import { NumberField } from '../../panels/fields/NumberField.tsx';
import { Segmented } from '../../panels/fields/Segmented.tsx';
import { moneyText } from '../../plan/money.ts';
import { HOUR_NAMES, hoursOf, quoteSum, timberNeeds, type QuoteSum } from '../../plan/quote.ts';
import { timberById } from '../../timber/timbers.ts';
import { useApp } from '../AppContext.ts';
import { amountQuantity, BOARD_FEET_PER_M3, HOURS, PERCENT } from './amounts.ts';
import { currencyOf } from './Choices.tsx';
import { ratesOf, rememberedMaker, rememberMaker } from './maker.ts';
import { TextRow } from './TextRow.tsx';

export function QuoteSection() {
  const design = useApp((state) => state.design);
  const glueUps = useApp((state) => {
    const report = state.reports.get(state.design);
    if (report?.state === 'ready') return report.plan.sessions.sessions.length;
    return state.lastReady?.plan.sessions.sessions.length ?? state.design.order.length;
  });
  const edit = useApp((state) => state.edit);
  const endGesture = useApp((state) => state.endGesture);
  // A design without a quote begins with the rates used last; the first change writes them into it.
  const rated: Design = design.quote ? design : { ...design, quote: rememberedMaker().quote };
  const change = (what: string, next: (from: Design) => Design, gesture?: string) => {
    edit(
      `quote: ${what}`,
      (current) => next(current.quote ? current : { ...current, quote: rememberedMaker().quote }),
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
  return (
    <>
      <p className="lede">
        Yours alone: neither the client’s page nor the quote shows any of it but the price.
      </p>
      <CurrencyRow value={currency} onChange={(code) => set('currency', { currency: code })} />
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

function CurrencyRow({
  value,
  onChange,
}: {
  readonly value: string;
  readonly onChange: (code: string) => void;
}) {
  const codes = new Set([value, ...Intl.supportedValuesOf('currency')]);
  const names = new Intl.DisplayNames('en', { type: 'currency' });
  return (
    <label className="field">
      <span className="field-name">Currency</span>
      <select value={value} onChange={(event) => onChange(event.target.value)}>
        {[...codes].sort().map((code) => (
          <option key={code} value={code}>
            {code} – {names.of(code)}
          </option>
        ))}
      </select>
    </label>
  );
}

interface TimberPricesProps {
  readonly design: Design;
  readonly currency: string;
  readonly onChange: (timber: string, perM3: number, gesture: string) => void;
  readonly onSettle: () => void;
}

/** By the board foot where inches are shown, else by the cubic metre. */
function TimberPrices({ design, currency, onChange, onSettle }: TimberPricesProps) {
  const perM3 = design.unit === 'in' ? BOARD_FEET_PER_M3 : 1;
  return (
    <>
      {timberNeeds(design).map(({ timber, volume_m3 }) => (
        <NumberField
          key={timber}
          label={`${timberById(timber)?.name ?? timber}, ${design.unit === 'in' ? 'a board foot' : 'a cubic metre'}`}
          value={(design.quote?.timber_per_m3?.[timber] ?? 0) / perM3}
          quantity={amountQuantity(currency)}
          min={0}
          max={limit.MAX_AMOUNT / perM3}
          note={
            <p className="field-note">
              {design.unit === 'in'
                ? `${(volume_m3 * BOARD_FEET_PER_M3).toFixed(2)} board feet, sawn`
                : `${(volume_m3 * 1000).toFixed(2)} litres, sawn`}
            </p>
          }
          onChange={(value, gesture) => onChange(timber, value * perM3, gesture)}
          onSettle={onSettle}
        />
      ))}
    </>
  );
}

interface ExtrasProps {
  readonly extras: NonNullable<Quote['extras']>;
  readonly currency: string;
  readonly onChange: (extras: NonNullable<Quote['extras']>, gesture?: string) => void;
  readonly onSettle: () => void;
}

function Extras({ extras, currency, onChange, onSettle }: ExtrasProps) {
  return (
    <>
      {extras.map((extra, i) => (
        <div key={i} className="extra">
          <TextRow
            label="Something else"
            value={extra.text}
            maxLength={limit.MAX_LINE_CHARACTERS}
            placeholder="Such as: fittings, a box"
            onChange={(text) => onChange(extras.with(i, { ...extra, text }), `extra text ${i}`)}
            onSettle={onSettle}
          />
          <NumberField
            label="Amount"
            of={extra.text}
            value={extra.amount}
            quantity={amountQuantity(currency)}
            min={0}
            max={limit.MAX_AMOUNT}
            onChange={(amount, gesture) => onChange(extras.with(i, { ...extra, amount }), gesture)}
            onSettle={onSettle}
          />
          <button
            type="button"
            className="icon"
            aria-label={`Remove ${extra.text === '' ? 'this' : extra.text}`}
            onClick={() => onChange(extras.toSpliced(i, 1))}
          >
            <X />
          </button>
        </div>
      ))}
      <button
        type="button"
        className="button"
        disabled={extras.length >= limit.MAX_EXTRAS}
        onClick={() => onChange([...extras, { text: '', amount: 0 }])}
      >
        <Plus /> Something else to pay
      </button>
    </>
  );
}

function Sum({ sum }: { readonly sum: QuoteSum }) {
  return (
    <>
      <table className="quote-sum">
        <caption className="visually-hidden">The sum</caption>
        <tbody>
          {sum.lines.map((line, i) => (
            <tr key={i}>
              <th scope="row">{line.text === '' ? 'Something else' : line.text}</th>
              <td>{moneyText(line.amount, sum.currency)}</td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row">Price</th>
            <td>{moneyText(sum.price, sum.currency)}</td>
          </tr>
        </tfoot>
      </table>
      {sum.unpriced.length > 0 && (
        <p className="lede">
          Without a price: {sum.unpriced.map((timber) => timberById(timber)?.name ?? timber).join(', ')}.
        </p>
      )}
    </>
  );
}

function QuotePage() {
  const design = useApp((state) => state.design);
  const work = useApp((state) => state.work);
  const say = useApp((state) => state.say);
  const [name, setName] = useState(() => rememberedMaker().name);
  const [paper, setPaper] = useState<PaperName>(design.unit === 'in' ? 'letter' : 'a4');
  const [busy, setBusy] = useState(false);
  const make = async () => {
    setBusy(true);
    try {
      const { quotePageInBrowser } = await import('../../files/quote/inBrowser.ts');
      const { variants, active } = work;
      const bytes = await quotePageInBrowser(design, {
        paper,
        maker: name,
        made_on: dateOf(new Date()),
        variant: variants.length > 1 ? variants[active].name : null,
      });
      const pdf = new Blob([new Uint8Array(bytes)], { type: 'application/pdf' });
      download(pdf, `${fileStemOf(design)}-quote.pdf`);
    } catch (error) {
      say(`The quote was not made: ${error instanceof Error ? error.message : String(error)}`);
    }
    setBusy(false);
  };
  return (
    <div className="quote-page">
      <h3>The page to hand over</h3>
      <TextRow
        label="Your name and how to reach you"
        value={name}
        maxLength={limit.MAX_LINE_CHARACTERS}
        onChange={(text) => {
          setName(text);
          rememberMaker({ name: text });
        }}
      />
      <div className="sheet-row">
        <button type="button" className="button primary" disabled={busy} onClick={() => void make()}>
          <FileDown /> {busy ? 'Drawing …' : 'Quote, PDF'}
        </button>
        <Segmented
          label="Paper"
          value={paper}
          choices={[
            { value: 'letter', name: 'Letter' },
            { value: 'a4', name: 'A4' },
          ]}
          onChange={setPaper}
        />
      </div>
    </div>
  );
}
