/**
 * What a client sees: the piece, the choices, how it is shown, and the way to say yes. Nothing is kept and nothing is
 * sent; an answer goes back by whatever means the client sends it with.
 */
import { Columns2 } from 'lucide-react';
import { useRef, useState } from 'react';
import { careOf } from '../../plan/care.ts';
import { madeOf } from '../../plan/offerText.ts';
import type { StageHandle } from '../../stage/props.ts';
import { useApp } from '../AppContext.ts';
import { choicesOf } from '../choices.ts';
import { Said } from '../Said.tsx';
import { StageArea } from '../StageArea.tsx';
import { UpdateNotice } from '../UpdateNotice.tsx';
import { AnswerDialog } from './AnswerDialog.tsx';
import { ChoiceCard } from './ChoiceCard.tsx';
import { PieceControls } from './PieceControls.tsx';

export function ClientPage() {
  const fault = useApp((state) => state.client?.fault ?? null);
  if (fault === null) return <Offer />;
  return (
    <main className="client-fault">
      <h1>This link cannot be opened</h1>
      <p>{fault}.</p>
      <p>Ask whoever sent it to send it once more.</p>
    </main>
  );
}

function Offer() {
  const stage = useRef<StageHandle>(null);
  const work = useApp((state) => state.work);
  const design = useApp((state) => state.design);
  const newer = useApp((state) => state.document.newer);
  const clean = useApp((state) => state.view.shown.clean);
  const compare = useApp((state) => state.view.compare);
  const setView = useApp((state) => state.setView);
  const chooseVariant = useApp((state) => state.chooseVariant);
  const [answering, setAnswering] = useState(false);
  const choices = choicesOf(work);
  const active = work.variants[work.active];
  return (
    <div className="client" data-clean={clean}>
      <StageArea stage={stage} />
      <section className="client-panel" aria-label="The piece" hidden={clean}>
        <header className="client-head">
          <h1>{design.name === '' ? 'For you' : design.name}</h1>
          {choices.length === 1 && <p>{madeOf(design)}</p>}
        </header>
        <ul className="offered" aria-label={choices.length > 1 ? 'Choices' : 'The piece'}>
          {choices.map((variant) => {
            const isShown = variant === active;
            return (
              <ChoiceCard
                key={variant.id}
                variant={variant}
                name={choices.length > 1 ? variant.name : design.name}
                shown={isShown}
                onShow={() => chooseVariant(work.variants.indexOf(variant))}
              >
                {isShown && !newer && (
                  <button type="button" className="button primary choose" onClick={() => setAnswering(true)}>
                    {variant.design.choice ? 'Send the answer again' : 'Choose this one'}
                  </button>
                )}
              </ChoiceCard>
            );
          })}
        </ul>
        {choices.length > 1 && (
          <button
            type="button"
            className="button"
            aria-pressed={compare}
            onClick={() => setView({ compare: !compare })}
          >
            <Columns2 /> Side by side
          </button>
        )}
        <PieceControls />
        <section className="client-care" aria-label="Care">
          <h2>Care</h2>
          <p>{careOf(design)}</p>
        </section>
        <p className="client-foot">This page is the link you opened. Nothing you do here is sent anywhere.</p>
        <p className="client-foot">
          Made with <a href="./">Kerfweave</a>
        </p>
      </section>
      {answering && <AnswerDialog variant={active} onClose={() => setAnswering(false)} />}
      <UpdateNotice />
      <Said />
    </div>
  );
}
