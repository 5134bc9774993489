/**
 * What a client sees: the piece, the choices, how it is shown, and the way to say yes. Nothing is kept and nothing is
 * sent; an answer goes back by whatever means the client sends it with.
 */
import { useId, useRef, useState, type CSSProperties } from 'react';
import type { Variant } from '../../panels/bench.ts';
import { careOf } from '../../plan/care.ts';
import { priceText } from '../../plan/offerText.ts';
import type { StageHandle } from '../../stage/props.ts';
import { useApp } from '../AppContext.ts';
import { choicesOf } from '../choices.ts';
import { Said } from '../Said.tsx';
import { StageArea } from '../StageArea.tsx';
import { UpdateNotice } from '../UpdateNotice.tsx';
import { AnswerDialog } from './AnswerDialog.tsx';
import { ChoiceCard, ChoicePortrait, ChoiceText } from './ChoiceCard.tsx';
import { PieceControls } from './PieceControls.tsx';
import { SideBySide } from './SideBySide.tsx';

export function ClientPage() {
  const client = useApp((state) => state.client);
  if (client?.handedOver !== undefined) return <HandedOver words={client.handedOver} />;
  const fault = client?.fault ?? null;
  if (fault === null) return <Offer />;
  return (
    <main className="client-fault">
      <h1>This link cannot be opened</h1>
      <p>{fault}.</p>
      <p>Ask whoever sent it to send it once more.</p>
    </main>
  );
}

/** For the maker, who opened an answer beside the tab that it belongs to. */
function HandedOver({ words }: { readonly words: string }) {
  return (
    <main className="client-fault">
      <h1>The answer is recorded</h1>
      <p>{words}</p>
      <p>
        You can close this tab, or <a href="./">open Kerfweave here as well</a>.
      </p>
    </main>
  );
}

function Offer() {
  const stage = useRef<StageHandle>(null);
  const work = useApp((state) => state.work);
  const design = useApp((state) => state.design);
  const newer = useApp((state) => state.document.newer);
  const clean = useApp((state) => state.view.shown.clean);
  const [answering, setAnswering] = useState(false);
  const choices = choicesOf(work);
  const several = choices.length > 1;
  const active = work.variants[work.active];
  return (
    <div className="client" data-clean={clean}>
      <StageArea stage={stage} />
      <section className="client-panel" aria-label="What is offered" hidden={clean}>
        <div className="client-scroll">
          <header className="client-head">
            <h1>{design.name === '' ? 'For you' : design.name}</h1>
          </header>
          {several ? (
            <Several choices={choices} active={active} />
          ) : (
            <div className="client-one">
              {/* Where there is no 3D picture, this is the picture. */}
              <ChoicePortrait design={design} />
              <ChoiceText design={design} />
            </div>
          )}
          <PieceControls />
          <section className="client-care" aria-label="Care">
            <h2>Care</h2>
            <p>{careOf(design)}</p>
          </section>
          <footer className="client-foot">
            <p>This page is the link you opened. Nothing you do here is sent anywhere.</p>
            <p>
              Made with <a href="./">Kerfweave</a>
            </p>
          </footer>
        </div>
        <Yes
          variant={active}
          name={several ? active.name : null}
          onYes={newer ? null : () => setAnswering(true)}
        />
      </section>
      {answering && <AnswerDialog variant={active} onClose={() => setAnswering(false)} />}
      <UpdateNotice />
      <Said />
    </div>
  );
}

interface SeveralProps {
  readonly choices: readonly Variant[];
  readonly active: Variant;
}

function Several({ choices, active }: SeveralProps) {
  const work = useApp((state) => state.work);
  const chooseVariant = useApp((state) => state.chooseVariant);
  return (
    <>
      <ul className="offered" aria-label="Choices" style={{ '--choices': choices.length } as CSSProperties}>
        {choices.map((variant) => (
          <ChoiceCard
            key={variant.id}
            variant={variant}
            name={variant.name}
            shown={variant === active}
            onShow={() => chooseVariant(work.variants.indexOf(variant))}
          />
        ))}
      </ul>
      <SideBySide />
    </>
  );
}

interface YesProps {
  readonly variant: Variant;
  /** Of the choice; null where there is one piece alone. */
  readonly name: string | null;
  /** Null where the page shows a piece that it does not wholly know. */
  readonly onYes: (() => void) | null;
}

/** The price and the yes, in sight wherever the page is scrolled to. */
function Yes({ variant: { design }, name, onYes }: YesProps) {
  const price = priceText(design.offer);
  const id = useId();
  const of = name !== null || price !== null ? id : undefined;
  if (price === null && onYes === null) return null;
  return (
    <section className="client-yes" aria-label="Your answer">
      {of !== undefined && (
        <p id={of}>
          {name !== null && <span>{name}</span>}
          {price !== null && <strong className="choice-price">{price}</strong>}
        </p>
      )}
      {onYes && (
        <button type="button" className="button primary choose" aria-describedby={of} onClick={onYes}>
          {design.choice ? 'Send the answer again' : name === null ? 'Say yes' : 'Choose this one'}
        </button>
      )}
    </section>
  );
}
