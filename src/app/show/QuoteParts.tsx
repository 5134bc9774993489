/** Parts of the maker's sum: currency, prices of timber, extras, and the lines with what they come to. */
import { Plus, X } from 'lucide-react';
import type { Design, Quote } from '../../design/document.ts';
import * as limit from '../../design/limits.ts';
import { NumberField } from '../../panels/fields/NumberField.tsx';
import { moneyText } from '../../plan/money.ts';
import { timberNeeds, type QuoteSum } from '../../plan/quote.ts';
import { amountQuantity, BOARD_FEET_PER_M3 } from './amounts.ts';
import { TextRow } from './TextRow.tsx';
import { timberName } from '../../timber/names.ts';

export function CurrencyRow({
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
export function TimberPrices({ design, currency, onChange, onSettle }: TimberPricesProps) {
  const perM3 = design.unit === 'in' ? BOARD_FEET_PER_M3 : 1;
  return (
    <>
      {timberNeeds(design).map(({ timber, volume_m3 }) => (
        <NumberField
          key={timber}
          label={`${timberName(timber)}, ${design.unit === 'in' ? 'a board foot' : 'a cubic metre'}`}
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

export function Extras({ extras, currency, onChange, onSettle }: ExtrasProps) {
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

export function Sum({ sum }: { readonly sum: QuoteSum }) {
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
        <p className="lede">Without a price: {sum.unpriced.map(timberName).join(', ')}.</p>
      )}
    </>
  );
}
