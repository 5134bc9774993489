/** The designs kept in this browser: open, rename, duplicate, delete and have back. */
import { Copy, FileDown, Pencil, Trash2 } from 'lucide-react';
import { useEffect, useState } from 'react';
import { MAX_NAME_CHARACTERS } from '../design/limits.ts';
import { useApp } from './AppContext.ts';
import type { Shelf, ShelfEntry } from './keepShelf.ts';
import { KeptPortrait } from './KeptPortrait.tsx';
import { WindowDialog } from './WindowDialog.tsx';
import './keep.css';

export function KeptDesigns() {
  const shown = useApp((state) => state.dialog === 'designs');
  const showDialog = useApp((state) => state.showDialog);
  const shelf = useApp((state) => state.shelf);
  return (
    <WindowDialog shown={shown} title="Your designs" className="kept" onClose={() => showDialog(null)}>
      {shown && shelf && <Designs shelf={shelf} close={() => showDialog(null)} />}
    </WindowDialog>
  );
}

type Listed =
  | { readonly state: 'reading' }
  | { readonly state: 'read'; readonly entries: readonly ShelfEntry[] }
  | { readonly state: 'failed'; readonly reason: string };

function Designs({ shelf, close }: { readonly shelf: Shelf; readonly close: () => void }) {
  const open = useApp((state) => state.document.id);
  const [listed, setListed] = useState<Listed>({ state: 'reading' });
  const [removed, setRemoved] = useState<ShelfEntry | null>(null);
  const [lasting, setLasting] = useState<boolean | null>(null);
  const [changes, setChanges] = useState(0);
  const changed = () => setChanges((count) => count + 1);
  useEffect(() => {
    let current = true;
    const read = async () => {
      const list = await shelf.list();
      const promised = await shelf.lasting();
      if (!current) return;
      setListed(
        list.ok ? { state: 'read', entries: list.value } : { state: 'failed', reason: list.fault.reason },
      );
      setLasting(promised);
    };
    void read();
    return () => {
      current = false;
    };
  }, [shelf, open, changes]);

  const entries = listed.state === 'read' ? listed.entries : [];
  return (
    <>
      <output>
        {removed && (
          <p className="kept-removed">
            {removed.name} is deleted.{' '}
            <button
              type="button"
              className="button"
              onClick={() => {
                setRemoved(null);
                void shelf.putBack(removed.id).then(changed);
              }}
            >
              Undo
            </button>
          </p>
        )}
      </output>
      {listed.state === 'failed' && (
        <p>The designs could not be read: {listed.reason}. Save what is open to a file.</p>
      )}
      {listed.state === 'read' && entries.length === 0 && (
        <p>Nothing is kept yet. A design is kept here from its first change on.</p>
      )}
      <ul className="kept-list">
        {entries.map((entry) => (
          <Row
            key={entry.id}
            entry={entry}
            shelf={shelf}
            changed={changed}
            close={close}
            remove={async () => {
              await shelf.remove(entry.id);
              setRemoved(entry);
              changed();
            }}
          />
        ))}
      </ul>
      {lasting === false && (
        <p className="kept-note">
          This browser may clear the designs of a page that was not visited for long, or when space runs
          short. Save what matters to files.
        </p>
      )}
    </>
  );
}

interface RowProps {
  readonly entry: ShelfEntry;
  readonly shelf: Shelf;
  readonly changed: () => void;
  readonly close: () => void;
  readonly remove: () => Promise<void>;
}

const focus = (input: HTMLInputElement | null) => input?.focus();

const WHEN = new Intl.DateTimeFormat(undefined, { dateStyle: 'medium', timeStyle: 'short' });

function Row({ entry, shelf, changed, close, remove }: RowProps) {
  const [naming, setNaming] = useState(false);
  const [unreadable, setUnreadable] = useState<string | null>(null);
  const name = entry.name === '' ? 'Without a name' : entry.name;
  const elsewhere = entry.open === 'elsewhere';
  const openIt = async () => {
    const reason = await shelf.open(entry.id);
    setUnreadable(reason);
    if (reason === null) close();
  };
  return (
    <li>
      {naming ? (
        <form
          onSubmit={(event) => {
            event.preventDefault();
            const text = new FormData(event.currentTarget).get('name');
            setNaming(false);
            if (typeof text === 'string') void shelf.rename(entry.id, text.trim()).then(changed);
          }}
        >
          <input
            name="name"
            defaultValue={entry.name}
            maxLength={MAX_NAME_CHARACTERS}
            aria-label={`New name of ${name}`}
            ref={focus}
            onKeyDown={(event) => {
              if (event.key !== 'Escape') return;
              event.preventDefault();
              setNaming(false);
            }}
          />
          <button type="submit" className="button">
            Rename
          </button>
        </form>
      ) : (
        <button type="button" className="kept-open" onClick={() => void openIt()}>
          <KeptPortrait shelf={shelf} id={entry.id} edited_ms={entry.edited_ms} />
          <span>
            <b>{name}</b>
            <small>
              {entry.open === 'here'
                ? 'open now'
                : `${WHEN.format(entry.edited_ms)}${elsewhere ? ', open in another tab' : ''}`}
            </small>
          </span>
        </button>
      )}
      <div className="kept-tools">
        <button
          type="button"
          className="icon"
          aria-label={`Rename ${name}`}
          title="Rename"
          disabled={elsewhere}
          onClick={() => setNaming(!naming)}
        >
          <Pencil />
        </button>
        <button
          type="button"
          className="icon"
          aria-label={`Duplicate ${name}`}
          title="Duplicate"
          onClick={() => void shelf.duplicate(entry.id).then(changed)}
        >
          <Copy />
        </button>
        <button
          type="button"
          className="icon"
          aria-label={`Delete ${name}`}
          title="Delete"
          disabled={elsewhere}
          onClick={() => void remove()}
        >
          <Trash2 />
        </button>
      </div>
      {(unreadable !== null || entry.spoilt) && (
        <p className="kept-fault" role={unreadable === null ? undefined : 'alert'}>
          {unreadable ?? 'Something of it could not be read back.'}{' '}
          <button type="button" className="button" onClick={() => void shelf.saveFound(entry.id, entry.name)}>
            <FileDown /> Save what was found
          </button>
        </p>
      )}
    </li>
  );
}
