/** The piece for a client, and the design for others: a link to each, the link as a QR code, files for other programs. */
import { FileDown } from 'lucide-react';
import { useMemo } from 'react';
import { download, fileStemOf } from '../files/download.ts';
import { makeLink } from '../files/link.ts';
import { Segmented } from '../panels/fields/Segmented.tsx';
import { useApp, useAppStore } from './AppContext.ts';
import { saveDesign } from './fileCommands.ts';
import { ClientLink } from './show/ClientLink.tsx';
import { addressOf, LinkAddress } from './show/LinkAddress.tsx';
import { WindowDialog } from './WindowDialog.tsx';
import './keep.css';

const KINDS = [
  { value: 'offer', name: 'For a client' },
  { value: 'share', name: 'The design itself' },
] as const;

export function ShareDesign() {
  const kind = useApp((state) => (state.dialog === 'designs' ? null : state.dialog));
  const showDialog = useApp((state) => state.showDialog);
  return (
    <WindowDialog shown={kind !== null} title="Share" className="share" onClose={() => showDialog(null)}>
      {kind !== null && <Segmented label="For whom" value={kind} choices={KINDS} onChange={showDialog} />}
      {kind === 'offer' && (
        <section aria-label="For a client">
          <ClientLink />
        </section>
      )}
      {kind === 'share' && (
        <>
          <Link />
          <Files />
        </>
      )}
    </WindowDialog>
  );
}

function Link() {
  const work = useApp((state) => state.work);
  const newer = useApp((state) => state.document.newer);
  const link = useMemo(() => makeLink(work), [work]);
  if (newer)
    return <p>A link would lose what this Kerfweave does not know of the design. Send it as a file.</p>;
  if (!link.ok) return <p>{link.message}</p>;
  const address = addressOf(link.fragment);
  const { length } = work.variants;
  return (
    <section aria-label="Link">
      <p>
        The link holds the whole design{length > 1 ? ` with its ${length} variants` : ''}. Whoever opens it
        gets a copy of their own, with your rates, notes and measures in it; nothing is sent to a server.
      </p>
      <LinkAddress key={address} address={address} label="Link to the design" />
    </section>
  );
}

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
      const text = which === 'setupsCsv' ? csv.setupsCsv(design) : csv.cutListCsv(design);
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
      <h3>Save as a file</h3>
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
