/**
 * A client's page: the app with the design in its address, and nothing else. Nothing is read from or written to this
 * browser's storage, because the library is for a maker's own designs; the address stays as it is, so that loading the
 * page again, or a bookmark, shows the same pieces.
 */
import type { Library } from '../../files/library.ts';
import { linkFaultLine, linkPurpose, readLink } from '../../files/link.ts';
import { newDocument } from '../openDocument.ts';
import { workOffline } from '../offline.ts';
import { firstStarter } from '../starter.ts';
import { answerHandedOver } from './reply.ts';
import { createAppStore, type AppStore } from '../store.ts';
import { workOf } from '../work.ts';
import { historyOf } from '../history.ts';

/** The store of a client's page; null when the address is not for a client. */
export function startClientPage(): AppStore | null {
  const { hash } = window.location;
  if (linkPurpose(hash) !== 'client') return null;
  const read = readLink(hash);
  const newer = read.ok ? null : (read.newer ?? null);
  const shown = read.ok ? null : (newer?.design ?? null);
  const work = read.ok
    ? {
        variants: read.work.variants.map((variant, i) => ({ ...variant, id: `v${i + 1}` })),
        // The first on the page is the one on the stage, whichever the maker wrote at last.
        active: 0,
      }
    : workOf(shown ?? firstStarter());
  const fault = read.ok || shown ? null : linkFaultLine(read);
  const store = createAppStore(work, {
    map: false,
    document: newDocument('link', { newer }),
    history: historyOf(work),
    client: { fault },
  });
  const { setStation, say } = store.getState();
  setStation('show');
  if (newer)
    say(
      'This piece was made with a newer Kerfweave, so some of it may be missing here. Load the page again to get the newest one.',
    );
  document.title = `${store.getState().design.name} · Kerfweave`;
  return asPageOfItsOwn(store);
}

/**
 * The store of a page that was opened by a client's answer and has nothing left to do, because the tab that has the piece
 * open has recorded it; null when there is no such tab, or the address is no answer.
 */
export async function startHandedOver(library: Library): Promise<AppStore | null> {
  const { hash } = window.location;
  if (linkPurpose(hash) !== 'reply') return null;
  const handedOver = await answerHandedOver(hash, library);
  if (handedOver === null) return null;
  return asPageOfItsOwn(
    createAppStore(workOf(firstStarter()), { map: false, client: { fault: null, handedOver } }),
  );
}

function asPageOfItsOwn(store: AppStore): AppStore {
  // Another address in the same tab is another page.
  window.addEventListener('hashchange', () => window.location.reload());
  workOffline(store, { keepNow: () => undefined, safe: () => Promise.resolve(true) });
  return store;
}
