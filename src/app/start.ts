/** Brings the store to life: theme on the root element, station in the address, keys of the whole window. */
import { Library } from '../files/library.ts';
import { isDesignLink, linkPurpose } from '../files/link.ts';
import { openDropped } from './fileCommands.ts';
import { STATIONS, type Station } from '../panels/bench.ts';
import { keepEveryEdit } from './keep.ts';
import { createShelf, type Shelf } from './keepShelf.ts';
import { openingFromLibrary } from './keepStart.ts';
import { listenForKeys } from './keys.ts';
import { followReports } from './reports.ts';
import { workOffline } from './offline.ts';
import { startClientPage, startHandedOver } from './show/clientStart.ts';
import { takeOthersAnswers } from './show/reply.ts';
import { createAppStore, type AppStore } from './store.ts';

export async function startApp(): Promise<AppStore> {
  const client = startClientPage();
  if (client) {
    followTheme(client);
    return client;
  }
  const library = new Library();
  const handedOver = await startHandedOver(library);
  if (handedOver) {
    followTheme(handedOver);
    return handedOver;
  }
  const first = await openingFromLibrary(library);
  const { document, history } = first;
  const store = createAppStore(history.present, {
    map: window.matchMedia('(min-width: 1181px)').matches,
    document,
    history,
  });
  const keeping = keepEveryEdit(store, library, first.held);
  const shelf = createShelf(store, keeping);
  store.setState({ shelf });
  store.getState().say(first.words);
  if (first.fault) store.getState().setKept({ state: 'failed', reason: first.fault.reason });
  followReports(store);
  takeOthersAnswers(store);
  openDroppedFiles(store);
  followTheme(store);
  await followAddress(store, shelf);
  listenForKeys(store);
  workOffline(store, keeping);
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

async function followAddress(store: AppStore, shelf: Shelf): Promise<void> {
  const read = async () => {
    const { hash } = window.location;
    const station = stationIn(hash);
    if (station) store.getState().setStation(station);
    if (!isDesignLink(hash)) return;
    if (linkPurpose(hash) === 'client') {
      window.location.reload();
      return;
    }
    // Out of the address at once: loading the page again must not open the design once more.
    window.history.replaceState(null, '', `#/${store.getState().station}`);
    await shelf.openLink(hash);
  };
  store.subscribe((state, before) => {
    if (state.station !== before.station && stationIn(window.location.hash) !== state.station)
      window.location.hash = `#/${state.station}`;
  });
  window.addEventListener('hashchange', () => void read());
  await read();
}

function openDroppedFiles(store: AppStore): void {
  window.addEventListener('dragover', (event) => {
    if (event.dataTransfer?.types.includes('Files')) event.preventDefault();
  });
  window.addEventListener('drop', (event) => {
    if (event.dataTransfer && openDropped(store, event.dataTransfer)) event.preventDefault();
  });
}
