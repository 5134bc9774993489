/**
 * Opening and saving design files: the file picker where the browser has one, a download and a plain file
 * field elsewhere. Reading never changes what is open unless the file is good.
 */
import { serializeDesign } from '../design/serialize.ts';
import { type NewerFile, parseDesign } from '../design/parse.ts';
import type { Fault } from '../design/faults.ts';
import type { Design } from '../design/document.ts';
import { download, fileStemOf } from '../files/download.ts';
import { MAX_FILE_BYTES } from '../design/limits.ts';

export const FILE_ENDING = '.kerfweave.json';

export type Opened =
  | { readonly ok: true; readonly design: Design }
  | {
      readonly ok: false;
      readonly fileName: string;
      readonly faults: readonly Fault[];
      readonly newer?: NewerFile;
    };

/** Reads a design file that the user chose or dropped. */
export async function readDesignFile(file: File): Promise<Opened> {
  if (file.size > MAX_FILE_BYTES) {
    const message = `is ${Math.round(file.size / 1e6)} MB; a design file has at most ${MAX_FILE_BYTES / 1e6} MB`;
    return { ok: false, fileName: file.name, faults: [{ path: '', code: 'too-large', message }] };
  }
  let bytes: Uint8Array;
  try {
    bytes = new Uint8Array(await file.arrayBuffer());
  } catch (error) {
    const message = `cannot be read: ${error instanceof Error ? error.message : String(error)}`;
    return { ok: false, fileName: file.name, faults: [{ path: '', code: 'unreadable', message }] };
  }
  const result = parseDesign(bytes);
  if (result.ok) return { ok: true, design: result.design };
  return { ...result, fileName: file.name };
}

export function fileNameOf(design: Design): string {
  return `${fileStemOf(design)}${FILE_ENDING}`;
}

interface SaveFilePicker {
  showSaveFilePicker(options: {
    suggestedName: string;
    types: { description: string; accept: Record<string, string[]> }[];
  }): Promise<FileSystemFileHandle>;
}

function hasSavePicker(scope: object): scope is SaveFilePicker {
  return 'showSaveFilePicker' in scope;
}

/** Saves the design, a file of a later version with all that it came with; false when the user closed the picker without choosing. Throws with the reason on failure. */
export async function saveDesignFile(design: Design, newer: NewerFile | null): Promise<boolean> {
  const text = newer ? `${JSON.stringify(newer.raw, null, 2)}\n` : serializeDesign(design);
  if (hasSavePicker(window)) {
    let handle: FileSystemFileHandle;
    try {
      handle = await window.showSaveFilePicker({
        suggestedName: fileNameOf(design),
        types: [{ description: 'Kerfweave design', accept: { 'application/json': ['.json'] } }],
      });
    } catch (error) {
      if (error instanceof DOMException && error.name === 'AbortError') return false;
      throw error;
    }
    const stream = await handle.createWritable();
    await stream.write(text);
    await stream.close();
    return true;
  }
  download(new Blob([text], { type: 'application/json' }), fileNameOf(design));
  return true;
}
