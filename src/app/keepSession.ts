/** Which design this tab had open, across a reload of the tab. */

const KEY = 'kerfweave-open';

export function rememberOpen(id: string): void {
  try {
    sessionStorage.setItem(KEY, id);
  } catch {
    // Storage is blocked: then there is nothing kept to come back to either, and the screen says so.
  }
}

export function rememberedOpen(): string | null {
  try {
    return sessionStorage.getItem(KEY);
  } catch {
    // As above.
    return null;
  }
}
