/** Whether all choices stand on the stage, or the one that is looked at. */
import { Columns2 } from 'lucide-react';
import { useApp } from '../AppContext.ts';

export function SideBySide() {
  const compare = useApp((state) => state.view.compare);
  const setView = useApp((state) => state.setView);
  return (
    <button
      type="button"
      className="button"
      aria-pressed={compare}
      onClick={() => setView({ compare: !compare })}
    >
      <Columns2 /> Side by side
    </button>
  );
}
