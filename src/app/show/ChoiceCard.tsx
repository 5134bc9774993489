/** One choice as a client sees it: a small picture, its name, its price, what is said of it. All text is shown as text. */
import { useCallback, useState } from 'react';
import type { Variant } from '../../panels/bench.ts';
import type { Design } from '../../design/document.ts';
import { dateOf, dateText } from '../../design/dates.ts';
import { madeOf, priceText, sizeText, termsOf } from '../../plan/offerText.ts';
import { useApp } from '../AppContext.ts';
import { Portrait } from '../Portrait.tsx';
import { inClientsUnit } from './clientUnit.ts';

export interface ChoiceCardProps {
  readonly variant: Variant;
  /** What the card is called; a single piece goes by the name of its design. */
  readonly name: string;
  readonly shown: boolean;
  readonly onShow: () => void;
}

export function ChoiceCard({ variant, name, shown, onShow }: ChoiceCardProps) {
  const { design } = variant;
  const price = priceText(design.offer);
  return (
    <li className="choice" data-shown={shown}>
      <button type="button" className="choice-head" aria-pressed={shown} onClick={onShow}>
        <ChoicePortrait design={design} />
        <span className="choice-words">
          <b>{name}</b>
          {price !== null && <strong className="choice-price">{price}</strong>}
          {design.choice && <span className="choice-mark">Chosen</span>}
        </span>
      </button>
      <ChoiceText design={design} />
    </li>
  );
}

export function ChoicePortrait({ design }: { readonly design: Design }) {
  const look = useCallback(() => design, [design]);
  return <Portrait of={design} look={look} className="choice-portrait" />;
}

/** What a piece is and what is said of it. */
export function ChoiceText({ design }: { readonly design: Design }) {
  const { offer, choice } = design;
  const client = useApp((state) => state.client !== null);
  const [today] = useState(() => dateOf(new Date()));
  const terms = termsOf(offer, today);
  return (
    <div className="choice-text">
      <div className="choice-facts">
        <p>{madeOf(design)}</p>
        <p>{sizeText(client ? inClientsUnit(design) : design)}</p>
      </div>
      {offer?.note !== undefined && <p className="choice-note">{offer.note}</p>}
      {terms.length > 0 && (
        <ul className="choice-terms">
          {terms.map((term) => (
            <li key={term}>{term}</li>
          ))}
        </ul>
      )}
      {choice && (
        <p className="choice-made">
          Chosen{choice.by === undefined ? '' : ` by ${choice.by}`} on {dateText(choice.made_on)}
          {choice.note === undefined ? '' : `: ${choice.note}`}
        </p>
      )}
    </div>
  );
}
