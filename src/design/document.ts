/**
 * The design document: exactly what a design file holds (docs/file-format.md), with every default filled
 * in. Lengths are millimetres and angles degrees, because this is what the file says; nothing derived is
 * stored here. A document is never mutated: an edit makes a new one.
 */

export const DESIGN_FORMAT = 'kerfweave-design';

export type DisplayUnit = 'in' | 'mm';
export type SectionShape = 'square' | 'rectangle' | 'hexagon' | 'octagon' | 'round';
export type SlotId = string;

export interface Section {
  readonly shape: SectionShape;
  /** Across the flats (square, hexagon, octagon), along azimuth 0/180 (rectangle), or the diameter (round). */
  readonly width_mm: number;
  /** Along azimuth 90/270; rectangles only. */
  readonly depth_mm?: number;
}

/** How the blank's wood grew. What is left out is derived: src/design/grain.ts. */
export interface Grain {
  /** The fibre runs along the lathe axis, or across it. */
  readonly along: 'axis' | 'across';
  /** Direction of a fibre that runs across. */
  readonly azimuth_deg?: number;
  /**
   * Where the pith runs, from the middle of the blank, in the plane square to the fibre. axis: [x, y] of the lathe
   * frame; across: [toward azimuth + 90°, toward the head].
   */
  readonly pith_mm?: readonly [number, number];
}

export interface Blank {
  readonly section: Section;
  readonly length_mm: number;
  readonly timber: string;
  readonly grain?: Grain;
}

/** Direction of a strip's fibre: along the strip's length (the blade's direction), or down the slope of its slot. */
export type StripGrain = 'length' | 'depth';

export interface StripLayer {
  readonly timber: string;
  readonly thickness_mm: number;
  /** Left out: along the length. */
  readonly grain?: StripGrain;
}

/** How a slot is sawn: the fence turned against the blade, or the table tilted. */
export const CUT_KINDS = ['fence', 'table'] as const;
export type CutKind = (typeof CUT_KINDS)[number];

export interface SlotSet {
  readonly id: string;
  /** Between the cutting plane and the lathe axis; 90 is square across. */
  readonly angle_deg: number;
  /** Where the mid-plane of the kerf crosses the axis, from the foot. */
  readonly center_mm: number;
  readonly fence_azimuths_deg: readonly number[];
  /** Which end of the slot lies nearer the head: at the fence or at the entry. */
  readonly high_side: 'fence' | 'entry';
  readonly kerf_mm: number;
  readonly web_mm: number;
  /** Left out: fence. */
  readonly cut?: CutKind;
  /** Table only: the web stands at the fence azimuth + 90° (ahead; also where left out) or − 90° (behind). */
  readonly web_side?: 'ahead' | 'behind';
  readonly strip: { readonly layers: readonly StripLayer[] };
  /** Kept from changes by hand. */
  readonly locked?: boolean;
  readonly notes?: string;
}

export interface OutlinePoint {
  readonly z_mm: number;
  readonly r_mm: number;
  readonly smooth?: boolean;
}

/** A drilled hole with a flat bottom, part of the turned form. */
export interface Hole {
  /** head, foot: parallel to the axis from that end of the outline; side: square to the axis. */
  readonly from: 'head' | 'foot' | 'side';
  readonly diameter_mm: number;
  /** From the end of the outline, or from its outside at z_mm; null: right through. */
  readonly depth_mm: number | null;
  /** head, foot: distance of the hole from the axis; side: by how much it passes the axis, toward azimuth + 90°. */
  readonly offset_mm?: number;
  /** head, foot: direction of the offset; side: where the drill comes from. */
  readonly azimuth_deg?: number;
  /** Height of a hole from the side. */
  readonly z_mm?: number;
}

export type Finish = 'raw' | 'oiled' | 'gloss';

export interface Form {
  readonly outline: readonly OutlinePoint[];
  /** The outline closes on itself off the axis (a bangle): its last point joins the first. */
  readonly loop?: boolean;
  readonly holes?: readonly Hole[];
  /** Left out: oiled. */
  readonly finish?: Finish;
}

export interface Saw {
  readonly stop_side: 'acute' | 'obtuse';
  readonly fence_min_deg: number;
  readonly fence_max_deg: number;
  readonly max_cut_height_mm: number;
  readonly strip_overhang_mm: number;
  readonly angle_tolerance_deg: number;
  readonly stop_tolerance_mm: number;
  readonly strip_tolerance_mm: number;
  readonly max_open_slots: number;
  readonly clamp_minutes: number;
  /** How far the table tilts. */
  readonly table_tilt_max_deg: number;
  /** Width of the blade's own kerf, from a test cut; a wider slot is sawn in passes. */
  readonly blade_kerf_mm?: number;
  /** Between the blade and the saw's frame. */
  readonly throat_mm?: number;
}

/** What was measured as made at one slot. */
export interface MadeSlot {
  readonly kerf_mm?: number;
  readonly web_mm?: number;
  /** Thickness of the strip. */
  readonly strip_mm?: number;
}

/** Progress at the saw. */
export interface Work {
  /** Steps ticked off: `S1.1:cut` for a step of a slot, `cure` for one of the whole work. */
  readonly done: readonly string[];
}

/** What a client is told of the piece, beside its name. */
export interface Offer {
  readonly note?: string;
  /** In whole units of the currency. */
  readonly price?: number;
  /** Three letters of ISO 4217; there wherever a price is. */
  readonly currency?: string;
  /** What the price says of taxes, in the maker's own words. */
  readonly tax?: string;
  /** When and how it is handed over. */
  readonly delivery?: string;
  /** `YYYY-MM-DD`. */
  readonly valid_until?: string;
  /** How to look after the piece; left out: as its finish and timbers ask. */
  readonly care?: string;
}

/** The parts of the work that a quote counts by the hour. */
export const HOUR_KINDS = ['prepare', 'saw', 'glue', 'turn', 'finish', 'other'] as const;
export type HourKind = (typeof HOUR_KINDS)[number];

/** What the maker reckons a price from: the maker's own, never shown to a client. Amounts in whole units of the currency. */
export interface Quote {
  readonly currency?: string;
  readonly hour_rate?: number;
  /** Left out: as the plan proposes. */
  readonly hours?: Readonly<Partial<Record<HourKind, number>>>;
  /** Price of a cubic metre, by the name of the timber. */
  readonly timber_per_m3?: Readonly<Record<string, number>>;
  readonly extras?: readonly QuoteExtra[];
  readonly markup_percent?: number;
  readonly tax_percent?: number;
  /** The price is rounded up to a multiple of it. */
  readonly round_to?: number;
}

/** Anything else that is paid for: fittings, packing, a test piece. */
export interface QuoteExtra {
  readonly text: string;
  readonly amount: number;
}

/** A client chose this variant. */
export interface Choice {
  /** `YYYY-MM-DD`. */
  readonly made_on: string;
  readonly by?: string;
  readonly note?: string;
}

export interface Design {
  readonly format: typeof DESIGN_FORMAT;
  readonly version: number;
  readonly name: string;
  readonly unit: DisplayUnit;
  readonly blank: Blank;
  readonly sets: readonly SlotSet[];
  /** Every slot id exactly once, in the order of cutting. */
  readonly order: readonly SlotId[];
  /** null: the blank is left as it is. */
  readonly form: Form | null;
  /** Colours `#rrggbb` to show timbers in, by the name of the timber. */
  readonly colors?: Readonly<Record<string, string>>;
  readonly saw: Saw;
  /** By slot id. */
  readonly made?: Readonly<Record<SlotId, MadeSlot>>;
  readonly work?: Work;
  readonly offer?: Offer;
  readonly quote?: Quote;
  readonly choice?: Choice;
  readonly notes?: string;
}
