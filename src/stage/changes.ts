/**
 * Notices what has changed since the last time: each piece of work is named, with the values that it depends on, and is
 * done again only when one of them is another. Values are compared by content, the document's own objects by identity.
 */
export class Changes {
  private readonly keys = new Map<string, string>();
  private readonly versions = new Map<string, number>();

  /** Runs `action` when the parts named differ from the last time; says whether it did. */
  once(name: string, parts: readonly unknown[], action: () => void): boolean {
    const key = parts.map((part) => partKey(part)).join('|');
    if (this.keys.get(name) === key) return false;
    this.keys.set(name, key);
    this.versions.set(name, this.version(name) + 1);
    action();
    return true;
  }

  /** Counts the changes of what `once` keeps under a name. */
  version(name: string): number {
    return this.versions.get(name) ?? 0;
  }
}

const objectKeys = new WeakMap<object, string>();
let nextKey = 0;

/** A text that is the same for the same value: by identity for the document's own objects, by content for plain views. */
export function partKey(part: unknown): string {
  if (part === null || typeof part !== 'object') return String(part);
  if (ArrayBuffer.isView(part) || 'blank' in part) return identity(part);
  return JSON.stringify(part, (_name, value: unknown) =>
    ArrayBuffer.isView(value) ? contentKey(value) : value,
  );
}

function identity(part: object): string {
  const known = objectKeys.get(part);
  if (known !== undefined) return known;
  const made = `#${nextKey++}`;
  objectKeys.set(part, made);
  return made;
}

function contentKey(view: ArrayBufferView): string {
  const values = view instanceof Float64Array || view instanceof Uint8Array ? view : null;
  if (!values) return identity(view);
  let hash = 0;
  for (let i = 0; i < values.length; i++) hash = (Math.imul(hash, 31) + Math.round(values[i] * 1e6)) | 0;
  return `${values.length}:${hash}`;
}
