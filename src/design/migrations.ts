/**
 * Files of every version open for ever: each step takes a document of one version to the next. A step sees
 * the document before it is checked, so it must leave alone what is not what it expects; the check that
 * follows names it. Steps are never changed once released (tests/fixtures keeps literal files of every version).
 */
import { type JsonObject, placesOf } from './places.ts';

export { isJsonObject, type JsonObject } from './places.ts';

export const CURRENT_VERSION = 4;

export interface Migration {
  /** The version that the step starts from; it ends one higher. */
  readonly from: number;
  readonly apply: (document: JsonObject) => JsonObject;
}

export const MIGRATIONS: readonly Migration[] = [
  // Version 2 only adds fields that may be left out.
  { from: 1, apply: (document) => document },
  // So does version 3.
  { from: 2, apply: (document) => document },
  // And version 4.
  { from: 3, apply: (document) => document },
];

/** Fields that a later version added; `*` stands for every entry of a list. */
const ADDED: readonly { readonly version: number; readonly fields: readonly (readonly string[])[] }[] = [
  {
    version: 2,
    fields: [
      ['blank', 'grain'],
      ['sets', '*', 'strip', 'layers', '*', 'grain'],
      ['sets', '*', 'locked'],
      ['form', 'loop'],
      ['form', 'holes'],
      ['form', 'finish'],
      ['colors'],
    ],
  },
  {
    version: 3,
    fields: [
      ['sets', '*', 'cut'],
      ['sets', '*', 'web_side'],
      ['saw', 'blade_kerf_mm'],
      ['saw', 'table_tilt_max_deg'],
      ['saw', 'throat_mm'],
      ['made'],
      ['work'],
    ],
  },
  { version: 4, fields: [['offer'], ['quote'], ['choice']] },
];

export interface LaterField {
  readonly path: readonly PropertyKey[];
  /** The version that added it. */
  readonly version: number;
}

/** Fields in a document of a version that only a later version has. */
export function laterFields(document: JsonObject, version: number): LaterField[] {
  return ADDED.filter((added) => added.version > version).flatMap((added) =>
    added.fields.flatMap((field) =>
      placesOf(document, field).map(({ path }) => ({ path, version: added.version })),
    ),
  );
}

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
