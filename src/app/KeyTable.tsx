/** The table of keys, a dialog opened with `?`. */
import { useEffect, useRef } from 'react';
import { useApp } from './AppContext.ts';
import { KEY_BINDINGS } from './keys.ts';

const GROUPS = ['Design', 'Moments', 'Stage', 'Stations'] as const;

export function KeyTable() {
  const shown = useApp((state) => state.keysShown);
  const showKeys = useApp((state) => state.showKeys);
  const letterKeys = useApp((state) => state.letterKeys);
  const setLetterKeys = useApp((state) => state.setLetterKeys);
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (shown && !dialog.current?.open) dialog.current?.showModal();
    if (!shown) dialog.current?.close();
  }, [shown]);
  return (
    <dialog ref={dialog} className="keys" aria-labelledby="keys-title" onClose={() => showKeys(false)}>
      <h2 id="keys-title">Keys</h2>
      {GROUPS.map((group) => (
        <section key={group}>
          <h3>{group}</h3>
          <dl>
            {KEY_BINDINGS.filter((binding) => binding.group === group).map((binding) => (
              <div key={binding.keys}>
                <dt>
                  {binding.keys.split(' ').map((key, n) => (key === '–' ? ' – ' : <kbd key={n}>{key}</kbd>))}
                </dt>
                <dd>{binding.does}</dd>
              </div>
            ))}
          </dl>
        </section>
      ))}
      <label className="switch">
        <input
          type="checkbox"
          checked={letterKeys}
          onChange={(event) => setLetterKeys(event.target.checked)}
        />
        Keys of a single letter or digit
      </label>
      <form method="dialog">
        <button type="submit" className="button primary">
          Close
        </button>
      </form>
    </dialog>
  );
}
