/**
 * Two to four variants of the design side by side: which ones there are, and a table of what differs in what
 * comes out. Lengths mm; numbers from the engine, for each variant as it stands.
 */
import { Check, Copy, X } from 'lucide-react';
import { useDeferredValue } from 'react';
import type { Design } from '../../design/document.ts';
import { formatAngle, formatLength, formatThickness } from '../../design/lengthText.ts';
import type { Report } from '../../plan/report.ts';
import type { WorkPlan } from '../plan/workPlan.ts';
import { sinDeg } from '../../geometry/angle.ts';
import { useBench, type Variant } from '../bench.ts';
import { coverageFor, crossingsFor, ringsFor, slotsFor } from '../derived.ts';
import { Tried } from '../plan/AsBuilt.tsx';
import './compare.css';

const MAX_VARIANTS = 4;

export function ComparePanel() {
  const variants = useBench((bench) => bench.work.variants);
  const active = useBench((bench) => bench.work.active);
  const editWork = useBench((bench) => bench.editWork);
  const endGesture = useBench((bench) => bench.endGesture);
  const chooseVariant = useBench((bench) => bench.chooseVariant);
  const addVariant = useBench((bench) => bench.addVariant);
  return (
    <section className="compare" aria-label="Variants">
      <ul className="variant-list">
        {variants.map((variant, i) => (
          <li key={variant.id} data-active={i === active}>
            <button
              type="button"
              className="icon"
              aria-pressed={i === active}
              aria-label={`Edit variant ${variant.name}`}
              title={i === active ? 'This variant is being edited' : 'Edit this variant'}
              onClick={() => chooseVariant(i)}
            >
              <span className="variant-letter">{'ABCD'[i]}</span>
            </button>
            <input
              type="text"
              className="name-field"
              aria-label={`Name of variant ${'ABCD'[i]}`}
              value={variant.name}
              maxLength={40}
              onChange={(event) =>
                editWork(
                  'name a variant',
                  (work) => ({
                    ...work,
                    variants: work.variants.map((known, k) =>
                      k === i ? { ...known, name: event.target.value } : known,
                    ),
                  }),
                  `name ${variant.id}`,
                )
              }
              onBlur={endGesture}
            />
            <button
              type="button"
              className="icon"
              aria-label={`Keep only ${variant.name}`}
              title="Keep only this one: the others go, and undo brings them back"
              onClick={() =>
                editWork(`make ${variant.name} the design`, () => ({ variants: [variant], active: 0 }))
              }
            >
              <Check />
            </button>
            <button
              type="button"
              className="icon"
              aria-label={`Remove variant ${variant.name}`}
              title="Remove this variant"
              onClick={() =>
                editWork(`remove ${variant.name}`, (work) => ({
                  variants: work.variants.filter((_, k) => k !== i),
                  active:
                    work.active > i || work.active === work.variants.length - 1
                      ? Math.max(work.active - 1, 0)
                      : work.active,
                }))
              }
            >
              <X />
            </button>
          </li>
        ))}
      </ul>
      <button
        type="button"
        className="button quiet"
        disabled={variants.length >= MAX_VARIANTS}
        onClick={addVariant}
      >
        <Copy /> Another variant of {variants[active].name}
      </button>
      <Tried />
      <Differences variants={variants} />
    </section>
  );
}

interface Row {
  readonly name: string;
  /** Lengths: their unit stands once, after the name. */
  readonly inUnit?: true;
  /** `report` and `plan` are null while they are worked out. */
  readonly of: (design: Design, report: Report | null, plan: WorkPlan | null) => string;
}

const ROWS: readonly Row[] = [
  {
    name: 'Angles',
    of: (design) =>
      listed(
        design.sets.map((set) => set.angle_deg),
        formatAngle,
      ),
  },
  { name: 'Cuts', of: (design) => String(design.order.length) },
  {
    name: 'Ring span',
    inUnit: true,
    of: (design) =>
      listed(
        (ringsFor(design) ?? []).flatMap((ring) => (ring.span_mm === null ? [] : [ring.span_mm])),
        (value) => formatLength(value, design.unit),
      ),
  },
  {
    name: 'Band along the axis',
    inUnit: true,
    of: (design) =>
      listed(
        slotsFor(design).map((slot) => slot.kerf_mm / sinDeg(slot.angle_deg)),
        (value) => formatThickness(value, design.unit),
      ),
  },
  {
    name: 'Rings not whole',
    of: (design) => String((ringsFor(design) ?? []).filter((ring) => !ring.whole).length),
  },
  {
    name: 'Missing in webs',
    inUnit: true,
    of: (design) =>
      formatLength(
        (ringsFor(design) ?? []).reduce((sum, ring) => sum + ring.missing_mm, 0),
        design.unit,
      ),
  },
  { name: 'Crossings', of: (design) => String((crossingsFor(design) ?? []).length) },
  {
    name: 'Strips cover',
    of: (design) => {
      const coverage = coverageFor(design);
      if (!coverage || coverage.outside_mm2 === 0) return '–';
      return `${((1 - coverage.body_mm2 / coverage.outside_mm2) * 100).toFixed(1)} %`;
    },
  },
  { name: 'Glue-ups', of: (_, report) => (report ? String(report.sessions.length) : '…') },
  {
    name: 'Wood turned away',
    of: (_, report) => {
      if (!report) return '…';
      if (!report.turned) return '–';
      return `${((1 - report.turned.volume_mm3 / report.block.volume_mm3) * 100).toFixed(1)} %`;
    },
  },
  { name: 'Warnings', of: (_, __, plan) => (plan ? String(warningsIn(plan)) : '…') },
];

/** As many as the list of messages tells. */
function warningsIn(plan: WorkPlan): number {
  return plan.messages.filter((message) => message.level === 'warning').length;
}

function Differences({ variants: current }: { variants: readonly Variant[] }) {
  const variants = useDeferredValue(current);
  const reports = useBench((bench) => bench.reports);
  const valueOf = (row: Row, design: Design) => {
    const state = reports.get(design);
    return state?.state === 'ready' ? row.of(design, state.report, state.plan) : row.of(design, null, null);
  };
  const { unit } = variants[0].design;
  const bare = (row: Row, value: string) => (row.inUnit ? value.replaceAll(` ${unit}`, '') : value);
  if (variants.length < 2) return null;
  return (
    <table className="differences" data-stale={variants !== current} data-many={variants.length > 3}>
      <caption className="visually-hidden">What differs between the variants</caption>
      <thead>
        <tr>
          <th scope="col">
            <span className="visually-hidden">What</span>
          </th>
          {variants.map((variant, i) => (
            <th key={variant.id} scope="col">
              {'ABCD'[i]}
              <span className="visually-hidden"> {variant.name}</span>
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {ROWS.map((row) => {
          const values = variants.map((variant) => valueOf(row, variant.design));
          const differs = values.some((value) => value !== values[0]);
          return (
            <tr key={row.name} data-differs={differs}>
              <th scope="row">
                {row.name}
                {row.inUnit && `, ${unit}`}
              </th>
              {values.map((value, i) => (
                <td key={i}>
                  <Value text={bare(row, value)} />
                </td>
              ))}
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

/** A range may take two lines, a number with its unit never. */
function Value({ text }: { readonly text: string }) {
  const [low, high] = text.split(RANGE);
  if (high === undefined) return <span>{text}</span>;
  return (
    <>
      <span>{low}</span> <span>– {high}</span>
    </>
  );
}

const RANGE = ' – ';

/** One value where all are equal, else the range from the least to the greatest. */
function listed(values: readonly number[], text: (value: number) => string): string {
  if (values.length === 0) return '–';
  const low = text(Math.min(...values));
  const high = text(Math.max(...values));
  return low === high ? low : `${low}${RANGE}${high}`;
}
