/** Brings the store to life: theme on the root element, station in the address, keys of the whole window. */
import { keepWork, restoreWork } from '../files/autosave.ts';
import { openFile } from './FileMenu.tsx';
import { STATIONS, type Station } from '../panels/bench.ts';
import { listenForKeys } from './keys.ts';
import { followReports } from './reports.ts';
import { firstStarter } from './starter.ts';
import { createAppStore, workOf, type AppStore } from './store.ts';

export async function startApp(): Promise<AppStore> {
  const restored = await restoreWork();
  const store = createAppStore(restored.state === 'restored' ? restored.work : workOf(firstStarter()), {
    map: window.matchMedia('(min-width: 1181px)').matches,
  });
  if (restored.state === 'unreadable')
    store.getState().say(`The design that was open last could not be read back: ${restored.reason}.`);
  followReports(store);
  keepEveryEdit(store);
  openDroppedFiles(store);
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

/** Longest time from an edit to the start of its writing, ms. */
const KEEP_AFTER_MS = 250;

/** Writes the work after every edit, and at once when the page is hidden. */
function keepEveryEdit(store: AppStore): void {
  let timer: ReturnType<typeof setTimeout> | null = null;
  const write = async () => {
    timer = null;
    const { work } = store.getState();
    const result = await keepWork(work);
    if (store.getState().work !== work) return;
    store.getState().setKept(result.ok ? { state: 'kept' } : { state: 'failed', reason: result.reason });
  };
  store.subscribe((state, before) => {
    if (state.work === before.work) return;
    if (state.kept.state === 'kept') state.setKept({ state: 'keeping' });
    timer ??= setTimeout(() => void write(), KEEP_AFTER_MS);
  });
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState !== 'hidden' || timer === null) return;
    clearTimeout(timer);
    void write();
  });
}

function openDroppedFiles(store: AppStore): void {
  window.addEventListener('dragover', (event) => {
    if (event.dataTransfer?.types.includes('Files')) event.preventDefault();
  });
  window.addEventListener('drop', (event) => {
    const file = event.dataTransfer?.files[0];
    if (!file) return;
    event.preventDefault();
    void openFile(store, file);
  });
}
