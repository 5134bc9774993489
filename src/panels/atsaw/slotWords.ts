/**
 * What the steps of one slot say. Numbers as on the shop sheet; what was measured as made comes before what was
 * planned. Checks are common practice.
 */
import type { CutKind, Design, SlotSet } from '../../design/document.ts';
import { setIdOf } from '../../design/order.ts';
import { angle, length, thickness } from '../../files/sheet/numbers.ts';
import { CUT_WORDS } from '../../plan/cutWords.ts';
import type { Setup } from '../../plan/setups.ts';
import { asMade, type SlotAsMade } from './made.ts';
import { sameFence, sameStop, sameWeb, type CutPlace, type SlotKind, type SlotStep } from './steps.ts';
import { fenceWords } from './fenceWords.ts';
import { ledgePlace, tableWords } from './tableWords.ts';
import { capital, placeNumber, type SettingWords, type StepWords } from './words.ts';
import { timberName } from '../../timber/names.ts';

export function slotWords({ kind, cut }: SlotStep, design: Design): StepWords {
  const { setup } = cut;
  const words: Readonly<Record<SlotKind, () => StepWords>> = {
    ...settingWords(cut, design),
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

function settingWords(cut: CutPlace, design: Design): SettingWords {
  const { setup } = cut;
  const kept = [...besideMarks(cut, design), ...settingsKept(cut, design)];
  switch (setup.cut) {
    case 'fence':
      return fenceWords(cut, design, kept);
    case 'table':
      return tableWords(cut, setup, design, kept);
  }
}

export function setOf(design: Design, slot: string): SlotSet {
  const id = setIdOf(slot);
  const set = design.sets.find((candidate) => candidate.id === id);
  if (!set) throw new Error(`no set holds ${slot}`);
  return set;
}

/** In passes the blade does not stand at the marks but beside them. */
function besideMarks({ passes, setup }: CutPlace, { unit }: Design): string[] {
  if (!passes) return [];
  const off_mm = setup.stop_to_kerf_center_mm - passes.passes[0].stop_to_blade_center_mm;
  return [
    `For pass 1 the blade stands ${length(off_mm, unit)} from the marks, toward the ${CUT_WORDS[setup.cut].stop}`,
  ];
}

/** The settings that stand as they stood for the cut before. */
function settingsKept({ setup, before, stopMoved }: CutPlace, { unit }: Design): string[] {
  const words = OF_KIND[setup.cut];
  return [
    ...(sameFence(setup, before) ? [`${words.angle} still at ${angle(setup.fence_angle_deg)}`] : []),
    ...(sameStop(setup, before) && !stopMoved ? [words.stop(setup.stop_to_kerf_center_mm, unit)] : []),
    ...(sameWeb(setup, before) ? [`${words.web} still at ${thickness(setup.blade_stop_mm, unit)}`] : []),
  ];
}

/** What is set, in a sentence on what stands as it stood; and which way stop or ledge is moved from pass to pass. */
interface KindWords {
  readonly angle: string;
  readonly stop: (toKerf_mm: number, unit: Design['unit']) => string;
  readonly web: string;
  readonly moved: string;
}

const OF_KIND: Readonly<Record<CutKind, KindWords>> = {
  fence: {
    angle: 'Fence',
    stop: (toKerf_mm, unit) => `Stop still at ${length(toKerf_mm, unit)} to mid-kerf`,
    web: 'Blade stop',
    moved: 'along the fence',
  },
  table: {
    angle: 'Tilt',
    stop: (toKerf_mm, unit) => `Ledge as it was: ${ledgePlace(toKerf_mm, unit)}`,
    web: 'Web',
    moved: 'on the table',
  },
};

function cutWords({ setup, number, passes }: CutPlace, design: Design): StepWords {
  const { unit, saw } = design;
  if (passes)
    return {
      title: `Cut ${number}: ${setup.slot} in ${passes.passes.length} passes`,
      lead: `The slot is wider than the blade’s kerf of ${thickness(saw.blade_kerf_mm ?? 0, unit)}. ${capital(CUT_WORDS[setup.cut].stop)} to the middle of the blade:`,
      numbers: passes.passes
        .slice(0, 3)
        .map((pass) => placeNumber(`Pass ${pass.number}`, pass.stop_to_blade_center_mm, unit)),
      checks: [
        ...passes.passes
          .slice(3)
          .map((pass) => `Pass ${pass.number}: ${length(pass.stop_to_blade_center_mm, unit)}`),
        `Each pass moves on ${length(passes.step_along_fence_mm, unit)} ${OF_KIND[setup.cut].moved}; the blade stop stays`,
        'Blade stopped before backing out of every pass',
      ],
    };
  return {
    title: `Cut ${number}: saw ${setup.slot}`,
    lead: 'Feed slowly up to the blade stop. Do not force it and do not turn the blank in the cut.',
    numbers: [
      { name: CUT_WORDS[setup.cut].angle, value: angle(setup.fence_angle_deg) },
      { name: 'Web left', value: thickness(setup.blade_stop_mm, unit) },
      { name: 'Under the guide', value: length(setup.cut_height_mm, unit) },
    ],
    checks: [],
  };
}

function measureWords(setup: Setup, design: Design): StepWords {
  const { unit } = design;
  const made = asMade(design, setup.slot);
  return {
    title: `Measure ${setup.slot}`,
    lead: MEASURED[setup.cut],
    numbers: [{ name: 'Strip to fit', value: thickness(made.toMake_mm, unit) }],
    checks: [webChecked(made, unit)],
  };
}

const MEASURED: Readonly<Record<CutKind, string>> = {
  fence:
    'Measure kerf and web as they came out: the web square to the fence, in the middle of the kerf. The strip follows from the kerf.',
  table: 'Measure kerf and web as they came out. The strip follows from the kerf.',
};

/** The kerf's end is square to the kerf, so that at the fence the web is not the same all through. */
function webChecked({ web_mm, thinnest_web_mm }: SlotAsMade, unit: Design['unit']): string {
  const middle = thickness(web_mm, unit);
  const less_mm = web_mm - thinnest_web_mm;
  return less_mm < 0.05
    ? `Web ${middle}`
    : `Web ${middle} in the middle: ${thickness(thinnest_web_mm, unit)} at the thin edge, ${thickness(web_mm + less_mm, unit)} at the thick one`;
}

function stripWords(setup: Setup, set: SlotSet, design: Design): StepWords {
  const { unit } = design;
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
    checks: ['In by hand, without play, down to the end of the slot'],
  };
}
