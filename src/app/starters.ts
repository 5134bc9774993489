/** The starter designs of assets/designs, loaded when chosen. */
import type { Design } from '../design/document.ts';
import { parseDesign } from '../design/parse.ts';

export interface StarterDesign {
  readonly name: string;
  readonly load: () => Promise<Design>;
}

const FILES = import.meta.glob<string>('../../assets/designs/*.json', { query: '?raw', import: 'default' });

/** From the file's name: `twenty-four-rings.json` is `Twenty four rings`. */
function nameOf(path: string): string {
  const stem = path.replace(/^.*\//, '').replace(/(\.kerfweave)?\.json$/, '');
  const words = stem.replace(/^\d+-/, '').replaceAll('-', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

export const STARTER_DESIGNS: readonly StarterDesign[] = Object.entries(FILES).map(([path, read]) => ({
  name: nameOf(path),
  load: async () => {
    const result = parseDesign(await read());
    if (!result.ok) throw new Error(`${path}: ${result.faults.map((fault) => fault.message).join('; ')}`);
    return result.design;
  },
}));
