/** IndexedDB in memory for a test: a database of its own, and the classes that the library looks for. */
import * as fake from 'fake-indexeddb';
import { vi } from 'vitest';

const { IDBFactory: Factory } = fake;

/** Puts an empty IndexedDB in the place of the browser's; undone by vi.unstubAllGlobals. */
export function useMemoryDatabase(): void {
  for (const [name, value] of Object.entries(fake)) if (name.startsWith('IDB')) vi.stubGlobal(name, value);
  vi.stubGlobal('indexedDB', new Factory());
}
