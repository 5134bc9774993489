/** What the sheet says of a cut against the fence. */
import type { Design } from '../../design/document.ts';
import { sinDeg } from '../../geometry/angle.ts';
import type { AsMade } from '../../plan/made.ts';
import type { SetupAtFence } from '../../plan/setups.ts';
import { faceUp, upText } from '../drawing/setup.ts';
import type { CutEntry } from './cutEntry.ts';
import { angle, length, onRule, placeText, thickness } from './numbers.ts';

export function fenceEntry(setup: SetupAtFence, made: AsMade, design: Design): CutEntry {
  const { unit } = design;
  const stop_mm = setup.stop_to_kerf_center_mm;
  const up = upText(faceUp(design, setup));
  return {
    lies: [
      setup.face
        ? `${setup.face} against the fence`
        : `azimuth ${angle(setup.fence_azimuth_deg)} at the fence`,
      ...(up ? [`${up} up`] : []),
      `${setup.stop_end} to the stop`,
    ],
    seen: 'Seen from above',
    stop: length(stop_mm, unit),
    settings: [
      ['Fence', angle(setup.fence_angle_deg), `${angle(setup.protractor_deg)} from square`],
      ['Stop to mid-kerf', length(stop_mm, unit), onRule(stop_mm, unit) ?? 'along the fence'],
      ['Blade stop', thickness(setup.blade_stop_mm, unit), 'web, square to the fence'],
    ],
    rows: [
      ['Stop to near side of kerf', placeText(made.stop_to_kerf_near_mm, unit)],
      [`Mark on ${setup.face ?? 'the fence side'}, from the foot`, placeText(setup.mark_fence_mm, unit)],
      [
        `Mark on ${setup.entry_face ?? 'the entry side'}, from the foot`,
        placeText(setup.mark_entry_mm, unit),
      ],
      ['Slot, down the slope', length(setup.slot_depth_mm, unit)],
      // The web is that in mid-kerf: the kerf's end is square to the kerf, not to the fence.
      [
        'Web at its thin edge, and along the blade',
        `${length(setup.thinnest_web_mm, unit)}, ${length(setup.blade_stop_mm / sinDeg(setup.fence_angle_deg), unit)}`,
      ],
    ],
  };
}
