/** New, open, save: the menu at the right of the bar, and the word about a file that could not be opened. */
import { FileBox, FolderOpen, Keyboard, Library, Save, Share2, SquarePlus, SunMoon } from 'lucide-react';
import { useEffect, useId, useRef, useState } from 'react';
import { faultLine } from '../design/faults.ts';
import { useApp, useAppStore } from './AppContext.ts';
import { readDesignFile, saveDesignFile } from './openSave.ts';
import { STARTER_DESIGNS } from './starters.ts';
import { emptyDesign } from './starter.ts';
import { historyOf } from './history.ts';
import { newDocument } from './openDocument.ts';
import type { AppStore } from './store.ts';
import { workOf } from './work.ts';

export function FileMenu() {
  const store = useAppStore();
  const id = useId();
  const menu = useRef<HTMLDivElement>(null);
  const field = useRef<HTMLInputElement>(null);
  const [open, setOpen] = useState(false);
  const close = () => menu.current?.hidePopover();

  return (
    <>
      <button
        type="button"
        className="button quiet menu-button"
        popoverTarget={id}
        aria-expanded={open}
        aria-haspopup="true"
      >
        <FolderOpen /> <span>Designs</span>
      </button>
      <div
        ref={menu}
        id={id}
        popover="auto"
        className="menu"
        onToggle={(event) => setOpen(event.newState === 'open')}
      >
        <ul>
          <li>
            <button
              type="button"
              onClick={() => {
                close();
                store.getState().openDesign(emptyDesign(store.getState().design.unit), 'empty');
                store.getState().setStation('blank');
              }}
            >
              <SquarePlus /> New, from an empty blank
            </button>
          </li>
          <li>
            <button
              type="button"
              onClick={() => {
                close();
                store.getState().showDialog('designs');
              }}
            >
              <Library /> Your designs …
            </button>
          </li>
          <li>
            <button
              type="button"
              onClick={() => {
                close();
                field.current?.click();
              }}
            >
              <FolderOpen /> Open a file … <kbd>Ctrl O</kbd>
            </button>
          </li>
          <li>
            <button
              type="button"
              onClick={() => {
                close();
                void saveDesign(store);
              }}
            >
              <Save /> Save to a file <kbd>Ctrl S</kbd>
            </button>
          </li>
          <li>
            <button
              type="button"
              onClick={() => {
                close();
                store.getState().showDialog('share');
              }}
            >
              <Share2 /> Share …
            </button>
          </li>
        </ul>
        {STARTER_DESIGNS.length > 0 && (
          <>
            <h3>Starter designs</h3>
            <ul>
              {STARTER_DESIGNS.map((starter) => (
                <li key={starter.name}>
                  <button
                    type="button"
                    onClick={() => {
                      close();
                      void starter.load().then((design) => store.getState().openDesign(design, 'starter'));
                    }}
                  >
                    <FileBox /> {starter.name}
                  </button>
                </li>
              ))}
            </ul>
          </>
        )}
        <ul className="narrow-only">
          <li>
            <button
              type="button"
              onClick={() => {
                close();
                store.getState().switchTheme();
              }}
            >
              <SunMoon /> Light or dark
            </button>
          </li>
          <li>
            <button
              type="button"
              onClick={() => {
                close();
                store.getState().showKeys(true);
              }}
            >
              <Keyboard /> Keys
            </button>
          </li>
        </ul>
      </div>
      <input
        ref={field}
        id="open-file"
        type="file"
        accept=".json,application/json"
        aria-label="Design file to open"
        hidden
        onChange={(event) => {
          const file = event.target.files?.[0];
          event.target.value = '';
          if (file) void openFile(store, file);
        }}
      />
    </>
  );
}

/** Opens a file that was chosen or dropped; a bad one is reported and changes nothing. */
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

/** Why a file was not opened, fault by fault. */
export function RefusedFile() {
  const refused = useApp((state) => state.refused);
  const setRefused = useApp((state) => state.setRefused);
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (refused && !dialog.current?.open) dialog.current?.showModal();
    if (!refused) dialog.current?.close();
  }, [refused]);
  return (
    <dialog ref={dialog} aria-labelledby="refused-title" onClose={() => setRefused(null)}>
      <h2 id="refused-title">Not opened</h2>
      {refused && (
        <>
          <p>
            <strong>{refused.fileName}</strong> is not a design that can be opened. What was open is still
            open.
          </p>
          <ul className="faults">
            {refused.faults.map((fault, i) => (
              <li key={i}>{faultLine(fault)}</li>
            ))}
          </ul>
        </>
      )}
      <form method="dialog">
        <button type="submit" className="button primary">
          Close
        </button>
      </form>
    </dialog>
  );
}
