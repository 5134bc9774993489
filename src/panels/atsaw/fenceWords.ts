/**
 * What the steps of a slot say that is cut at the fence: the blank lies with one face against the fence and one end against
 * the stop, and is carried past the blade up to the blade stop. Numbers as in plan/setups.ts.
 */
import type { Design } from '../../design/document.ts';
import { edgeLettersAt, FACE_LETTERS, sectionGeometry } from '../../design/section.ts';
import { faceUp } from '../../files/drawing/setup.ts';
import { angle, length, thickness } from '../../files/sheet/numbers.ts';
import { normalizeDegrees } from '../../geometry/angle.ts';
import { CUT_WORDS } from '../../plan/cutWords.ts';
import type { Passes } from '../../plan/passes.ts';
import type { Setup } from '../../plan/setups.ts';
import { asMade } from './made.ts';
import type { CutPlace } from './steps.ts';
import { capital, placeNumber, type BigNumber, type SettingWords, type StepWords } from './words.ts';

/** `kept`: what the marks show besides: settings that stand as they stood. */
export function fenceWords(cut: CutPlace, design: Design, kept: readonly string[]): SettingWords {
  const { setup } = cut;
  const { unit } = design;
  return {
    lay: () => layWords(cut, design),
    fence: () => ({
      title: `Set the fence to ${angle(setup.fence_angle_deg)}`,
      lead: 'The angle stands between fence and blade. A protractor that reads 0 when square shows the other number.',
      numbers: [
        { name: CUT_WORDS.fence.angle, value: angle(setup.fence_angle_deg) },
        { name: 'From square', value: angle(setup.protractor_deg) },
      ],
      checks: ['The fence is locked', 'The blade stands square to the table'],
    }),
    stop: () => ({
      title: cut.passes ? 'Set the stop for pass 1' : 'Set the stop',
      lead: cut.passes
        ? `Measure along the fence from the stop to the middle of the blade. The ${setup.stop_end} end will stand against it.`
        : `Measure along the fence from the stop to the kerf. The ${setup.stop_end} end will stand against it.`,
      numbers: cut.passes ? firstPass(cut.passes, unit) : stopNumbers(setup, design),
      checks: ['The stop is locked', 'No dust between stop and blank'],
    }),
    bladestop: () => ({
      title: 'Set the blade stop',
      lead: 'The teeth must stop this far short of the fence face.',
      numbers: [
        { name: 'Web left', value: thickness(setup.blade_stop_mm, unit) },
        { name: 'Slot depth', value: length(setup.slot_depth_mm, unit), note: 'down the slope' },
      ],
      checks: [
        'The carriage meets the stop before the web is touched',
        'Tried with the blade standing still',
      ],
    }),
    marks: () => ({
      title: 'Check the marks',
      lead: cut.passes
        ? 'Both marks are measured from the foot, to the middle of the slot.'
        : 'Both marks are measured from the foot. The standing blade must point at both.',
      numbers: [
        placeNumber(`On ${faceName(setup.face, 'the fence side')}`, setup.mark_fence_mm, unit),
        placeNumber(`On ${faceName(setup.entry_face, 'the entry side')}`, setup.mark_entry_mm, unit),
      ],
      checks: [...kept, 'The slope runs the way the drawing shows'],
    }),
  };
}

function faceName(letter: string | null, otherwise: string): string {
  return letter === null ? otherwise : `face ${letter}`;
}

/** How the blank comes from the place of the cut before to that of this one. */
export function turnTitle({ setup, before }: CutPlace): string {
  const place = setup.face === null ? angle(setup.fence_azimuth_deg) : `face ${setup.face}`;
  if (before === null) return capital(`${place} to the fence`);
  const turn = normalizeDegrees(setup.fence_azimuth_deg - before.fence_azimuth_deg);
  const flipped = setup.stop_end !== before.stop_end;
  const how =
    turn < 1e-6 || turn > 360 - 1e-6
      ? ''
      : Math.abs(turn - 180) < 1e-6
        ? 'Half-turn: '
        : Math.abs(turn - 90) < 1e-6 || Math.abs(turn - 270) < 1e-6
          ? 'Quarter-turn: '
          : 'Turn: ';
  if (how === '')
    return flipped ? `End for end: ${place} stays at the fence` : capital(`${place} stays at the fence`);
  return `${how}${place} to the fence`;
}

function layWords(cut: CutPlace, design: Design): StepWords {
  const { setup } = cut;
  const at =
    setup.face === null
      ? { name: 'At the fence', value: angle(setup.fence_azimuth_deg), note: 'no flat: use the cradle' }
      : { name: 'At the fence', value: setup.face };
  return {
    title: turnTitle(cut),
    lead: `Cut ${cut.number}, ${setup.slot}. The ${setup.stop_end} end goes against the stop.`,
    numbers: [at, ...upNumber(design, setup), { name: 'To the stop', value: capital(setup.stop_end) }],
    checks: ['Flat on the fence, hard against the stop', 'Clamped: it can neither roll nor tip'],
  };
}

/** What lies up with the stop on the left: a face, or on a round blank a mark of the head. */
function upNumber(design: Design, setup: Setup): BigNumber[] {
  const { letter, edge, azimuth_deg } = faceUp(design, setup);
  if (edge !== null) {
    const across = edgeLettersAt(sectionGeometry(design.blank.section), azimuth_deg + 180);
    return [{ name: 'Edge up', value: edge, note: `stop on the right: ${across} up` }];
  }
  if (letter !== null)
    return [{ name: 'Up', value: letter, note: `stop on the right: ${opposite(design, letter)} up` }];
  if (design.blank.section.shape !== 'round') return [];
  const across = angle(normalizeDegrees(azimuth_deg + 180));
  return [{ name: 'Up', value: angle(azimuth_deg), note: `stop on the right: ${across} up` }];
}

/** Letter of the face across. */
function opposite(design: Design, letter: string): string {
  const faces =
    design.blank.section.shape === 'hexagon' ? 6 : design.blank.section.shape === 'octagon' ? 8 : 4;
  return FACE_LETTERS[(FACE_LETTERS.indexOf(letter) + faces / 2) % faces];
}

function stopNumbers(setup: Setup, design: Design): BigNumber[] {
  const { unit } = design;
  const { stop_to_kerf_near_mm } = asMade(design, setup.slot);
  return [
    placeNumber('To mid-kerf', setup.stop_to_kerf_center_mm, unit),
    placeNumber('To near side', stop_to_kerf_near_mm, unit),
  ];
}

/** What the stop is set to where a slot is sawn in passes. */
function firstPass({ passes }: Passes, unit: Design['unit']): BigNumber[] {
  return [placeNumber('To the blade’s middle', passes[0].stop_to_blade_center_mm, unit)];
}
