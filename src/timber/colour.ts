/**
 * Colours of timbers: CIELAB (D65, 2°) to and from sRGB, and the CIEDE2000 difference, by culori (Sharma, Wu
 * and Dalal 2005 is its reference and ours).
 */
import { differenceCiede2000, formatHex, modeLab65, modeRgb, parseHex, useMode as register } from 'culori/fn';
import type { Lab } from './timbers.ts';

const toRgb = register(modeRgb);
const toLab65 = register(modeLab65);
const difference = differenceCiede2000();

/**
 * Strip and ground closer than this are pointed out (CIEDE2000). A judgement: two boards of one species easily
 * differ by 3 to 5, and the colours listed are estimates.
 */
export const LOW_CONTRAST_DE00 = 6;

/** CIEDE2000 difference of two colours. */
export function colourDifference(a: Lab, b: Lab): number {
  return difference(
    { mode: 'lab65', l: a[0], a: a[1], b: a[2] },
    { mode: 'lab65', l: b[0], a: b[1], b: b[2] },
  );
}

/** #rrggbb of a colour, clipped to sRGB. */
export function hexOfLab(lab: Lab): string {
  return formatHex(toRgb({ mode: 'lab65', l: lab[0], a: lab[1], b: lab[2] }));
}

/** CIELAB of #rrggbb (or #rgb), or undefined when the text is not one. */
export function labOfHex(hex: string): Lab | undefined {
  const rgb = parseHex(hex);
  if (!rgb) return undefined;
  const { l, a, b } = toLab65(rgb);
  return [l, a, b];
}
