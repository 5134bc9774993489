/** Whether the last edit is safe in this browser's storage, and the way out when it is not. */
import { useApp, useAppStore } from './AppContext.ts';
import { saveDesign } from './fileCommands.ts';
import { NewerCopy } from './NewerCopy.tsx';

/** What the shortest words mean. */
const TITLES: Readonly<Record<string, string>> = {
  Kept: 'Every change is kept in this browser',
  'Read only': 'Made with a newer Kerfweave: it can be looked at and copied here, not changed',
};

export function KeptMark() {
  const store = useAppStore();
  const kept = useApp((state) => state.kept);
  const newer = useApp((state) => state.document.newer);
  const words =
    kept.state === 'failed'
      ? `Cannot keep: ${kept.reason}`
      : newer
        ? 'Read only'
        : kept.state === 'kept'
          ? 'Kept'
          : 'Keeping …';
  return (
    <>
      <output className="saved" data-state={kept.state} title={TITLES[words] ?? words}>
        {words}
      </output>
      {newer?.design && <NewerCopy newer={newer} />}
      {kept.state === 'failed' && (
        <button type="button" className="button" onClick={() => void saveDesign(store)}>
          Save to a file
        </button>
      )}
    </>
  );
}
