/** The shop sheet as a PDF; what makes it is loaded when it is asked for. */
import { FileDown } from 'lucide-react';
import { useState } from 'react';
import type { Design } from '../../design/document.ts';
import { download, fileStemOf } from '../../files/download.ts';
import { usualPaper } from '../../files/sheet/paper.ts';
import type { MakersChoices } from '../../plan/makersChoices.ts';
import { useBench } from '../bench.ts';
import { PaperChoice } from '../fields/PaperChoice.tsx';
import { pieceName } from '../pieceName.ts';

export function ShopSheet({ design, choices }: { design: Design; choices: MakersChoices }) {
  const [paper, setPaper] = useState(() => usualPaper(design.unit));
  const [busy, setBusy] = useState(false);
  const [fault, setFault] = useState<string | null>(null);
  const name = useBench((bench) => pieceName(bench.work));
  const make = async () => {
    const piece = { ...design, name };
    setBusy(true);
    setFault(null);
    try {
      const { shopSheetInBrowser } = await import('../../files/sheet/inBrowser.ts');
      const bytes = await shopSheetInBrowser(piece, paper, choices);
      download(new Blob([new Uint8Array(bytes)], { type: 'application/pdf' }), `${fileStemOf(piece)}.pdf`);
    } catch (error) {
      setFault(error instanceof Error ? error.message : String(error));
    }
    setBusy(false);
  };
  return (
    <>
      <div className="sheet-row">
        <button type="button" className="button" disabled={busy} onClick={() => void make()}>
          <FileDown /> {busy ? 'Drawing the sheet …' : 'Save the shop sheet, PDF'}
        </button>
        <PaperChoice paper={paper} onChange={setPaper} />
      </div>
      {fault !== null && (
        <p className="reason" role="alert">
          The sheet was not made: {fault}
        </p>
      )}
    </>
  );
}
