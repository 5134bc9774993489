/** A client's yes: who it is from, a word if there is one, and a short text with a link to send back. */
import { Check, Copy, Mail, Send } from 'lucide-react';
import { useEffect, useRef, useState } from 'react';
import { dateOf } from '../../design/dates.ts';
import { MAX_LINE_CHARACTERS, MAX_NOTES_CHARACTERS } from '../../design/limits.ts';
import { setChoice } from '../../design/offerEdits.ts';
import { makeReplyLink } from '../../files/link.ts';
import type { Variant } from '../../panels/bench.ts';
import { priceText } from '../../plan/offerText.ts';
import { useApp } from '../AppContext.ts';
import { choicesOf, withChoice } from '../choices.ts';
import { TextRow } from './TextRow.tsx';

const FINISH_WORDS = { raw: 'bare', oiled: 'oiled', gloss: 'in gloss' } as const;

export function AnswerDialog({
  variant,
  onClose,
}: {
  readonly variant: Variant;
  readonly onClose: () => void;
}) {
  const dialog = useRef<HTMLDialogElement>(null);
  const tried = useApp((state) => state.view.shown.finish);
  const work = useApp((state) => state.work);
  const editWork = useApp((state) => state.editWork);
  const say = useApp((state) => state.say);
  const made = variant.design.choice;
  const [made_on] = useState(() => dateOf(new Date()));
  const [by, setBy] = useState(made?.by ?? '');
  const [note, setNote] = useState(
    made?.note ?? (tried === null ? '' : `Please ${FINISH_WORDS[tried]}, as I have it on screen.`),
  );
  const [sent, setSent] = useState<'no' | 'copied' | 'shared'>('no');
  useEffect(() => dialog.current?.showModal(), []);

  const choice = {
    made_on,
    ...(by.trim() === '' ? {} : { by: by.trim() }),
    ...(note.trim() === '' ? {} : { note: note.trim() }),
  };
  const { name } = variant.design;
  const link = makeReplyLink({ name: variant.name, design: setChoice(variant.design, choice) });
  const address = link.ok ? `${window.location.origin}${window.location.pathname}#${link.fragment}` : null;
  const price = priceText(variant.design.offer);
  const piece = choicesOf(work).length > 1 ? `“${variant.name}” of “${name}”` : `“${name}”`;
  const lines = [
    `Yes, I choose ${piece}${price === null ? '' : `, ${price}`}.`,
    ...(choice.note === undefined ? [] : [choice.note]),
    ...(choice.by === undefined ? [] : [`– ${choice.by}`]),
  ];
  const text = lines.join('\n');
  const whole = `${text}\n\n${address ?? ''}`;

  const record = () => {
    const index = work.variants.findIndex(({ id }) => id === variant.id);
    editWork('choose', (current) => withChoice(current, index, choice));
  };
  const copy = async () => {
    record();
    try {
      await navigator.clipboard.writeText(whole);
      setSent('copied');
    } catch {
      // Not allowed to write there, or no clipboard over plain http: the client can.
      say('This browser does not let the page copy. Select the answer and copy it.');
    }
  };
  const share = async () => {
    record();
    try {
      await navigator.share({
        title: `Answer: ${name}`,
        text,
        ...(address === null ? {} : { url: address }),
      });
      setSent('shared');
    } catch (error) {
      if (error instanceof DOMException && error.name === 'AbortError') return;
      say('It was not shared. Copy the answer instead.');
    }
  };
  return (
    <dialog ref={dialog} className="answer" aria-labelledby="answer-title" onClose={onClose}>
      <h2 id="answer-title">You choose {piece}</h2>
      <p className="lede">
        This page sends nothing by itself. Send the answer to the maker the way you talk to them.
      </p>
      <TextRow label="Your name" value={by} maxLength={MAX_LINE_CHARACTERS} onChange={setBy} />
      <TextRow
        label="A word with it"
        value={note}
        maxLength={MAX_NOTES_CHARACTERS}
        lines={3}
        onChange={setNote}
      />
      {link.ok ? (
        <>
          <p className="answer-text" aria-label="The answer">
            {text}
            <span className="answer-address">{address}</span>
          </p>
          <div className="answer-ways">
            {'share' in navigator && (
              <button type="button" className="button primary" onClick={() => void share()}>
                {sent === 'shared' ? <Check /> : <Send />} {sent === 'shared' ? 'Shared' : 'Send …'}
              </button>
            )}
            <button
              type="button"
              className={'share' in navigator ? 'button' : 'button primary'}
              onClick={() => void copy()}
            >
              {sent === 'copied' ? <Check /> : <Copy />} {sent === 'copied' ? 'Copied' : 'Copy the answer'}
            </button>
            <a
              className="button"
              href={`mailto:?subject=${encodeURIComponent(`Answer: ${name}`)}&body=${encodeURIComponent(whole)}`}
              onClick={record}
            >
              <Mail /> E-mail
            </a>
          </div>
          <output className="answer-next">
            {sent === 'copied' && 'Now paste it into a message to the maker, and send that.'}
          </output>
        </>
      ) : (
        <p>{link.message}</p>
      )}
      <form method="dialog">
        <button type="submit" className="button quiet">
          Close
        </button>
      </form>
    </dialog>
  );
}
