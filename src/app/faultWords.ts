/**
 * Where in a design a fault stands, in the words of the stations: `Set 1, angle in degrees` for `sets[0].angle_deg`. The
 * path itself is for those who wrote the file.
 */

/** What a field of the file is called on screen; the others go by their own name. */
const NAMES: ReadonlyMap<string, string> = new Map([
  ['order', 'order of cutting'],
  ['fence_azimuths', 'azimuths'],
  ['center', 'place from the foot'],
  ['z', 'distance from the foot'],
  ['r', 'distance from the axis'],
  ['made', 'as made'],
  ['work', 'progress at the saw'],
  ['colors', 'colours'],
  ['format', 'kind of file'],
  ['version', 'version of the file'],
]);

/** One entry of a list. */
const ENTRIES: ReadonlyMap<string, string> = new Map([
  ['sets', 'set'],
  ['layers', 'layer'],
  ['outline', 'point'],
  ['holes', 'hole'],
  ['order', 'cut'],
  ['fence_azimuths', 'azimuth'],
  ['done', 'step'],
  ['extras', 'extra'],
]);

const UNITS = { _mm: 'in mm', _deg: 'in degrees' } as const;

/** The place in words; empty when the fault is the file's as a whole. */
export function placeWords(path: string): string {
  // Each field with the number of the entry that may follow it: `sets[0]`, then `angle_deg`.
  const steps = path.matchAll(/(?:\["((?:[^"\\]|\\.)*)"\]|([^.[\]]+))(?:\[(\d+)\])?/g);
  const words = Array.from(steps, ([, quoted, key, index]) =>
    quoted === undefined ? nameOf(key, index) : `“${quoted}”`,
  );
  const text = words.join(', ');
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function nameOf(key: string, index: string | undefined): string {
  const unit = key.endsWith('_mm') ? '_mm' : key.endsWith('_deg') ? '_deg' : null;
  const stem = unit === null ? key : key.slice(0, -unit.length);
  const entry = index === undefined ? undefined : ENTRIES.get(stem);
  const words = [entry ?? NAMES.get(stem) ?? stem.replaceAll('_', ' ')];
  if (index !== undefined) words.push(String(Number(index) + 1));
  if (unit !== null) words.push(UNITS[unit]);
  return words.join(' ');
}
