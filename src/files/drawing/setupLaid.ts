/** How a blank lies at the fence for one cut: what its drawings are made from. */
import { edgeLettersAt, sectionGeometry } from '../../blank/section.ts';
import type { Slot } from '../../blank/slots.ts';
import type { Design } from '../../design/document.ts';
import { sameAzimuth } from '../../geometry/angle.ts';
import { upAzimuth_deg, type Setup } from '../../plan/setups.ts';
import { flatsOf } from './faces.ts';
import type { Colour } from './pen.ts';

export interface SetupDrawing {
  readonly design: Design;
  readonly setup: Setup;
  readonly slot: Slot;
  /** Slots whose strips are in already, in cutting order. */
  readonly filled: readonly Slot[];
  readonly colours: { readonly body: Colour; readonly timber: (id: string) => Colour };
  /** `stop`: from the stop, or with the table tilted from the ledge, to the middle of the kerf. */
  readonly labels: { readonly angle: string; readonly stop: string; readonly web: string };
}

/** What lies up when the stop stands on the left: a face, or an edge between two (`B/C`); null where none does. */
export interface Up {
  readonly letter: string | null;
  readonly edge: string | null;
  readonly azimuth_deg: number;
}

export function faceUp(design: Design, setup: Setup): Up {
  const azimuth_deg = upAzimuth_deg(setup.fence_azimuth_deg, setup.stop_end);
  const section = sectionGeometry(design.blank.section);
  const flat = flatsOf(section).find((one) => sameAzimuth(one.azimuth_deg, azimuth_deg));
  const letter = flat?.letter ?? null;
  return { letter, edge: letter === null ? edgeLettersAt(section, azimuth_deg) : null, azimuth_deg };
}

/** `B`, `edge B/C`; null where neither a face nor an edge lies up. */
export function upText({ letter, edge }: Up): string | null {
  return letter ?? (edge === null ? null : `edge ${edge}`);
}

/** With the stop on the left, the end that stands against it is on the left. */
export function headIsRight(setup: Setup): boolean {
  return setup.stop_end === 'foot';
}

/** A run along the fence, mm. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}
