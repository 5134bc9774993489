/** The clock of the mode, and the bell that rings while a clamp timer is over and not yet silenced. */
import { useCallback, useEffect, useRef, useState } from 'react';
import { Bell, type BellState } from './bell.ts';
import type { ClampTimer } from './shopMemory.ts';

const TICK_MS = 250;
const RING_EVERY_MS = 2_500;
/** Then it has been heard, or nobody is there. */
const MOST_RINGS = 72;

export interface Alarm {
  readonly now_ms: number;
  readonly bell: BellState;
  /** Reads the clock at once, when a timer is set. */
  readonly readClock: () => void;
  readonly test: () => void;
  /** Call from touches and keys. */
  readonly wakeBell: () => void;
}

export function useAlarm(timers: Readonly<Record<string, ClampTimer>>): Alarm {
  const [now_ms, setNow] = useState(() => Date.now());
  const [state, setState] = useState<BellState>('needs-touch');
  const bell = useRef<Bell | null>(null);
  useEffect(() => {
    bell.current = new Bell(setState);
    return () => {
      bell.current?.close();
      bell.current = null;
    };
  }, []);

  const ends = Object.values(timers).map((timer) => timer.ends_ms);
  const any = ends.length > 0;
  const over = ends.some((end) => end <= now_ms);
  useEffect(() => {
    if (!any) return undefined;
    const clock = setInterval(() => setNow(Date.now()), TICK_MS);
    return () => clearInterval(clock);
  }, [any]);
  useEffect(() => {
    if (!over || state !== 'ready') return undefined;
    let rings = 0;
    const ring = () => {
      rings += 1;
      if (rings > MOST_RINGS) clearInterval(repeat);
      else bell.current?.ring();
    };
    const repeat = setInterval(ring, RING_EVERY_MS);
    ring();
    return () => clearInterval(repeat);
  }, [over, state]);

  const readClock = useCallback(() => setNow(Date.now()), []);
  const wakeBell = useCallback(() => void bell.current?.wake(), []);
  const test = useCallback(() => {
    void bell.current?.wake().then(() => bell.current?.ring());
  }, []);
  return { now_ms, bell: state, readClock, test, wakeBell };
}
