/**
 * Reading and writing design files: files of the disk through the browser's pickers where it has them (File System
 * Access), a download elsewhere. Reading never changes what is open unless the file is good.
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

/** A file on the disk that this page may write, and its state when it was last read or written here. */
export interface DiskFile {
  readonly handle: FileSystemFileHandle;
  readonly seen_ms: number;
}

interface PickerOptions {
  readonly suggestedName?: string;
  readonly types: readonly { readonly description: string; readonly accept: Record<string, string[]> }[];
}

interface SavePicker {
  showSaveFilePicker(options: PickerOptions): Promise<FileSystemFileHandle>;
}

interface OpenPicker {
  showOpenFilePicker(options: PickerOptions): Promise<FileSystemFileHandle[]>;
}

const TYPES = [{ description: 'Kerfweave design', accept: { 'application/json': ['.json'] } }];

export function hasSavePicker(scope: object): scope is SavePicker {
  return 'showSaveFilePicker' in scope;
}

export function hasOpenPicker(scope: object): scope is OpenPicker {
  return 'showOpenFilePicker' in scope;
}

/** null when the user closed the picker without choosing. */
async function picked<T>(choosing: Promise<T>): Promise<T | null> {
  try {
    return await choosing;
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') return null;
    throw error;
  }
}

export async function pickFileToOpen(scope: OpenPicker): Promise<FileSystemFileHandle | null> {
  return (await picked(scope.showOpenFilePicker({ types: TYPES })))?.[0] ?? null;
}

export function pickFileToSave(scope: SavePicker, design: Design): Promise<FileSystemFileHandle | null> {
  return picked(scope.showSaveFilePicker({ suggestedName: fileNameOf(design), types: TYPES }));
}

/** What a file of the design holds: of a file of a later version all that it came with. */
export function fileTextOf(design: Design, newer: NewerFile | null): string {
  return newer ? `${JSON.stringify(newer.raw, null, 2)}\n` : serializeDesign(design);
}

/** Writes a file of the disk whole, or leaves it as it was. Throws with the reason. */
export async function writeDiskFile(handle: FileSystemFileHandle, text: string): Promise<DiskFile> {
  const { requestPermission } = handle as { requestPermission?: (mode: object) => Promise<PermissionState> };
  const permission = await requestPermission?.call(handle, { mode: 'readwrite' });
  if (permission === 'denied') throw new Error(`this page may not write ${handle.name}`);
  const stream = await handle.createWritable();
  try {
    await stream.write(text);
  } catch (error) {
    await stream.abort();
    throw error;
  }
  await stream.close();
  return { handle, seen_ms: (await handle.getFile()).lastModified };
}

/** Whether something else has written the file since this page last read or wrote it. */
export async function wasChanged({ handle, seen_ms }: DiskFile): Promise<boolean> {
  return (await handle.getFile()).lastModified !== seen_ms;
}

export function downloadDesign(design: Design, text: string): void {
  download(new Blob([text], { type: 'application/json' }), fileNameOf(design));
}
