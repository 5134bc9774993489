/** The flat colour `#rrggbb` that a timber is drawn in: the design's own where it gives one. */
import { colorGiven } from '../design/colors.ts';
import type { Design } from '../design/document.ts';
import { timberById } from '../timber/timbers.ts';
import { useBench } from './bench.ts';

export function timberColour(design: Pick<Design, 'colors'>, timber: string): string {
  return colorGiven(design, timber) ?? timberById(timber)?.srgb ?? '#888888';
}

export function useTimberColour(): (timber: string) => string {
  const colors = useBench((bench) => bench.design.colors);
  return (timber) => timberColour(colors ? { colors } : {}, timber);
}
