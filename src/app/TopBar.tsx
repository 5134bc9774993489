/** Name of the design, undo and redo, unit, file, theme, help. */
import { CircleHelp, Moon, Redo2, Sun, Undo2 } from 'lucide-react';
import { MAX_NAME_CHARACTERS } from '../design/limits.ts';
import { useApp } from './AppContext.ts';
import { ClampReminder } from './ClampReminder.tsx';
import { FileMenu } from './FileMenu.tsx';
import { KeptMark } from './KeptMark.tsx';

export function TopBar() {
  const past = useApp((state) => state.history.past);
  const future = useApp((state) => state.history.future);
  const undo = useApp((state) => state.undo);
  const redo = useApp((state) => state.redo);
  const unit = useApp((state) => state.design.unit);
  const setUnit = useApp((state) => state.setUnit);
  const switchTheme = useApp((state) => state.switchTheme);
  const showKeys = useApp((state) => state.showKeys);
  const undoLabel = past.length > 0 ? `Undo: ${past[past.length - 1].label}` : 'Nothing to undo';
  const redoLabel = future.length > 0 ? `Redo: ${future[0].label}` : 'Nothing to redo';
  return (
    <header className="bar">
      <span className="wordmark">Kerfweave</span>
      <DesignName />
      <KeptMark />
      <ClampReminder />
      <div className="bar-tools">
        <FileMenu />
        <button
          type="button"
          className="icon"
          onClick={undo}
          disabled={past.length === 0}
          aria-label={undoLabel}
          title={undoLabel}
        >
          <Undo2 />
        </button>
        <button
          type="button"
          className="icon"
          onClick={redo}
          disabled={future.length === 0}
          aria-label={redoLabel}
          title={redoLabel}
        >
          <Redo2 />
        </button>
        <fieldset className="segmented" aria-label="Unit">
          <button type="button" aria-pressed={unit === 'in'} onClick={() => setUnit('in')}>
            in
          </button>
          <button type="button" aria-pressed={unit === 'mm'} onClick={() => setUnit('mm')}>
            mm
          </button>
        </fieldset>
        <button
          type="button"
          className="icon wide-only"
          aria-label="Light or dark"
          title="Light or dark"
          onClick={switchTheme}
        >
          <Sun className="theme-light" />
          <Moon className="theme-dark" />
        </button>
        <button
          type="button"
          className="icon wide-only"
          aria-label="Keys"
          title="Keys (?)"
          onClick={() => showKeys(true)}
        >
          <CircleHelp />
        </button>
      </div>
    </header>
  );
}

function DesignName() {
  const name = useApp((state) => state.design.name);
  const renameDesign = useApp((state) => state.renameDesign);
  const endGesture = useApp((state) => state.endGesture);
  return (
    <input
      className="design-name name-field"
      aria-label="Name of the design"
      value={name}
      maxLength={MAX_NAME_CHARACTERS}
      spellCheck={false}
      onChange={(event) => renameDesign(event.target.value)}
      onBlur={endGesture}
    />
  );
}
