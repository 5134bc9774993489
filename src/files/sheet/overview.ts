/** All cuts at a glance, the glue-ups with their time, and lines to write down what was measured. */
import { faceUp } from '../drawing/setup.ts';
import { sessionChoices } from '../../plan/sessionChoices.ts';
import { Flow } from './flow.ts';
import type { SheetPages } from './frame.ts';
import { angle, duration, length, onRule, thickness } from './numbers.ts';
import type { SheetSource } from './source.ts';
import { columnsOf, type CellRow } from './table.ts';

export function addOverview(pages: SheetPages, source: SheetSource): void {
  const flow = new Flow(pages, 'Cuts and glue-ups');
  flow.heading('All cuts in working order');
  addCutTable(flow, source);
  flow.heading('Glue-ups');
  flow.paragraph(glueUpText(source));
  flow.paragraph(choicesText(source));
  addGlueUpTable(flow, source);
}

function addCutTable(flow: Flow, source: SheetSource): void {
  const { unit } = source.design;
  const columns = columnsOf(flow.width, [
    ['Cut', 8],
    ['Slot', 14],
    ['At the fence', 16],
    ['Up', 10],
    ['To the stop', 15],
    ['Fence', 12, 'right'],
    ['from square', 17, 'right'],
    ['Stop to mid-kerf', 24, 'right'],
    [unit === 'in' ? 'on the rule' : '', unit === 'in' ? 27 : 1, 'right'],
    ['Blade stop', 19, 'right'],
    ['Kerf', 18, 'right'],
  ]);
  const rows = source.cuts.map(({ number, setup }): CellRow => ({
    cells: [
      `${number}`,
      setup.slot,
      setup.face ?? angle(setup.fence_azimuth_deg),
      faceUp(source.design, setup).letter ?? '',
      setup.stop_end,
      angle(setup.fence_angle_deg),
      angle(setup.protractor_deg),
      length(setup.stop_to_kerf_center_mm, unit),
      onRule(setup.stop_to_kerf_center_mm, unit) ?? '',
      thickness(setup.blade_stop_mm, unit),
      thickness(setup.kerf_mm, unit),
    ],
  }));
  flow.table(columns, rows);
}

function glueUpText({ design, measures }: SheetSource): string {
  const { plan } = measures;
  const count = plan.sessions.length;
  const { clamp_minutes, max_open_slots } = design.saw;
  const proof = plan.exact
    ? 'No plan has fewer.'
    : `The fewest found; fewer than ${plan.bound} are not possible.`;
  return (
    `${count} glue-up${count === 1 ? '' : 's'} with at most ${max_open_slots} slot${max_open_slots === 1 ? '' : 's'} open at a time, ` +
    `${duration(clamp_minutes)} in clamps each: ${duration(count * clamp_minutes)} in all. ${proof} Clamp until the glue holds; ` +
    'before turning let all of it cure as long as its label says, which is longer.'
  );
}

/** What another number of open slots would bring. */
function choicesText({ design, measures }: SheetSource): string {
  const choices = sessionChoices(measures.slots, design.blank, design.saw, [1, 2, 3, 4]);
  const words = choices.map(
    ({ maxOpen, glueUps, clampMinutes }) =>
      `${maxOpen === 1 ? 'one slot open at a time' : `up to ${maxOpen}`}: ${glueUps} (${duration(clampMinutes)})`,
  );
  return `Glue-ups by choice: ${words.join('; ')}. More slots open at once leave the blank weaker until the glue holds.`;
}

function addGlueUpTable(flow: Flow, source: SheetSource): void {
  const { plan, setups } = source.measures;
  const columns = columnsOf(flow.width, [
    ['Glue-up', 12],
    ['Slots', 40],
    ['At the fence', 20],
    ['Clamps', 16],
    ['clamped at', 22],
    ['kerf measured', 24],
    ['web measured', 24],
    ['strip measured', 24],
  ]);
  const rows = plan.sessions.map((session, i): CellRow => {
    const faces = new Set(
      session.map((id) => {
        const setup = setups.find(({ slot }) => slot === id);
        return setup ? (setup.face ?? angle(setup.fence_azimuth_deg)) : '';
      }),
    );
    return {
      cells: [
        `${i + 1}`,
        session.join(', '),
        [...faces].join(' '),
        duration(source.design.saw.clamp_minutes),
        ...Array.from({ length: 4 }, () => '…………………'),
      ],
    };
  });
  flow.table(columns, rows, 6.4);
}
