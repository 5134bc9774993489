/**
 * One tab at a time writes a design: whoever has it open holds a lock of the browser, which goes with the tab,
 * however it ends. Where there are no locks the library's revision numbers notice a second writer instead.
 */

export interface Claim {
  /** No other tab can write the design while this is held. */
  readonly alone: boolean;
  readonly release: () => void;
}

const PREFIX = 'kerfweave design ';

/** The types say that it is always there; over plain http it is not. */
function lockManager(): LockManager | undefined {
  return navigator.locks;
}

export function hasLocks(): boolean {
  return lockManager() !== undefined;
}

/**
 * Claims a design for this tab; null when another tab has it. `wait_ms`: how long to wait for one that is just
 * closing, as this page itself does when it is loaded again.
 */
export async function claimDesign(id: string, wait_ms = 0): Promise<Claim | null> {
  const locks = lockManager();
  if (!locks) return { alone: false, release: () => undefined };
  const options: LockOptions = wait_ms > 0 ? { signal: AbortSignal.timeout(wait_ms) } : { ifAvailable: true };
  return new Promise((resolve) => {
    let release = (): void => undefined;
    const held = new Promise<void>((end) => {
      release = end;
    });
    locks
      .request(PREFIX + id, options, async (lock) => {
        if (!lock) {
          resolve(null);
          return;
        }
        resolve({ alone: true, release });
        await held;
      })
      .catch((error: unknown) => {
        const waited = error instanceof DOMException && ['TimeoutError', 'AbortError'].includes(error.name);
        // Locks that do not work here: the revision numbers stand guard.
        resolve(waited ? null : { alone: false, release: () => undefined });
      });
  });
}

/** Ids of the designs that are open in some tab, this one among them. */
export async function openDesigns(): Promise<Set<string>> {
  const locks = lockManager();
  if (!locks) return new Set();
  // Locks that do not work here, as in claimDesign.
  const { held = [] } = await locks.query().catch((): LockManagerSnapshot => ({ held: [] }));
  return new Set(held.flatMap(({ name }) => (name?.startsWith(PREFIX) ? [name.slice(PREFIX.length)] : [])));
}
