/** How far a picture or a film is, and the button that stops it. */
import { Square } from 'lucide-react';
import type { Making } from './useMaking.ts';

interface MakingBarProps {
  readonly name: string;
  readonly making: Making;
  readonly onStop: () => void;
}

export function MakingBar({ name, making, onStop }: MakingBarProps) {
  return (
    <div className="making">
      <progress max={1} value={making.share} aria-label={name} />
      <span className="making-words">{making.words}</span>
      <button type="button" className="button" onClick={onStop}>
        <Square /> Stop
      </button>
    </div>
  );
}
