/** What is offered: every variant with its name, a word, a price; and the choice that a client made. */
import { Copy } from 'lucide-react';
import { dateOf } from '../../design/dates.ts';
import type { Offer } from '../../design/document.ts';
import { MAX_AMOUNT, MAX_LINE_CHARACTERS, MAX_NOTES_CHARACTERS } from '../../design/limits.ts';
import { setOffer } from '../../design/offerEdits.ts';
import { defaultCare } from '../../plan/care.ts';
import { NumberField } from '../../panels/fields/NumberField.tsx';
import { useApp } from '../AppContext.ts';
import { choicesOf, withChoice } from '../choices.ts';
import { MAX_VARIANTS } from '../work.ts';
import { priceQuantity } from './amounts.ts';
import { ChoiceCard } from './ChoiceCard.tsx';
import { CurrencyRow } from './QuoteParts.tsx';
import { TextRow } from './TextRow.tsx';
import { currencyOf, useCurrency } from './useCurrency.ts';
import { useEdits } from './useEdits.ts';
import { SideBySide } from './SideBySide.tsx';

export function Choices() {
  const work = useApp((state) => state.work);
  const setView = useApp((state) => state.setView);
  const chooseVariant = useApp((state) => state.chooseVariant);
  const addChoice = useApp((state) => state.addVariant);
  const newer = useApp((state) => state.document.newer !== null);
  const choices = choicesOf(work);
  const several = choices.length > 1;
  const active = work.variants[work.active];
  return (
    <>
      <ul className="offered" aria-label="Choices">
        {choices.map((variant) => (
          <ChoiceCard
            key={variant.id}
            variant={variant}
            name={several ? variant.name : variant.design.name}
            shown={variant === active}
            onShow={() => chooseVariant(work.variants.indexOf(variant))}
          />
        ))}
      </ul>
      <div className="show-toggles">
        <button
          type="button"
          className="button"
          disabled={newer || work.variants.length >= MAX_VARIANTS}
          onClick={() => {
            addChoice();
            setView({ compare: false });
          }}
        >
          <Copy /> Another choice
        </button>
        {several && <SideBySide />}
      </div>
      {newer ? (
        <p className="lede">Open for reading only: what is said of the piece is changed in a copy.</p>
      ) : !choices.includes(active) ? (
        <p className="lede">{active.name} is a sample, and not offered. Choose a piece above.</p>
      ) : (
        <>
          <OfferFields several={several} />
          <ChoiceByHand />
        </>
      )}
    </>
  );
}

function OfferFields({ several }: { readonly several: boolean }) {
  const work = useApp((state) => state.work);
  const design = useApp((state) => state.design);
  const { edit, editWork, endGesture } = useEdits();
  const setCurrency = useCurrency();
  const { offer } = design;
  const active = work.variants[work.active];
  const change = (field: keyof Offer, value: Partial<Offer>, gesture = `offer ${field} ${active.id}`) =>
    edit(`offer: ${field.replace('_', ' ')}`, (current) => setOffer(current, value), gesture);
  const line = (field: 'tax' | 'delivery', label: string, placeholder: string) => (
    <TextRow
      label={label}
      value={offer?.[field] ?? ''}
      maxLength={MAX_LINE_CHARACTERS}
      placeholder={placeholder}
      onChange={(text) => change(field, { [field]: text })}
      onSettle={endGesture}
    />
  );
  return (
    <fieldset className="offer-fields">
      <legend>{several ? `What is said of ${active.name}` : 'What is said of it'}</legend>
      {several && (
        <TextRow
          label="Name of the choice"
          value={active.name}
          maxLength={MAX_LINE_CHARACTERS}
          onChange={(name) =>
            editWork(
              'name a variant',
              (current) => ({
                ...current,
                variants: current.variants.map((known) =>
                  known.id === active.id ? { ...known, name } : known,
                ),
              }),
              `name ${active.id}`,
            )
          }
          onSettle={endGesture}
        />
      )}
      <TextRow
        label="A word for the client"
        value={offer?.note ?? ''}
        maxLength={MAX_NOTES_CHARACTERS}
        lines={3}
        onChange={(note) => change('note', { note })}
        onSettle={endGesture}
      />
      <NumberField
        label="Price"
        value={offer?.price ?? 0}
        quantity={priceQuantity(currencyOf(design))}
        min={0}
        max={MAX_AMOUNT}
        onChange={(price, gesture) =>
          change(
            'price',
            price === 0 ? { price: undefined, currency: undefined } : { price, currency: currencyOf(design) },
            gesture,
          )
        }
        onSettle={endGesture}
      />
      <CurrencyRow value={currencyOf(design)} onChange={setCurrency} />
      {line('tax', 'Taxes', 'In your own words, such as: all taxes included')}
      {line('delivery', 'Delivery', 'Such as: three weeks after the order')}
      <TextRow
        label="Offered until"
        type="date"
        value={offer?.valid_until ?? ''}
        maxLength={10}
        onChange={(text) => change('valid_until', { valid_until: text === '' ? undefined : text })}
        onSettle={endGesture}
      />
      <TextRow
        label="Care"
        value={offer?.care ?? ''}
        maxLength={MAX_NOTES_CHARACTERS}
        lines={4}
        placeholder={defaultCare(design)}
        onChange={(care) => change('care', { care })}
        onSettle={endGesture}
      />
    </fieldset>
  );
}

/** A choice made at the bench or on the telephone. */
function ChoiceByHand() {
  const work = useApp((state) => state.work);
  const choice = useApp((state) => state.design.choice);
  const { editWork, endGesture } = useEdits();
  if (!choice)
    return (
      <button
        type="button"
        className="button"
        onClick={() =>
          editWork('the client’s choice', (current) =>
            withChoice(current, current.active, { made_on: dateOf(new Date()) }),
          )
        }
      >
        The client chose this one
      </button>
    );
  const change = (next: Partial<typeof choice>, gesture: string) =>
    editWork(
      'the client’s choice',
      (current) => withChoice(current, current.active, { ...choice, ...next }),
      `${gesture} ${work.variants[work.active].id}`,
    );
  return (
    <fieldset className="offer-fields">
      <legend>The client’s choice</legend>
      <TextRow
        label="Chosen on"
        type="date"
        value={choice.made_on}
        maxLength={10}
        onChange={(made_on) => made_on !== '' && change({ made_on }, 'chosen on')}
        onSettle={endGesture}
      />
      <TextRow
        label="By"
        value={choice.by ?? ''}
        maxLength={MAX_LINE_CHARACTERS}
        onChange={(by) => change({ by }, 'chosen by')}
        onSettle={endGesture}
      />
      <TextRow
        label="What they said"
        value={choice.note ?? ''}
        maxLength={MAX_NOTES_CHARACTERS}
        lines={2}
        onChange={(note) => change({ note }, 'choice note')}
        onSettle={endGesture}
      />
      <button
        type="button"
        className="button"
        onClick={() =>
          editWork('take the choice back', (current) => withChoice(current, current.active, null))
        }
      >
        Take the choice back
      </button>
    </fieldset>
  );
}
