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

type Sent = 'no' | 'copied' | 'not copied' | 'shared' | 'not shared' | 'e-mail';

const NEXT: Readonly<Record<Sent, string>> = {
  no: '',
  copied: 'Now paste it into a message to the maker, and send that.',
  'not copied': 'This browser does not let the page copy. The answer is selected below: copy it from there.',
  shared: 'Once your message is sent, the maker has your answer.',
  'not shared': 'It was not shared. Copy the answer instead.',
  'e-mail': 'Your e-mail opens with the answer in it; send it from there. If nothing opens, copy the answer.',
};

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
  const made = variant.design.choice;
  const [made_on] = useState(() => dateOf(new Date()));
  const [by, setBy] = useState(made?.by ?? '');
  const [note, setNote] = useState(
    made?.note ?? (tried === null ? '' : `Please ${FINISH_WORDS[tried]}, as I have it on screen.`),
  );
  const [sent, setSent] = useState<Sent>('no');
  const heading = useRef<HTMLHeadingElement>(null);
  const answer = useRef<HTMLElement>(null);
  useEffect(() => {
    dialog.current?.showModal();
    // And not the first field, whose keyboard would cover the rest on a phone.
    heading.current?.focus();
  }, []);

  const choice = {
    made_on,
    ...(by.trim() === '' ? {} : { by: by.trim() }),
    ...(note.trim() === '' ? {} : { note: note.trim() }),
  };
  const { name } = variant.design;
  const link = makeReplyLink({ name: variant.name, design: setChoice(variant.design, choice) });
  const address = link.ok ? `${window.location.origin}${window.location.pathname}#${link.fragment}` : null;
  const price = priceText(variant.design.offer);
  const several = choicesOf(work).length > 1;
  const piece = several ? `“${variant.name}” of “${name}”` : `“${name}”`;
  const lines = [
    `${several ? 'Yes, I choose' : 'Yes, I would like'} ${piece}${price === null ? '' : `, ${price}`}.`,
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
      if (answer.current) window.getSelection()?.selectAllChildren(answer.current);
      setSent('not copied');
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
      setSent('not shared');
    }
  };
  return (
    <dialog ref={dialog} className="answer" aria-labelledby="answer-title" onClose={onClose}>
      <h2 id="answer-title" ref={heading} tabIndex={-1}>
        {several ? `You choose ${piece}` : `Yes to ${piece}`}
      </h2>
      <p className="lede">
        Your answer is a message with a link for the maker. You send it yourself; this page sends nothing.
      </p>
      <TextRow
        label="Your name"
        value={by}
        maxLength={MAX_LINE_CHARACTERS}
        autoComplete="name"
        onChange={setBy}
      />
      <TextRow
        label="A word with it"
        value={note}
        maxLength={MAX_NOTES_CHARACTERS}
        lines={2}
        onChange={setNote}
      />
      {link.ok ? (
        <>
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
              onClick={() => {
                record();
                setSent('e-mail');
              }}
            >
              <Mail /> E-mail
            </a>
          </div>
          <output className="answer-next" data-done={sent === 'copied' || sent === 'shared'}>
            {NEXT[sent]}
          </output>
          <section ref={answer} className="answer-text" aria-label="The answer">
            {text}
            {/* Seen and copied, but not read out letter by letter. */}
            <span className="answer-address" aria-hidden="true">
              {address}
            </span>
          </section>
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
