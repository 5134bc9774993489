/** One entry per cut in working order, under its glue-up: the drawing and the numbers to set. */
import { memo } from 'react';
import { momentsOf } from '../../blank/moments.ts';
import type { Design } from '../../design/document.ts';
import { formatAngle, formatLength, formatThickness } from '../../design/lengthText.ts';
import type { AsMade } from '../../plan/made.ts';
import type { Passes } from '../../plan/passes.ts';
import { CUT_WORDS } from '../../plan/cutWords.ts';
import type { Setup, SetupAtFence, SetupOnTable } from '../../plan/setups.ts';
import type { EndMark } from '../../plan/tableSetup.ts';
import { useBench } from '../bench.ts';
import { count } from '../moments/momentText.ts';
import { SetupFigure } from './SetupFigure.tsx';
import type { WorkPlan } from './workPlan.ts';

export const Setups = memo(function Setups({ design, plan }: { design: Design; plan: WorkPlan }) {
  const setPosition = useBench((bench) => bench.setPosition);
  const point = useBench((bench) => bench.point);
  const bySlot = new Map(plan.setups.map((setup, i) => [setup.slot, { setup, made: plan.made[i] }]));
  const moments = momentsOf(design);
  return (
    <section className="group" aria-label="Set-ups">
      <h2>Set-ups in working order</h2>
      <ol className="glue-ups">
        {plan.sessions.sessions.map((session, s) => (
          <li key={session.join(' ')}>
            <h3>
              Glue-up {s + 1}
              <small>{count(session.length, 'cut')}</small>
            </h3>
            <ol>
              {session.map((id) => {
                const planned = bySlot.get(id);
                if (!planned) throw new Error(`the sessions name ${id}, which no set-up has`);
                const { setup, made } = planned;
                const cut = design.order.indexOf(id);
                return (
                  <li
                    key={id}
                    className="setup"
                    onPointerEnter={() => point({ kind: 'ring', slot: id })}
                    onPointerLeave={() => point(null)}
                  >
                    <button
                      type="button"
                      className="setup-head"
                      title="Show this cut on the stage"
                      onClick={() =>
                        setPosition(
                          moments.findIndex((moment) => moment.kind === 'cut' && moment.slot === cut),
                        )
                      }
                    >
                      <b>{id}</b>
                      <span>{lieOf(setup)}</span>
                    </button>
                    <SetupFigure design={design} setup={setup} />
                    <SetupNumbers design={design} setup={setup} made={made} />
                  </li>
                );
              })}
            </ol>
          </li>
        ))}
      </ol>
    </section>
  );
});

/** How the blank lies at the saw. */
function lieOf(setup: Setup): string {
  const face =
    setup.face === null ? `${formatAngle(setup.fence_azimuth_deg)} (no face)` : `Face ${setup.face}`;
  switch (setup.cut) {
    case 'fence':
      return `${face} at the fence, ${setup.stop_end} end to the stop`;
    case 'table':
      return `${face} at the ledge, ${setup.table.end_down} on the table, its ${setup.table.tilts} side down`;
  }
}

function fromFace(mark: EndMark | null): string {
  return mark?.face ? ` from ${mark.face}` : '';
}

/** Rows that take the whole width. */
const WIDE = /^Strip|^Fit|passes/;

/** From stop or ledge to the middle of the blade, pass by pass. */
function passesRow({ passes }: Passes, { cut }: Setup, length: (value_mm: number) => string): Row {
  const places = passes.map(({ stop_to_blade_center_mm }) => length(stop_to_blade_center_mm));
  return [`${passes.length} passes, ${CUT_WORDS[cut].stop} to mid-blade`, places.join(', ')];
}

function fitWords({ fit_mm, kerf_mm, kerfFrom }: AsMade, unit: Design['unit']): string {
  const kerf = `the ${kerfFrom === 'design' ? '' : 'measured '}kerf of ${formatThickness(kerf_mm, unit)}`;
  if (Math.abs(fit_mm) < 5e-4) return `as thick as ${kerf}`;
  return `${formatThickness(Math.abs(fit_mm), unit)} ${fit_mm > 0 ? 'thicker' : 'thinner'} than ${kerf}`;
}

type Row = readonly [name: string, value: string];

/** What is set, and what is to be seen before the blade goes in. First, third and fifth: angle, stop, web (plan.css). */
function settingsOf(setup: Setup, made: AsMade, unit: Design['unit']): readonly Row[] {
  switch (setup.cut) {
    case 'fence':
      return fenceSettings(setup, made, unit);
    case 'table':
      return tableSettings(setup, made, unit);
  }
}

function fenceSettings(setup: SetupAtFence, made: AsMade, unit: Design['unit']): readonly Row[] {
  const length = (value: number) => formatLength(value, unit);
  return [
    [CUT_WORDS.fence.angle, formatAngle(setup.fence_angle_deg)],
    ['From square', formatAngle(setup.protractor_deg)],
    ['Stop to kerf, middle', length(setup.stop_to_kerf_center_mm)],
    ['Stop to kerf, near side', length(made.stop_to_kerf_near_mm)],
    ['Blade stop (web)', formatThickness(setup.blade_stop_mm, unit)],
    [
      made.webMeasured ? 'Thinnest web as measured' : 'Thinnest web',
      formatThickness(made.thinnest_web_mm, unit),
    ],
    ['Mark, fence face', length(setup.mark_fence_mm)],
    ['Mark, entry face', length(setup.mark_entry_mm)],
    ['Slot down the slope', length(setup.slot_depth_mm)],
    ['Height under the guide', length(setup.cut_height_mm)],
  ];
}

function tableSettings(setup: SetupOnTable, made: AsMade, unit: Design['unit']): readonly Row[] {
  const { table } = setup;
  const length = (value: number) => formatLength(value, unit);
  const known = (value: number | undefined | null) => (value == null ? 'none' : length(value));
  const ledgePlace = (value: number | null) =>
    value !== null && value < 0 ? `${length(-value)} beyond the ledge` : known(value);
  return [
    [CUT_WORDS.table.angle, formatAngle(table.tilt_deg)],
    ['Table to blade', formatAngle(90 - table.tilt_deg)],
    ['Ledge to kerf, middle', ledgePlace(table.ledge_to_kerf_center_mm)],
    ['Ledge to kerf, near side', ledgePlace(made.ledge_to_kerf_near_mm)],
    [`Web${table.web_face ? ` at ${table.web_face}` : ''}`, formatThickness(setup.blade_stop_mm, unit)],
    [`Feed${table.entry_face ? ` from ${table.entry_face}` : ''}`, length(table.feed_mm)],
    [`Mark, head${fromFace(table.mark_head)}`, known(table.mark_head?.from_side_mm)],
    [`Mark, foot${fromFace(table.mark_foot)}`, known(table.mark_foot?.from_side_mm)],
    ['Wood along the blade', length(setup.cut_height_mm)],
  ];
}

function SetupNumbers({ design, setup, made }: { design: Design; setup: Setup; made: AsMade }) {
  const { unit } = design;
  const length = (value: number) => formatLength(value, unit);
  const rows: readonly Row[] = [
    ...settingsOf(setup, made, unit),
    ...(setup.passes && setup.passes.passes.length > 1 ? [passesRow(setup.passes, setup, length)] : []),
    [
      'Strip',
      `${formatThickness(made.strip_mm, unit)} × ${length(made.strip_depth_mm)} × ${length(made.strip_length_mm)}`,
    ],
    ['Fit', fitWords(made, unit)],
  ];
  return (
    <dl className="setup-numbers">
      {rows.map(([name, value]) => (
        <div key={name} className={WIDE.test(name) ? 'wide' : undefined}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}
