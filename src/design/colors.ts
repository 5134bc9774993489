/** Colours of a design's timbers: its own where it gives one, else the timber's. */
import { timberById } from '../timber/timbers.ts';
import type { Design } from './document.ts';

/**
 * The colour `#rrggbb` that the design shows a timber in, or undefined where it keeps the timber's own. A colour
 * given under another name of the same timber counts too.
 */
export function colorGiven(design: Pick<Design, 'colors'>, timber: string): string | undefined {
  const colors = design.colors ?? {};
  if (Object.hasOwn(colors, timber)) return colors[timber];
  const id = timberById(timber)?.id;
  const other = Object.keys(colors).find((name) => timberById(name)?.id === id);
  return other === undefined ? undefined : colors[other];
}

/** Where a timber is not known and has no colour given. */
const UNKNOWN = '#888888';

/** The flat colour `#rrggbb` that a timber is drawn in. */
export function timberColour(design: Pick<Design, 'colors'>, timber: string): string {
  return colorGiven(design, timber) ?? timberById(timber)?.srgb ?? UNKNOWN;
}
