/** Places in a JSON document that nobody has checked yet. */

export type JsonObject = Readonly<Record<string, unknown>>;

export interface Place {
  readonly path: readonly PropertyKey[];
  readonly value: unknown;
}

/** Whether a value is a JSON object (not a list, not null). */
export function isJsonObject(value: unknown): value is JsonObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** The places that are there of a path in which `*` stands for every entry of a list. */
export function placesOf(document: unknown, pattern: readonly string[]): Place[] {
  const places: Place[] = [];
  const visit = (value: unknown, path: readonly PropertyKey[]): void => {
    if (path.length === pattern.length) {
      places.push({ path, value });
      return;
    }
    const step = pattern[path.length];
    if (step === '*') {
      if (Array.isArray(value)) value.forEach((entry: unknown, i) => visit(entry, [...path, i]));
    } else if (isJsonObject(value) && Object.hasOwn(value, step)) visit(value[step], [...path, step]);
  };
  visit(document, []);
  return places;
}

/** A copy of the document without the values at some of its places. */
export function without(document: JsonObject, paths: readonly (readonly PropertyKey[])[]): JsonObject {
  const copy = structuredClone(document);
  for (const path of paths) {
    let holder: unknown = copy;
    for (const step of path.slice(0, -1)) holder = Reflect.get(holder as object, step);
    Reflect.deleteProperty(holder as object, path[path.length - 1]);
  }
  return copy;
}
