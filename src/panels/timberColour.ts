/** The flat colour `#rrggbb` of timbers in the design at hand. */
import { timberColour } from '../design/colors.ts';
import { useBench } from './bench.ts';

export { timberColour };

export function useTimberColour(): (timber: string) => string {
  const colors = useBench((bench) => bench.design.colors);
  return (timber) => timberColour(colors ? { colors } : {}, timber);
}
