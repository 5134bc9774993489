/** Opening a file that was chosen or dropped, and saving what is open: from the menu, the keys and the drop alike. */
import { historyOf } from './history.ts';
import { newDocument } from './openDocument.ts';
import { readDesignFile, saveDesignFile } from './openSave.ts';
import type { AppStore } from './store.ts';
import { workOf } from './work.ts';

/** A bad file is reported and changes nothing. */
export async function openFile(store: AppStore, file: File): Promise<void> {
  const opened = await readDesignFile(file);
  if (opened.ok) store.getState().openDesign(opened.design, 'file');
  else if (opened.newer?.design)
    store
      .getState()
      .openDocument(newDocument('file', { newer: opened.newer }), historyOf(workOf(opened.newer.design)));
  else store.getState().setRefused(opened);
}

export async function saveDesign(store: AppStore): Promise<void> {
  try {
    const { design, document } = store.getState();
    await saveDesignFile(design, document.newer);
  } catch (error) {
    store.getState().say(`The file was not saved: ${error instanceof Error ? error.message : String(error)}`);
  }
}
