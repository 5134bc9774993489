/** The table of keys, a dialog opened with `?`. */
import { useApp } from './AppContext.ts';
import { KEY_BINDINGS, KEYS_IN_PLACE, type KeyBinding } from './keys.ts';
import { WindowDialog } from './WindowDialog.tsx';

const GROUPS = ['Design', 'Moments', 'Stage', 'Stations'] as const;

const SECTIONS: readonly { name: string; rows: readonly Pick<KeyBinding, 'keys' | 'does'>[] }[] = [
  ...GROUPS.map((name) => ({ name, rows: KEY_BINDINGS.filter(({ group }) => group === name) })),
  ...[...new Set(KEYS_IN_PLACE.map(({ place }) => place))].map((name) => ({
    name,
    rows: KEYS_IN_PLACE.filter(({ place }) => place === name),
  })),
];

export function KeyTable() {
  const shown = useApp((state) => state.keysShown);
  const showKeys = useApp((state) => state.showKeys);
  const letterKeys = useApp((state) => state.letterKeys);
  const setLetterKeys = useApp((state) => state.setLetterKeys);
  return (
    <WindowDialog shown={shown} title="Keys" className="keys" closeFirst onClose={() => showKeys(false)}>
      {SECTIONS.map(({ name, rows }) => (
        <section key={name}>
          <h3>{name}</h3>
          <dl>
            {rows.map(({ keys, does }) => (
              <div key={keys}>
                <dt>{keys.split(' ').map((key, n) => (key === '–' ? ' – ' : <kbd key={n}>{key}</kbd>))}</dt>
                <dd>{does}</dd>
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
      <a className="licences" href="./licences.txt" target="_blank" rel="noopener">
        Licences of what Kerfweave is made with
      </a>
    </WindowDialog>
  );
}
