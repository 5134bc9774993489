/** Brings the store to life: theme on the root element, station in the address, keys of the whole window. */
import { STATIONS, type Station } from '../panels/bench.ts';
import { listenForKeys } from './keys.ts';
import { STARTER } from './starter.ts';
import { createAppStore, type AppStore } from './store.ts';

export function startApp(): AppStore {
  const store = createAppStore(STARTER);
  followTheme(store);
  followAddress(store);
  listenForKeys(store);
  return store;
}

function followTheme(store: AppStore): void {
  const dark = window.matchMedia('(prefers-color-scheme: dark)');
  const apply = () => {
    const { theme } = store.getState().view;
    document.documentElement.dataset.theme = theme === 'system' ? (dark.matches ? 'dark' : 'light') : theme;
  };
  apply();
  dark.addEventListener('change', apply);
  store.subscribe((state, before) => {
    if (state.view.theme !== before.view.theme) apply();
  });
}

function stationIn(hash: string): Station | null {
  const name = hash.replace(/^#\/?/, '');
  return STATIONS.find((station) => station === name) ?? null;
}

function followAddress(store: AppStore): void {
  const read = () => {
    const station = stationIn(window.location.hash);
    if (station) store.getState().setStation(station);
  };
  read();
  window.addEventListener('hashchange', read);
  store.subscribe((state, before) => {
    if (state.station !== before.station && stationIn(window.location.hash) !== state.station)
      window.location.hash = `#/${state.station}`;
  });
}
