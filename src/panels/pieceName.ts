/** What the piece being made is called where it must not be taken for another: at the saw and on its sheet. */
import type { Work } from './bench.ts';

/** The design's name, and beside others that of its variant: `Hall vase, 60°`. */
export function pieceName({ variants, active }: Work): string {
  const { name, design } = variants[active];
  return variants.length > 1 ? `${design.name}, ${name}` : design.name;
}
