/** What a zip archive holds and where, by its local headers (APPNOTE.TXT 6.3, 4.3.7 "Local file header"). */
export interface ZipEntry {
  readonly name: string;
  /** 0: stored. */
  readonly method: number;
  readonly encrypted: boolean;
  /** Where the data begins in the archive. */
  readonly start: number;
  readonly bytes: Uint8Array;
}

const LOCAL_HEADER = 0x04034b50;
const CENTRAL_HEADER = 0x02014b50;

export function zipEntries(archive: Uint8Array): ZipEntry[] {
  const view = new DataView(archive.buffer, archive.byteOffset, archive.byteLength);
  const entries: ZipEntry[] = [];
  let at = 0;
  while (view.getUint32(at, true) === LOCAL_HEADER) {
    const flags = view.getUint16(at + 6, true);
    if (flags & 8) throw new Error('sizes stand behind the data');
    const size = view.getUint32(at + 18, true);
    const nameLength = view.getUint16(at + 26, true);
    const start = at + 30 + nameLength + view.getUint16(at + 28, true);
    entries.push({
      name: new TextDecoder().decode(archive.subarray(at + 30, at + 30 + nameLength)),
      method: view.getUint16(at + 8, true),
      encrypted: (flags & 1) === 1,
      start,
      bytes: archive.subarray(start, start + size),
    });
    at = start + size;
  }
  if (view.getUint32(at, true) !== CENTRAL_HEADER) throw new Error(`no header at ${at}`);
  return entries;
}
