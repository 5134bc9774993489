/** Hands a file to the browser to be saved, under a name that every system takes. */
import type { Design } from '../design/document.ts';

/** The design's name as a file name without ending. */
export function fileStemOf(design: Pick<Design, 'name'>): string {
  const stem = design.name
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .toLowerCase()
    .slice(0, 60);
  return stem === '' ? 'design' : stem;
}

/** Long enough for the slowest disk; the address is given back then, ms. */
const KEEP_ADDRESS_MS = 60_000;

export function download(blob: Blob, fileName: string): void {
  const address = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = address;
  link.download = fileName;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), KEEP_ADDRESS_MS);
}
