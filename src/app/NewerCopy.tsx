/** The way on from a design of a newer Kerfweave, which is open for reading only: a copy without what is not known here. */
import { CopyPlus } from 'lucide-react';
import { useRef } from 'react';
import { MAX_FAULTS } from '../design/faults.ts';
import type { NewerFile } from '../design/parse.ts';
import { useAppStore } from './AppContext.ts';
import { copyName } from './openDocument.ts';

export function NewerCopy({ newer }: { readonly newer: NewerFile }) {
  const store = useAppStore();
  const dialog = useRef<HTMLDialogElement>(null);
  const { unknown, design, version } = newer;
  const copy = () => {
    dialog.current?.close();
    if (!design) return;
    store.getState().openDesign({ ...design, name: copyName(design.name) }, 'copy');
    store.getState().say('This is the copy. The design as it came is still among your designs.');
  };
  return (
    <>
      <button
        type="button"
        className="icon"
        aria-label="Make an editable copy …"
        title="Make an editable copy …"
        onClick={() => dialog.current?.showModal()}
      >
        <CopyPlus />
      </button>
      <dialog ref={dialog} aria-labelledby="newer-title">
        <h2 id="newer-title">An editable copy</h2>
        <p>
          This design was made with version {version} of the file. The copy has what this Kerfweave knows, as
          it understands it; the design as it came stays as it is.
        </p>
        {unknown.length === 0 ? (
          <p>Nothing would be lost: it uses no field that is not known here.</p>
        ) : (
          <>
            <p>The copy would be without:</p>
            <ul className="faults">
              {unknown.slice(0, MAX_FAULTS).map((path) => (
                <li key={path}>
                  <code>{path}</code>
                </li>
              ))}
              {unknown.length > MAX_FAULTS && <li>and {unknown.length - MAX_FAULTS} more</li>}
            </ul>
          </>
        )}
        <div className="newer-ways">
          <button type="button" className="button primary" onClick={copy}>
            Make the copy
          </button>
          <button type="button" className="button" onClick={() => dialog.current?.close()}>
            Keep reading
          </button>
        </div>
      </dialog>
    </>
  );
}
