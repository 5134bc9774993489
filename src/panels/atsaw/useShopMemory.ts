/** The shop memory of one piece of work in this browser's storage, and whether it can be kept there. */
import { useCallback, useState } from 'react';
import { readMemory, type ShopMemory } from './shopMemory.ts';

const KEY = 'kerfweave-saw-';

export interface KeptMemory {
  readonly memory: ShopMemory;
  readonly change: (change: (memory: ShopMemory) => ShopMemory) => void;
  /** False: storage is blocked or full, and a reload forgets the timer. */
  readonly kept: boolean;
}

export function useShopMemory(workId: string): KeptMemory {
  const [state, setState] = useState(() => loadShopMemory(workId));
  const change = useCallback(
    (to: (memory: ShopMemory) => ShopMemory) =>
      setState((before) => {
        const memory = to(before.memory);
        return memory === before.memory ? before : { memory, kept: save(workId, memory) };
      }),
    [workId],
  );
  return { ...state, change };
}

export function loadShopMemory(workId: string): Pick<KeptMemory, 'memory' | 'kept'> {
  try {
    return { memory: readMemory(localStorage.getItem(KEY + workId)), kept: true };
  } catch {
    // Storage is blocked; the timer's own words say that a reload forgets it.
    return { memory: readMemory(null), kept: false };
  }
}

function save(workId: string, memory: ShopMemory): boolean {
  try {
    localStorage.setItem(KEY + workId, JSON.stringify(memory));
    return true;
  } catch {
    // As above: full or blocked.
    return false;
  }
}
