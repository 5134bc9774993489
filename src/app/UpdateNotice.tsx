/** A new version is there, and waits for the maker's word. */
import { useState } from 'react';
import { useApp } from './AppContext.ts';
import './keep.css';

export function UpdateNotice() {
  const update = useApp((state) => state.update);
  const [later, setLater] = useState(false);
  if (!update || later) return null;
  return (
    <output className="update">
      <p>A new version of Kerfweave is ready.</p>
      <button type="button" className="button primary" onClick={update}>
        Use it now
      </button>
      <button type="button" className="button quiet" onClick={() => setLater(true)}>
        Later
      </button>
    </output>
  );
}
