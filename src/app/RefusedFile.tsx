/** Why a file was not opened, fault by fault: the place in words and what is wrong there, then its path in the file. */
import type { Fault } from '../design/faults.ts';
import { useApp } from './AppContext.ts';
import { placeWords } from './faultWords.ts';
import { WindowDialog } from './WindowDialog.tsx';

export function RefusedFile() {
  const refused = useApp((state) => state.refused);
  const setRefused = useApp((state) => state.setRefused);
  return (
    <WindowDialog shown={refused !== null} title="Not opened" onClose={() => setRefused(null)}>
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
    </WindowDialog>
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
