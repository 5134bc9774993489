/**
 * What a step says: title, one instruction, the two or three numbers that matter, and what to check. Numbers are
 * worded as on the shop sheet, in the design's unit. Preparations and checks are common practice.
 */
import type { Design } from '../../design/document.ts';
import { angle, duration, length, thickness } from '../../files/sheet/numbers.ts';
import { CUT_WORDS } from '../../plan/cutWords.ts';
import { listed } from '../../plan/wording.ts';
import { count } from '../moments/momentText.ts';
import type { WorkPlan } from '../plan/workPlan.ts';
import { slotWords } from './slotWords.ts';
import type { GlueStep, SawStep, WholeKind, WholeStep } from './steps.ts';
import type { BigNumber, StepWords } from './words.ts';
import { timberName } from '../../timber/names.ts';

export function stepWords(step: SawStep, design: Design, plan: WorkPlan): StepWords {
  if (step.session === null) return wholeWords(step, design, plan);
  return 'cut' in step ? slotWords(step, design) : glueWords(step, design, plan);
}

/** `Glue-up 2 of 4 · S1.3`, `Before the first cut`, `After the last cut`. */
export function stepPlace(step: SawStep, sessions: number): string {
  if (step.session !== null) return `Glue-up ${step.session + 1} of ${sessions} · ${listed(step.slots)}`;
  return isAfter(step) ? 'After the last cut' : 'Before the first cut';
}

export function isAfter(step: SawStep): boolean {
  return step.kind === 'cure' || step.kind === 'lathe' || step.kind === 'dust';
}

function wholeWords(step: WholeStep, design: Design, plan: WorkPlan): StepWords {
  const { unit, blank, saw } = design;
  const { section } = blank;
  const first = plan.setups[0];
  const words: Readonly<Record<WholeKind, () => StepWords>> = {
    safety: () => ({
      title: 'Before you start',
      lead: 'Read the saw’s own manual first. These steps remind a trained person; they teach nobody to saw.',
      numbers: [
        { name: 'Cuts', value: `${plan.setups.length}` },
        { name: 'Glue-ups', value: `${plan.sessions.sessions.length}` },
        { name: 'In clamps', value: duration(plan.sessions.sessions.length * saw.clamp_minutes) },
      ],
      checks: [],
    }),
    blank: () => ({
      title: 'Check the stock',
      lead: `${timberName(blank.timber)}, dry. The marks are only as true as the blank.`,
      numbers: [
        ...(section.shape === 'rectangle'
          ? [
              { name: 'A to C', value: length(section.width_mm, unit) },
              { name: 'B to D', value: length(section.depth_mm ?? section.width_mm, unit) },
            ]
          : [{ name: ACROSS[section.shape], value: length(section.width_mm, unit) }]),
        { name: 'Long', value: length(blank.length_mm, unit) },
      ],
      checks:
        section.shape === 'round'
          ? ['Turned true along its whole length', 'Ends square to the axis']
          : [
              'Opposite faces parallel, neighbours square where they should be',
              'Ends square to every face',
              'The two diagonals of an end agree',
            ],
    }),
    letters: () => ({
      title: section.shape === 'round' ? 'Mark the ends' : 'Letter the faces',
      lead:
        section.shape === 'round'
          ? 'Write foot and head on the ends. Mark the head in degrees, counter-clockwise.'
          : 'Write foot and head on the ends. Seen from the head the letters run counter-clockwise.',
      numbers: [
        section.shape === 'round'
          ? { name: 'Marks on the head', value: `${azimuthsOf(plan).length}` }
          : { name: 'Faces', value: `A to ${lastLetter(section.shape)}` },
      ],
      checks: [
        ...(section.shape === 'round' ? [`Marked: ${azimuthsOf(plan).map(angle).join(', ')}`] : []),
        'Centres pricked on both ends',
        'Every mark is measured from the foot',
        'Waste for holding allowed at the ends',
      ],
    }),
    strips: () => ({
      title: 'Strips ready',
      lead: 'Have every strip at its thickness before the first cut.',
      numbers: plan.strips.slice(0, 3).map((group) => ({
        name: timberName(group.timber),
        value: thickness(group.thickness_mm, unit),
        note: `${count(group.count, 'piece')} and ${group.spare} spare`,
      })),
      checks: [
        ...plan.strips
          .slice(3)
          .map(
            (group) =>
              `${timberName(group.timber)}, ${thickness(group.thickness_mm, unit)}: ${count(group.count, 'piece')}`,
          ),
        `True to ± ${thickness(saw.strip_tolerance_mm, unit)}`,
      ],
    }),
    practice: () => ({
      title: 'Practice cut',
      lead: `Cut ${first.slot} in waste of the same size, stop the blade, back out, measure the kerf.`,
      numbers: [
        { name: CUT_WORDS[first.cut].angle, value: angle(first.fence_angle_deg) },
        { name: 'Kerf planned', value: thickness(first.kerf_mm, unit) },
      ],
      checks: ['Angle, mark and web are where they should be', 'A strip goes in by hand, without play'],
    }),
    cure: () => ({
      title: 'Let it cure',
      lead: 'Clamp time is not cure time: wait as long as the glue’s label says before turning.',
      numbers: [{ name: 'Cure', value: 'See the label' }],
      checks: ['No strip moves, no glue is soft', 'No slot is open'],
    }),
    lathe: () => ({
      title: 'Before the lathe',
      lead: 'The lathe’s manual first. Glued blanks can come apart: begin slow, stand aside.',
      numbers: speedNumbers(plan),
      checks: ['Every slot is filled and every strip is tight', 'The blank runs true between centres'],
    }),
    dust: () => ({
      title: 'Dust',
      lead: 'Turning and sanding make fine dust. Extract it, wear a mask.',
      numbers: [],
      checks: [],
    }),
  };
  return words[step.kind]();
}

const ACROSS = {
  square: 'Side',
  hexagon: 'Across flats',
  octagon: 'Across flats',
  round: 'Diameter',
} as const;

function lastLetter(shape: Design['blank']['section']['shape']): string {
  return shape === 'hexagon' ? 'F' : shape === 'octagon' ? 'H' : 'D';
}

/** Azimuths that lie at the fence or at the ledge, each once. */
function azimuthsOf({ setups }: WorkPlan): number[] {
  const azimuths = new Set(setups.map(({ fence_azimuth_deg }) => fence_azimuth_deg));
  return [...azimuths].toSorted((a, b) => a - b);
}

/** The rpm range that the plan's caution names. */
function speedNumbers(plan: WorkPlan): BigNumber[] {
  const range = plan.cautions.find((caution) => caution.rpm)?.rpm;
  if (!range) return [];
  return [
    { name: 'Begin at or below', value: `${range.low} rpm`, note: 'a rule of thumb' },
    { name: 'Up to', value: `${range.high} rpm`, note: 'or what the lathe’s manual allows' },
  ];
}

function glueWords(step: GlueStep, design: Design, plan: WorkPlan): StepWords {
  const { saw } = design;
  const names = listed(step.slots);
  const last = step.session === plan.sessions.sessions.length - 1;
  if (step.kind === 'glue')
    return {
      title: step.slots.length === 1 ? `Glue the strip into ${names}` : `Glue ${step.slots.length} strips`,
      lead: `Glue on both walls of the slot. Press the strip${step.slots.length === 1 ? '' : 's'} down to the end of the slot.`,
      numbers: [
        { name: step.slots.length === 1 ? 'Strip' : 'Strips', value: step.slots.join('  ') },
        { name: 'Clamp for', value: duration(saw.clamp_minutes) },
      ],
      checks: [
        'Glue shows all round',
        'The strip sits on the end of the slot',
        'The blank is still straight',
      ],
    };
  if (step.kind === 'clamp')
    return {
      title: 'In the clamps',
      lead: `Glue-up ${step.session + 1}: ${names}.`,
      numbers: [],
      checks: [],
    };
  return {
    title: 'Trim flush',
    lead: last
      ? 'Trim the strip ends. Leave nothing that catches a tool or throws the blank off centre.'
      : 'Trim the strip ends on every face that will lie on fence or table.',
    numbers: [{ name: 'Left standing', value: 'Nothing' }],
    checks: ['A straight edge does not rock on any face', 'No glue stands on the faces'],
  };
}
