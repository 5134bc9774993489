/**
 * Keeps the screen on while the mode is open (Screen Wake Lock API, W3C). The browser lets the lock go when the
 * page is hidden; it is asked for again when the page is seen again.
 */
import { useEffect, useState } from 'react';

export type WakeState =
  { readonly state: 'asking' | 'held' } | { readonly state: 'none'; readonly reason: string };

export function useWakeLock(): WakeState {
  const [wake, setWake] = useState<WakeState>({ state: 'asking' });
  useEffect(() => {
    let over = false;
    let lock: WakeLockSentinel | null = null;
    const ask = async () => {
      if (over || document.visibilityState !== 'visible' || (lock && !lock.released)) return;
      if (!('wakeLock' in navigator)) {
        setWake({ state: 'none', reason: 'this browser has no way to do it' });
        return;
      }
      try {
        const got = await navigator.wakeLock.request('screen');
        if (over) {
          await got.release();
          return;
        }
        lock = got;
        setWake({ state: 'held' });
        got.addEventListener('release', () => {
          if (!over) setWake({ state: 'none', reason: 'the browser took it back' });
        });
      } catch (error) {
        if (!over) setWake({ state: 'none', reason: reasonOf(error) });
      }
    };
    const seen = () => void ask();
    document.addEventListener('visibilitychange', seen);
    void ask();
    return () => {
      over = true;
      document.removeEventListener('visibilitychange', seen);
      if (lock) void lock.release();
    };
  }, []);
  return wake;
}

/** The refusal that the standard names, for a low battery among others, in words; anything else as the browser says it. */
function reasonOf(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  return error.name === 'NotAllowedError' ? 'the browser does not allow it now' : error.message;
}
