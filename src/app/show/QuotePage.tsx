/** The one page to hand over: whose it is, on which paper, as a PDF. */
import { FileDown } from 'lucide-react';
import { useState } from 'react';
import { dateOf } from '../../design/dates.ts';
import { MAX_LINE_CHARACTERS } from '../../design/limits.ts';
import { download, fileStemOf } from '../../files/download.ts';
import { usualPaper } from '../../files/sheet/paper.ts';
import { PaperChoice } from '../../panels/fields/PaperChoice.tsx';
import { useApp } from '../AppContext.ts';
import { rememberedMaker, rememberMaker } from './maker.ts';
import { TextRow } from './TextRow.tsx';

export function QuotePage() {
  const design = useApp((state) => state.design);
  const work = useApp((state) => state.work);
  const say = useApp((state) => state.say);
  const [name, setName] = useState(() => rememberedMaker().name);
  const [paper, setPaper] = useState(() => usualPaper(design.unit));
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
        maxLength={MAX_LINE_CHARACTERS}
        onChange={(text) => {
          setName(text);
          rememberMaker({ name: text });
        }}
      />
      <div className="sheet-row">
        <button type="button" className="button primary" disabled={busy} onClick={() => void make()}>
          <FileDown /> {busy ? 'Drawing …' : 'Quote, PDF'}
        </button>
        <PaperChoice paper={paper} onChange={setPaper} />
      </div>
    </div>
  );
}
