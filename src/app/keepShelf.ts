/** The maker's designs as the Designs dialog lists and changes them. */
import { Keeper } from '../files/autosave.ts';
import type { Design } from '../design/document.ts';
import { download, fileStemOf } from '../files/download.ts';
import type { KeptHeader } from '../files/kept.ts';
import type { Outcome } from '../files/keptDatabase.ts';
import { historyOf } from './history.ts';
import type { Keeping } from './keep.ts';
import { timelineOf } from './keepHistory.ts';
import { openKept, opened, openLink, type Opening } from './keepStart.ts';
import { openDesigns } from './keepTabs.ts';
import { firstStarter } from './starter.ts';
import { copyName, newId } from './openDocument.ts';
import { ANSWER_ELSEWHERE, openAnswer } from './show/reply.ts';
import type { AppStore } from './store.ts';
import { activeDesign, workOf } from './work.ts';

export interface ShelfEntry extends Pick<KeptHeader, 'id' | 'name' | 'edited_ms'> {
  readonly open: 'here' | 'elsewhere' | 'no';
  /** Something of it could not be read; what was found can be saved. */
  readonly spoilt: boolean;
}

export interface Shelf {
  readonly list: () => Promise<Outcome<ShelfEntry[]>>;
  /** null when it is open, else why nothing of it can be shown. */
  readonly open: (id: string) => Promise<string | null>;
  readonly openLink: (fragment: string) => Promise<void>;
  readonly rename: (id: string, name: string) => Promise<void>;
  readonly duplicate: (id: string) => Promise<void>;
  readonly remove: (id: string) => Promise<void>;
  readonly putBack: (id: string) => Promise<void>;
  /** The design as it was kept last, for a picture of it; null when it cannot be shown. */
  readonly lookAt: (id: string) => Promise<Design | null>;
  /** Saves what the database holds of a design as a file, whatever its state. */
  readonly saveFound: (id: string, name: string) => Promise<void>;
  /** Whether the browser has promised not to clear the designs; null when it does not say. */
  readonly lasting: () => Promise<boolean | null>;
}

export function createShelf(store: AppStore, keeping: Keeping): Shelf {
  const { library } = keeping;
  const show = ({ document, history, held, words }: Opening) => {
    keeping.hold(document, held);
    store.getState().openDocument(document, history);
    if (words !== null) store.getState().say(words);
  };
  const report = (outcome: Outcome<unknown>, deed: string) => {
    if (!outcome.ok) store.getState().say(`The design was not ${deed}: ${outcome.fault.reason}.`);
  };
  const isOpen = (id: string) => store.getState().document.id === id;

  const list = async (): Promise<Outcome<ShelfEntry[]>> => {
    const { document, design } = store.getState();
    const kept = await library.list();
    const held = await openDesigns();
    const entries = (kept.ok ? kept.value : []).map(({ id, name, edited_ms, spoilt }): ShelfEntry => {
      const here = id === document.id;
      return {
        id,
        name: here ? design.name : name,
        edited_ms,
        open: here ? 'here' : held.has(id) ? 'elsewhere' : 'no',
        spoilt: spoilt || (here && keeping.spoilt()),
      };
    });
    // What could not be written is still in this tab.
    const known = new Set(entries.map(({ id }) => id));
    const unkept = [...keeping.unkept.values()].filter((one) => !known.has(one.document.id));
    entries.push(
      ...unkept.map(({ document: { id }, history }): ShelfEntry => ({
        id,
        name: activeDesign(history.present).name,
        edited_ms: Date.now(),
        open: 'no',
        spoilt: false,
      })),
    );
    return kept.ok || entries.length > 0 ? { ok: true, value: entries } : kept;
  };

  const open = async (id: string) => {
    if (isOpen(id)) return null;
    const unkept = keeping.unkept.get(id);
    if (unkept) {
      store.getState().openDocument(unkept.document, unkept.history);
      return null;
    }
    // What was open before is still being written, and may be this very design.
    await keeping.left();
    const kept = await openKept(library, id);
    if (!kept.ok) return kept.words ?? 'This design is no longer there.';
    show(kept.opening);
    return null;
  };

  return {
    list,
    open,
    openLink: async (fragment) => {
      const answer = await openAnswer(fragment, library, store, open);
      if (answer === 'recorded') return;
      const result = await openLink(library, fragment, store.getState().document.id);
      if (!result.ok) {
        store.getState().setRefused(result.refused);
        return;
      }
      if (result.opening) show(result.opening);
      store.getState().setStation('show');
      if (answer === 'elsewhere') store.getState().say(ANSWER_ELSEWHERE);
    },
    rename: async (id, name) => {
      if (isOpen(id)) {
        const fault = store.getState().renameDesign(name);
        if (fault !== null) store.getState().say(`The design was not renamed: ${fault}.`);
        store.getState().endGesture();
      } else report(await library.rename(id, name), 'renamed');
    },
    duplicate: async (id) => {
      const copy = newId();
      if (!isOpen(id)) {
        const kept = await library.list();
        const name = kept.ok ? kept.value.find((header) => header.id === id)?.name : undefined;
        report(await library.duplicate(id, { id: copy, name: copyName(name ?? '') }), 'duplicated');
        return;
      }
      const { work } = store.getState();
      const variants = work.variants.map((variant) => ({
        ...variant,
        design: { ...variant.design, name: copyName(variant.design.name) },
      }));
      const keeper = Keeper.forNew(library, { id: copy, origin: 'copy' });
      report(await keeper.keep(timelineOf(historyOf({ ...work, variants })), true), 'duplicated');
    },
    remove: async (id) => {
      if (isOpen(id)) {
        const others = await library.list();
        const next = others.ok ? others.value.find((header) => header.id !== id) : undefined;
        const kept = next ? await openKept(library, next.id) : null;
        show(
          kept?.ok
            ? kept.opening
            : { ...opened(library, workOf(firstStarter()), { origin: 'starter' }), words: null },
        );
        await keeping.left();
      }
      report(await library.setRemoved(id, true), 'deleted');
    },
    putBack: async (id) => report(await library.setRemoved(id, false), 'put back'),
    lookAt: async (id) => {
      if (isOpen(id)) return store.getState().design;
      const unkept = keeping.unkept.get(id);
      if (unkept) return activeDesign(unkept.history.present);
      const present = await library.present(id);
      return present.ok && present.value ? activeDesign(present.value) : null;
    },
    saveFound: async (id, name) => {
      const found = await library.raw(id);
      report(found, 'saved');
      if (!found.ok) return;
      const text = JSON.stringify(found.value, null, 2);
      download(new Blob([text], { type: 'application/json' }), `${fileStemOf({ name })}-as-found.json`);
    },
    lasting: async () => {
      const storage = navigator.storage as StorageManager | undefined;
      return storage?.persisted ? storage.persisted() : null;
    },
  };
}
