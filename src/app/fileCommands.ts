/**
 * Opening a file that was chosen or dropped, and saving what is open: from the menu, the keys and the drop alike. A
 * design that came from a file of the disk, or was saved to one, is saved to that file again.
 */
import { historyOf } from './history.ts';
import { newDocument, type OpenDocument } from './openDocument.ts';
import {
  type DiskFile,
  downloadDesign,
  fileTextOf,
  hasOpenPicker,
  hasSavePicker,
  pickFileToOpen,
  pickFileToSave,
  readDesignFile,
  wasChanged,
  writeDiskFile,
} from './openSave.ts';
import type { AppStore } from './store.ts';
import { workOf } from './work.ts';

/** For as long as the page and the document are open; browsers ask anew for every page. */
const diskFiles = new WeakMap<OpenDocument, DiskFile>();

/** A bad file is reported and changes nothing. `handle`: by which the file can be written again. */
export async function openFile(
  store: AppStore,
  file: File,
  handle: FileSystemFileHandle | null = null,
): Promise<void> {
  const opened = await readDesignFile(file);
  if (opened.ok) store.getState().openDesign(opened.design, 'file');
  else if (opened.newer?.design)
    store
      .getState()
      .openDocument(newDocument('file', { newer: opened.newer }), historyOf(workOf(opened.newer.design)));
  else {
    store.getState().setRefused(opened);
    return;
  }
  if (handle) diskFiles.set(store.getState().document, { handle, seen_ms: file.lastModified });
}

/** Lets the user choose a file to open. */
export async function chooseFile(store: AppStore): Promise<void> {
  if (!hasOpenPicker(window)) {
    document.getElementById('open-file')?.click();
    return;
  }
  try {
    const handle = await pickFileToOpen(window);
    if (handle) await openFile(store, await handle.getFile(), handle);
  } catch (error) {
    store.getState().say(`The file was not opened: ${reasonOf(error)}`);
  }
}

/** The files of a drop; what is dropped is known only until the event is over. */
export function openDropped(store: AppStore, dropped: DataTransfer): boolean {
  const file = dropped.files[0] as File | undefined;
  if (!file) return false;
  const item = Array.from(dropped.items).find(({ kind }) => kind === 'file') as
    { getAsFileSystemHandle?: () => Promise<FileSystemHandle | null> } | undefined;
  const asked = item?.getAsFileSystemHandle?.();
  const open = async () => {
    // A drop that gives no handle still gives the file.
    const handle = await asked?.catch(() => null);
    await openFile(store, file, handle?.kind === 'file' ? (handle as FileSystemFileHandle) : null);
  };
  void open();
  return true;
}

/** To the file that the design came from or was saved to, else as a new one. */
export function saveDesign(store: AppStore): Promise<void> {
  return save(store, diskFiles.get(store.getState().document) ?? null);
}

export function saveDesignAs(store: AppStore): Promise<void> {
  return save(store, null);
}

async function save(store: AppStore, file: DiskFile | null): Promise<void> {
  const { design, document, work, say } = store.getState();
  const text = fileTextOf(design, document.newer);
  const others =
    work.variants.length > 1
      ? `The file holds ${work.variants[work.active].name} alone; a link holds every variant.`
      : '';
  try {
    if (file && (await wasChanged(file))) {
      say(
        `${file.handle.name} was changed by something else since. Nothing was saved: save it as another file, or open it again.`,
      );
      return;
    }
    if (!file && !hasSavePicker(window)) {
      downloadDesign(design, text);
      if (others !== '') say(others);
      return;
    }
    const handle = file?.handle ?? (hasSavePicker(window) ? await pickFileToSave(window, design) : null);
    if (!handle) return;
    diskFiles.set(document, await writeDiskFile(handle, text));
    if (others !== '') say(`Saved to ${handle.name}. ${others}`);
    else sayInPassing(store, `Saved to ${handle.name}.`);
  } catch (error) {
    say(`The file was not saved: ${reasonOf(error)}`);
  }
}

/** How long a sentence stands that asks for nothing, ms. */
const PASSING_MS = 5_000;

function sayInPassing(store: AppStore, sentence: string): void {
  store.getState().say(sentence);
  setTimeout(() => {
    if (store.getState().said === sentence) store.getState().say(null);
  }, PASSING_MS);
}

function reasonOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
