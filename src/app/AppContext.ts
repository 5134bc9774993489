/** The store for the components of src/app. */
import { createContext, useContext } from 'react';
import { useStore } from 'zustand';
import type { AppState, AppStore } from './store.ts';

export const AppContext = createContext<AppStore | null>(null);

export function useAppStore(): AppStore {
  const store = useContext(AppContext);
  if (!store) throw new Error('a component stands outside the AppContext');
  return store;
}

export function useApp<T>(select: (state: AppState) => T): T {
  return useStore(useAppStore(), select);
}
