/** The store's edits, for fields that have no place of their own to say why a change cannot be. */
import { useMemo } from 'react';
import { useAppStore } from '../AppContext.ts';
import type { AppState } from '../store.ts';

export function useEdits(): Pick<AppState, 'edit' | 'editWork' | 'endGesture'> {
  const store = useAppStore();
  return useMemo(() => {
    const { edit, editWork, endGesture, say } = store.getState();
    const told = (fault: string | null) => {
      if (fault !== null) say(`Not changed: ${fault}.`);
      return fault;
    };
    return {
      edit: (...change) => told(edit(...change)),
      editWork: (...change) => told(editWork(...change)),
      endGesture,
    };
  }, [store]);
}
