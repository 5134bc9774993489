/** The design for others: a link that holds it, the link's code for the shop wall, and files for other programs. */
import { Check, Copy, FileDown, QrCode as QrIcon } from 'lucide-react';
import { useEffect, useMemo, useRef, useState } from 'react';
import { download, fileStemOf } from '../files/download.ts';
import { makeLink } from '../files/link.ts';
import type { QrCode } from '../files/qrCode.ts';
import { useApp, useAppStore } from './AppContext.ts';
import { saveDesign } from './FileMenu.tsx';
import './keep.css';

export function ShareDesign() {
  const shown = useApp((state) => state.dialog === 'share');
  const showDialog = useApp((state) => state.showDialog);
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (shown && !dialog.current?.open) dialog.current?.showModal();
    if (!shown) dialog.current?.close();
  }, [shown]);
  return (
    <dialog ref={dialog} className="share" aria-labelledby="share-title" onClose={() => showDialog(null)}>
      <h2 id="share-title">Share</h2>
      {shown && (
        <>
          <Link />
          <Files />
        </>
      )}
      <form method="dialog">
        <button type="submit" className="button primary">
          Close
        </button>
      </form>
    </dialog>
  );
}

function Link() {
  const work = useApp((state) => state.work);
  const newer = useApp((state) => state.document.newer);
  const link = useMemo(() => makeLink(work), [work]);
  if (newer)
    return <p>A link would lose what this Kerfweave does not know of the design. Send it as a file.</p>;
  if (!link.ok) return <p>{link.message}</p>;
  const address = `${window.location.origin}${window.location.pathname}#${link.fragment}`;
  return <Address key={address} address={address} variants={work.variants.length} />;
}

const LOCAL = /^(localhost|127\.|\[::1\])/;

function Address({ address, variants }: { readonly address: string; readonly variants: number }) {
  const say = useApp((state) => state.say);
  const field = useRef<HTMLInputElement>(null);
  const [copied, setCopied] = useState(false);
  const [code, setCode] = useState<QrCode | 'too long' | null>(null);
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(address);
      setCopied(true);
    } catch {
      // Not allowed to write there, or no clipboard over plain http: the maker can.
      field.current?.select();
      say('This browser does not let the page copy. The link is selected: copy it with Ctrl C.');
    }
  };
  const showCode = async () => {
    const { qrCodeOf } = await import('../files/qrCode.ts');
    setCode(qrCodeOf(address) ?? 'too long');
  };
  return (
    <section aria-label="Link">
      <p>
        The link holds the whole design{variants > 1 ? ` with its ${variants} variants` : ''}. Whoever opens
        it gets a copy of their own; nothing is sent to a server.
      </p>
      <div className="share-link">
        <input
          ref={field}
          readOnly
          value={address}
          aria-label="Link to the design"
          onFocus={(event) => event.currentTarget.select()}
        />
        <button type="button" className="button primary" onClick={() => void copy()}>
          {copied ? <Check /> : <Copy />} {copied ? 'Copied' : 'Copy link'}
        </button>
      </div>
      {LOCAL.test(window.location.hostname) && (
        <p className="kept-note">
          This address is that of this device. For other devices, open Kerfweave at an address that they can
          reach, and make the link there.
        </p>
      )}
      {code === null ? (
        <button type="button" className="button" onClick={() => void showCode()}>
          <QrIcon /> Code for the shop wall
        </button>
      ) : code === 'too long' ? (
        <p>The link is too long for a code that a phone can read.</p>
      ) : (
        <svg
          className="share-code"
          role="img"
          aria-label="The link as a QR code"
          viewBox={`0 0 ${code.size} ${code.size}`}
          shapeRendering="crispEdges"
        >
          <path d={code.path} fill="#000" />
        </svg>
      )}
    </section>
  );
}

/** Kerf of the saw that slices the strips: 0.040 in (common practice). */
const SLICE_KERF_MM = 1.016;

function Files() {
  const store = useAppStore();
  const design = useApp((state) => state.design);
  const report = useApp((state) => state.reports.get(state.design));
  const say = useApp((state) => state.say);
  const save = (text: string, type: string, ending: string) =>
    download(new Blob([text], { type }), `${fileStemOf(design)}${ending}`);
  const make = async (deed: () => Promise<void>) => {
    try {
      await deed();
    } catch (error) {
      say(`The file was not made: ${error instanceof Error ? error.message : String(error)}`);
    }
  };
  const table = (which: 'cutListCsv' | 'setupsCsv', ending: string) =>
    make(async () => {
      const csv = await import('../files/csv.ts');
      const text = which === 'setupsCsv' ? csv.setupsCsv(design) : csv.cutListCsv(design, SLICE_KERF_MM);
      save(text, 'text/csv', ending);
    });
  const drawing = (which: 'unrolledMapSvg' | 'outlineSvg', ending: string) =>
    make(async () => {
      const svg = await import('../files/svg.ts');
      const text = svg[which](design);
      if (text !== null) save(text, 'image/svg+xml', ending);
    });
  return (
    <section aria-label="Files">
      <h3>Files</h3>
      <div className="share-files">
        <FileButton name="Design" onClick={() => saveDesign(store)} />
        <FileButton
          name={report ? 'Report, JSON' : 'Report, being worked out …'}
          disabled={report?.state !== 'ready'}
          onClick={() => {
            if (report?.state === 'ready')
              save(`${JSON.stringify(report.report, null, 2)}\n`, 'application/json', '-report.json');
          }}
        />
        <FileButton name="Cut list, CSV" onClick={() => table('cutListCsv', '-cut-list.csv')} />
        <FileButton name="Set-ups, CSV" onClick={() => table('setupsCsv', '-set-ups.csv')} />
        <FileButton
          name="Unrolled map, SVG"
          disabled={!design.form}
          onClick={() => drawing('unrolledMapSvg', '-map.svg')}
        />
        <FileButton
          name="Outline, SVG"
          disabled={!design.form}
          onClick={() => drawing('outlineSvg', '-outline.svg')}
        />
      </div>
    </section>
  );
}

interface FileButtonProps {
  readonly name: string;
  readonly disabled?: boolean;
  readonly onClick: () => Promise<void> | void;
}

function FileButton({ name, disabled = false, onClick }: FileButtonProps) {
  return (
    <button type="button" className="button" disabled={disabled} onClick={() => void onClick()}>
      <FileDown /> {name}
    </button>
  );
}
