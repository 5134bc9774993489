/** Why a file was not opened, fault by fault: the place in words and what is wrong there, then its path in the file. */
import { useEffect, useRef } from 'react';
import type { Fault } from '../design/faults.ts';
import { useApp } from './AppContext.ts';
import { placeWords } from './faultWords.ts';

export function RefusedFile() {
  const refused = useApp((state) => state.refused);
  const setRefused = useApp((state) => state.setRefused);
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (refused && !dialog.current?.open) dialog.current?.showModal();
    if (!refused) dialog.current?.close();
  }, [refused]);
  return (
    <dialog ref={dialog} aria-labelledby="refused-title" onClose={() => setRefused(null)}>
      <h2 id="refused-title">Not opened</h2>
      {refused && (
        <>
          <p>
            <strong>{refused.fileName}</strong> is not a design that can be opened. What was open is still
            open.
          </p>
          <ul className="faults">
            {refused.faults.map((fault, i) => (
              <FaultRow key={i} fault={fault} />
            ))}
          </ul>
        </>
      )}
      <form method="dialog">
        <button type="submit" className="button">
          Close
        </button>
      </form>
    </dialog>
  );
}

function FaultRow({ fault: { path, message } }: { fault: Fault }) {
  if (path === '') return <li>{message}</li>;
  return (
    <li>
      <b>{placeWords(path)}:</b> {message} <code>{path}</code>
    </li>
  );
}
