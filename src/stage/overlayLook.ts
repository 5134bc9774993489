/** Colours of what is drawn beside the wood, as they appear on screen. */
import { Color } from 'three';

export interface OverlayLook {
  readonly ink: string;
  readonly paper: string;
}

/** Display colour, not to be converted: the overlay's shaders write it as it is. */
export function shown(colour: string): Color {
  return new Color().setStyle(colour, 'srgb-linear');
}
