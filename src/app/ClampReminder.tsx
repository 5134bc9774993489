/** Clamps that are on, or whose time is up, in the bar of the window: the way back to the saw. */
import { Timer } from 'lucide-react';
import { useEffect, useState } from 'react';
import { loadShopMemory } from '../panels/atsaw/useShopMemory.ts';
import { clockText } from '../panels/atsaw/shopMemory.ts';
import { useApp } from './AppContext.ts';

const TICK_MS = 500;

export function ClampReminder() {
  const workId = useApp(({ document, work }) => `${document.id}-${work.variants[work.active].id}`);
  const [ends_ms, setEnds] = useState<number | null>(null);
  const [now_ms, setNow] = useState(() => Date.now());
  useEffect(() => {
    // Timers are set and silenced at the saw; what is left of them shows when one comes back from there.
    const read = () => {
      setEnds(firstEnd_ms(workId));
      setNow(Date.now());
    };
    read();
    window.addEventListener('hashchange', read);
    return () => window.removeEventListener('hashchange', read);
  }, [workId]);
  useEffect(() => {
    if (ends_ms === null) return undefined;
    const clock = setInterval(() => setNow(Date.now()), TICK_MS);
    return () => clearInterval(clock);
  }, [ends_ms]);
  if (ends_ms === null) return null;
  const over = ends_ms <= now_ms;
  return (
    <a className="clamps" href="#/saw" data-over={over} title="The clamps of this piece: back to the saw">
      <Timer aria-hidden="true" />
      <span role="timer">{over ? 'Clamps: time is up' : `Clamps ${clockText(ends_ms - now_ms)}`}</span>
    </a>
  );
}

/** When the first of the clamps' timers ends; null: none is on. */
function firstEnd_ms(workId: string): number | null {
  const ends = Object.values(loadShopMemory(workId).memory.timers).map(({ ends_ms }) => ends_ms);
  return ends.length === 0 ? null : Math.min(...ends);
}
