/**
 * The report: everything the engine knows of a design, in the public format `kerfweave-report`, version 1
 * (docs/report.md). Millimetres and degrees; lists in cutting order; every number finite.
 */
import type { Design, SlotId } from '../design/document.ts';
import { normalizeDegrees } from '../geometry/angle.ts';
import type { PartVolumes } from '../blank/volumes.ts';
import { messagesOf, type Message } from './messages.ts';
import { measuresOf, type FormMeasures, type Measures } from './measures.ts';
import type { End, Setup, SetupOnTable } from './setups.ts';
import type { EndMark } from './tableSetup.ts';
import { worded } from './wording.ts';

export const REPORT_FORMAT = 'kerfweave-report';
export const REPORT_VERSION = 1;

/** `body`, then one entry per slot in cutting order. */
export type PerPart = Readonly<Record<string, number>>;

export interface VolumeReport {
  readonly volume_mm3: number;
  readonly parts_mm3: PerPart;
}

export interface CoverageReport {
  readonly outside_mm2: number;
  readonly parts_mm2: PerPart;
}

export interface RingReport {
  readonly slot: SlotId;
  readonly z_low_mm: number | null;
  readonly z_high_mm: number | null;
  readonly span_mm: number | null;
  readonly length_mm: number;
  readonly missing_mm: number;
  readonly hidden_mm: number;
}

export interface CrossingReport {
  readonly under: SlotId;
  readonly over: SlotId;
  readonly z_mm: number;
  readonly azimuth_deg: number;
  readonly radius_mm: number;
}

interface CutReport {
  readonly slot: SlotId;
  readonly face: string | null;
  readonly mark_fence_mm: number;
  readonly mark_entry_mm: number;
  readonly slot_depth_mm: number;
  readonly strip_thickness_mm: number;
  readonly strip_depth_mm: number;
  readonly strip_length_mm: number;
}

interface FenceSetupReport extends CutReport {
  readonly fence_angle_deg: number;
  readonly stop_end: End;
  readonly stop_to_kerf_center_mm: number;
  readonly blade_stop_mm: number;
  readonly table?: undefined;
}

/** With the table tilted there are no settings of fence and stop. */
interface TableSetupReport extends CutReport {
  readonly fence_angle_deg: null;
  readonly stop_end: null;
  readonly stop_to_kerf_center_mm: null;
  readonly blade_stop_mm: null;
  readonly table: TableReport;
}

export type SetupReport = FenceSetupReport | TableSetupReport;

export interface TableReport {
  readonly tilt_deg: number;
  readonly tilts: 'right' | 'left';
  readonly end_down: End;
  readonly entry_face: string | null;
  readonly web_face: string | null;
  readonly ledge_to_kerf_center_mm: number | null;
  readonly mark_foot: EndMarkReport | null;
  readonly mark_head: EndMarkReport | null;
  readonly feed_mm: number;
  readonly web_mm: number;
  readonly cut_height_mm: number;
}

export interface EndMarkReport {
  readonly from_axis_mm: number;
  readonly from_side_mm: number;
  readonly face: string | null;
}

export interface ToleranceReport {
  readonly slot: SlotId;
  readonly worst_mm: number;
  readonly rss_mm: number;
}

/** In millimetres, whatever the design's unit. */
export interface MessageReport {
  readonly level: Message['level'];
  readonly code: Message['code'];
  readonly slot: SlotId | null;
  readonly text: string;
}

export interface Report {
  readonly format: typeof REPORT_FORMAT;
  readonly version: typeof REPORT_VERSION;
  readonly design: string;
  readonly slots: readonly SlotId[];
  readonly block: VolumeReport;
  readonly turned: VolumeReport | null;
  readonly coverage: CoverageReport | null;
  readonly rings: readonly RingReport[] | null;
  readonly crossings: readonly CrossingReport[] | null;
  readonly setups: readonly SetupReport[];
  readonly sessions: readonly (readonly SlotId[])[];
  readonly longest_chain: number;
  readonly tolerance: readonly ToleranceReport[] | null;
  readonly messages: readonly MessageReport[];
}

/** The report of a valid design. */
export function reportOf(design: Design, measures: Measures = measuresOf(design)): Report {
  const { slots, block, form, setups, plan } = measures;
  const ids = slots.map((slot) => slot.id);
  const report: Report = {
    format: REPORT_FORMAT,
    version: REPORT_VERSION,
    design: design.name,
    slots: ids,
    block: volumeReport(block, ids),
    turned: form && volumeReport(form.turned, ids),
    coverage: form && {
      outside_mm2: form.coverage.outside_mm2,
      parts_mm2: perPart(form.coverage.body_mm2, form.coverage.strips_mm2, ids),
    },
    rings: form && ringReports(form),
    crossings: form && crossingReports(form, ids),
    setups: setups.map(setupReport),
    sessions: plan.sessions,
    longest_chain: plan.longestChain,
    tolerance: form && form.tolerance,
    messages: messagesOf(design, measures).map(messageReport),
  };
  return plain(report) as Report;
}

function messageReport({ level, code, slot, words }: Message): MessageReport {
  return { level, code, slot, text: worded(words, 'mm') };
}

function volumeReport(volumes: PartVolumes, ids: readonly SlotId[]): VolumeReport {
  return {
    volume_mm3: volumes.volume_mm3,
    parts_mm3: perPart(volumes.body_mm3, volumes.strips_mm3, ids),
  };
}

function setupReport(setup: Setup): SetupReport {
  const { slot, face, mark_fence_mm, mark_entry_mm, slot_depth_mm } = setup;
  const { strip_thickness_mm, strip_depth_mm, strip_length_mm } = setup;
  const marks = { mark_fence_mm, mark_entry_mm };
  const sizes = { slot_depth_mm, strip_thickness_mm, strip_depth_mm, strip_length_mm };
  switch (setup.cut) {
    case 'fence':
      return {
        slot,
        fence_angle_deg: setup.fence_angle_deg,
        face,
        stop_end: setup.stop_end,
        stop_to_kerf_center_mm: setup.stop_to_kerf_center_mm,
        ...marks,
        blade_stop_mm: setup.blade_stop_mm,
        ...sizes,
      };
    case 'table':
      return {
        slot,
        fence_angle_deg: null,
        face,
        stop_end: null,
        stop_to_kerf_center_mm: null,
        ...marks,
        blade_stop_mm: null,
        ...sizes,
        table: tableReport(setup),
      };
  }
}

function tableReport(setup: SetupOnTable): TableReport {
  const { table } = setup;
  return {
    tilt_deg: table.tilt_deg,
    tilts: table.tilts,
    end_down: table.end_down,
    entry_face: table.entry_face,
    web_face: table.web_face,
    ledge_to_kerf_center_mm: table.ledge_to_kerf_center_mm,
    mark_foot: markReport(table.mark_foot),
    mark_head: markReport(table.mark_head),
    feed_mm: table.feed_mm,
    web_mm: setup.blade_stop_mm,
    cut_height_mm: setup.cut_height_mm,
  };
}

function markReport(mark: EndMark | null): EndMarkReport | null {
  return mark && { from_axis_mm: mark.from_axis_mm, from_side_mm: mark.from_side_mm, face: mark.face };
}

function perPart(body: number, strips: Float64Array, ids: readonly SlotId[]): PerPart {
  return Object.fromEntries([['body', body], ...ids.map((id, n) => [id, strips[n]] as const)]);
}

function ringReports({ rings }: FormMeasures): RingReport[] {
  return rings.map((ring) => ({
    slot: ring.slot,
    z_low_mm: ring.zLow_mm,
    z_high_mm: ring.zHigh_mm,
    span_mm: ring.span_mm,
    length_mm: ring.length_mm,
    missing_mm: ring.missing_mm,
    hidden_mm: ring.hidden_mm,
  }));
}

function crossingReports({ crossings }: FormMeasures, ids: readonly SlotId[]): CrossingReport[] {
  return crossings.map((crossing) => ({
    under: ids[crossing.under],
    over: ids[crossing.over],
    z_mm: crossing.z_mm,
    azimuth_deg: normalizeDegrees(crossing.azimuth_deg),
    radius_mm: crossing.radius_mm,
  }));
}

/** The same value with every −0 made 0. A number that is not finite is an error of the engine, never printed. */
function plain(value: unknown): unknown {
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new Error(`the report would print ${value}`);
    return value + 0;
  }
  if (Array.isArray(value)) return value.map(plain);
  if (value !== null && typeof value === 'object')
    return Object.fromEntries(Object.entries(value).map(([key, entry]) => [key, plain(entry)]));
  return value;
}
