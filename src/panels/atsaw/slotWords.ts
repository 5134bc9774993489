/**
 * What the steps of one slot say. Numbers as on the shop sheet; what was measured as made comes before what was
 * planned. Checks are common practice.
 */
import type { Design, SlotSet } from '../../design/document.ts';
import { setIdOf } from '../../design/order.ts';
import { faceUp } from '../../files/drawing/setup.ts';
import { angle, length, thickness } from '../../files/sheet/numbers.ts';
import { normalizeDegrees } from '../../geometry/angle.ts';
import { THINNEST_SOUND_WEB_MM } from '../../plan/sawMessages.ts';
import type { Setup } from '../../plan/setups.ts';
import { timberName } from '../moments/momentText.ts';
import type { Passes } from '../../plan/passes.ts';
import { asMade } from './made.ts';
import { sameFence, sameStop, sameWeb, type CutPlace, type SlotKind, type SlotStep } from './steps.ts';
import { tableWords, type TableKind } from './tableWords.ts';
import { capital, placeNumber, type BigNumber, type StepWords } from './words.ts';

export function slotWords({ kind, cut }: SlotStep, design: Design): StepWords {
  const { setup } = cut;
  const { table } = setup;
  const { unit } = design;
  if (table && isTableKind(kind))
    return tableWords(kind, cut, table, design, [...besideMarks(cut, design), ...settingsKept(cut, design)]);
  const words: Readonly<Record<SlotKind, () => StepWords>> = {
    lay: () => layWords(cut, design),
    fence: () => ({
      title: `Set the fence to ${angle(setup.fence_angle_deg)}`,
      lead: 'The angle stands between fence and blade. A protractor that reads 0 when square shows the other number.',
      numbers: [
        { name: 'Fence to blade', value: angle(setup.fence_angle_deg) },
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
      checks: [
        ...besideMarks(cut, design),
        ...settingsKept(cut, design),
        'The slope runs the way the drawing shows',
      ],
    }),
    cut: () => cutWords(cut, design),
    backout: () => ({
      title: 'Stop the blade',
      lead: 'Switch off. Wait until the blade stands still. Only then back out of the slot.',
      numbers: [{ name: 'Blade', value: 'Standing still' }],
      checks: ['The web is whole', 'The slot is clear of dust'],
    }),
    measure: () => measureWords(setup, design),
    strip: () => stripWords(setup, setOf(design, setup.slot), design),
  };
  return words[kind]();
}

function isTableKind(kind: SlotKind): kind is TableKind {
  return ['lay', 'fence', 'stop', 'bladestop', 'marks'].includes(kind);
}

export function setOf(design: Design, slot: string): SlotSet {
  const id = setIdOf(slot);
  const set = design.sets.find((candidate) => candidate.id === id);
  if (!set) throw new Error(`no set holds ${slot}`);
  return set;
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
  const { letter, azimuth_deg } = faceUp(design, setup);
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
  return 'ABCDEFGH'[('ABCDEFGH'.indexOf(letter) + faces / 2) % faces];
}

function stopNumbers(setup: Setup, design: Design): BigNumber[] {
  const { unit } = design;
  const { stop_to_kerf_near_mm } = asMade(design, setup.slot);
  return [
    placeNumber('To mid-kerf', setup.stop_to_kerf_center_mm, unit),
    placeNumber('To near side', stop_to_kerf_near_mm, unit),
  ];
}

/** What the stop (or ledge) is set to where a slot is sawn in passes. */
function firstPass({ passes }: Passes, unit: Design['unit']): BigNumber[] {
  return [placeNumber('To the blade’s middle', passes[0].stop_to_blade_center_mm, unit)];
}

/** In passes the blade does not stand at the marks but beside them. */
function besideMarks({ passes, setup }: CutPlace, { unit }: Design): string[] {
  if (!passes) return [];
  const off_mm = setup.stop_to_kerf_center_mm - passes.passes[0].stop_to_blade_center_mm;
  return [
    `For pass 1 the blade stands ${length(off_mm, unit)} from the marks, toward the ${setup.table ? 'ledge' : 'stop'}`,
  ];
}

/** Where the kerf meets the tilted table: `53.64 mm to mid-kerf`, or beyond the ledge. */
export function ledgePlace(center_mm: number, unit: Design['unit']): string {
  return center_mm < 0
    ? `mid-kerf ${length(-center_mm, unit)} beyond it`
    : `${length(center_mm, unit)} to mid-kerf`;
}

/** The settings that stand as they stood for the cut before. */
function settingsKept({ setup, before, stopMoved }: CutPlace, { unit }: Design): string[] {
  return [
    ...(sameFence(setup, before)
      ? [`${setup.table ? 'Tilt' : 'Fence'} still at ${angle(setup.fence_angle_deg)}`]
      : []),
    ...(sameStop(setup, before) && !stopMoved
      ? [
          setup.table
            ? `Ledge as it was: ${ledgePlace(setup.stop_to_kerf_center_mm, unit)}`
            : `Stop still at ${length(setup.stop_to_kerf_center_mm, unit)} to mid-kerf`,
        ]
      : []),
    ...(sameWeb(setup, before)
      ? [`${setup.table ? 'Web' : 'Blade stop'} still at ${thickness(setup.blade_stop_mm, unit)}`]
      : []),
  ];
}

function cutWords({ setup, number, passes }: CutPlace, design: Design): StepWords {
  const { unit, saw } = design;
  if (passes)
    return {
      title: `Cut ${number}: ${setup.slot} in ${passes.passes.length} passes`,
      lead: `The slot is wider than the blade’s kerf of ${thickness(saw.blade_kerf_mm ?? 0, unit)}. ${setup.table ? 'Ledge' : 'Stop'} to the middle of the blade:`,
      numbers: passes.passes
        .slice(0, 3)
        .map((pass) => placeNumber(`Pass ${pass.number}`, pass.stop_to_blade_center_mm, unit)),
      checks: [
        ...passes.passes
          .slice(3)
          .map((pass) => `Pass ${pass.number}: ${length(pass.stop_to_blade_center_mm, unit)}`),
        `Each pass moves on ${length(passes.step_along_fence_mm, unit)} ${setup.table ? 'on the table' : 'along the fence'}; the blade stop stays`,
        'Blade stopped before backing out of every pass',
      ],
    };
  return {
    title: `Cut ${number}: saw ${setup.slot}`,
    lead: 'Feed slowly up to the blade stop. Do not force it and do not turn the blank in the cut.',
    numbers: [
      { name: setup.table ? 'Table tilt' : 'Fence to blade', value: angle(setup.fence_angle_deg) },
      { name: 'Web left', value: thickness(setup.blade_stop_mm, unit) },
      { name: 'Under the guide', value: length(setup.cut_height_mm, unit) },
    ],
    checks: [],
  };
}

function measureWords(setup: Setup, design: Design): StepWords {
  const { unit } = design;
  const made = asMade(design, setup.slot);
  const wider = made.kerf_mm - setup.kerf_mm;
  return {
    title: `Measure ${setup.slot}`,
    lead: 'Measure kerf and web as they came out. The strip follows from the kerf.',
    numbers: [{ name: 'Strip to fit', value: thickness(made.toMake_mm, unit) }],
    checks: [
      ...(Math.abs(wider) > 5e-4
        ? [`Kerf ${thickness(Math.abs(wider), unit)} ${wider > 0 ? 'wider' : 'narrower'} than planned`]
        : []),
      made.thinnest_web_mm < THINNEST_SOUND_WEB_MM
        ? `Weak web, ${thickness(Math.max(made.thinnest_web_mm, 0), unit)} at its thinnest: support both halves`
        : `Web ${thickness(made.thinnest_web_mm, unit)} at its thinnest`,
    ],
  };
}

function stripWords(setup: Setup, set: SlotSet, design: Design): StepWords {
  const { unit, saw } = design;
  const made = asMade(design, setup.slot);
  const source = { slot: 'kerf as measured', 'test cut': 'kerf of the test cut', design: 'kerf as planned' };
  const layers = set.strip.layers.map((layer) => timberName(layer.timber));
  return {
    title: `Fit the strip for ${setup.slot}`,
    lead: `${[...new Set(layers)].join(' and ')}${layers.length > 1 ? `, ${layers.length} layers` : ''}. Try it dry, before any glue.`,
    numbers: [
      { name: 'Thick', value: thickness(made.toMake_mm, unit), note: source[made.kerfFrom] },
      { name: 'Deep', value: length(made.strip_depth_mm, unit), note: 'down the slope' },
      { name: 'Long', value: length(made.strip_length_mm, unit), note: 'along the blade' },
    ],
    checks: [
      'In by hand, without play, down to the end of the slot',
      ...(made.stripMeasured ? [fitText(made.fit_mm, saw.strip_tolerance_mm, unit)] : []),
    ],
  };
}

function fitText(fit_mm: number, tolerance_mm: number, unit: Design['unit']): string {
  if (Math.abs(fit_mm) < 5e-4) return 'The strip is as thick as the kerf';
  const off = `${thickness(Math.abs(fit_mm), unit)} ${fit_mm > 0 ? 'thicker: tight' : 'thinner: loose'}`;
  return Math.abs(fit_mm) > tolerance_mm + 1e-9
    ? `Strip ${off}, beyond ± ${thickness(tolerance_mm, unit)}`
    : `Strip ${off}, within ± ${thickness(tolerance_mm, unit)}`;
}
