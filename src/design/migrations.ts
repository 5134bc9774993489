/**
 * Files of every version open for ever: each step takes a document of one version to the next. A step sees
 * the document before it is checked, so it must leave alone what is not what it expects; the check that
 * follows names it. Steps are never changed once released (tests/fixtures keeps literal files of every version).
 */

export const CURRENT_VERSION = 1;

export type JsonObject = Readonly<Record<string, unknown>>;

export interface Migration {
  /** The version that the step starts from; it ends one higher. */
  readonly from: number;
  readonly apply: (document: JsonObject) => JsonObject;
}

export const MIGRATIONS: readonly Migration[] = [];

/** The document as the current version writes it. `version` must be a whole number from 1 to `current`. */
export function migrate(
  document: JsonObject,
  version: number,
  migrations: readonly Migration[] = MIGRATIONS,
  current: number = CURRENT_VERSION,
): JsonObject {
  let migrated = document;
  for (let from = version; from < current; from++) {
    const step = migrations.find((migration) => migration.from === from);
    if (!step) throw new Error(`no step leads from version ${from} to ${from + 1}`);
    migrated = { ...step.apply(migrated), version: from + 1 };
  }
  return migrated;
}

/** Whether a value is a JSON object (not a list, not null). */
export function isJsonObject(value: unknown): value is JsonObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
