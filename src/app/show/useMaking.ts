/** A piece of work that takes its time and can be stopped: how far it is, how it ends, and what is said then. */
import { useCallback, useEffect, useRef, useState } from 'react';
import { useApp } from '../AppContext.ts';

export interface Making {
  /** 0…1. */
  readonly share: number;
  readonly words: string;
}

export interface MakingWork {
  /** `The film`: how the work is named when it fails or ends early. */
  readonly name: string;
  readonly run: (signal: AbortSignal, report: (making: Making) => void) => Promise<string>;
}

const STOPPED = 'stopped';
const LEFT = 'left';

/** `make` starts the work and says its last sentence; leaving the station ends it, with a word. */
export function useMaking() {
  const say = useApp((state) => state.say);
  const [making, setMaking] = useState<Making | null>(null);
  const running = useRef<AbortController | null>(null);

  const make = useCallback(
    async ({ name, run }: MakingWork): Promise<void> => {
      if (running.current) return;
      const controller = new AbortController();
      running.current = controller;
      setMaking({ share: 0, words: 'Starting …' });
      try {
        say(await run(controller.signal, setMaking));
      } catch (error) {
        const { aborted, reason } = controller.signal as { aborted: boolean; reason: unknown };
        if (!aborted) say(`${name} was not saved: ${wordsOf(error)}.`);
        else if (reason === LEFT) say(`${name} was not finished: the station was left.`);
      }
      running.current = null;
      setMaking(null);
    },
    [say],
  );
  useEffect(() => () => running.current?.abort(LEFT), []);
  const stop = useCallback(() => running.current?.abort(STOPPED), []);
  return { making, make, stop };
}

function wordsOf(error: unknown): string {
  return (error instanceof Error ? error.message : String(error)).replace(/\.$/, '');
}
