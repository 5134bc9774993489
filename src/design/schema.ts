/**
 * The shape of a design file and the limits of each field (docs/file-format.md). What one field means for
 * another (web and depth, order and slots, the outline's course) is checked in rules.ts.
 */
import * as z from 'zod/mini';
import { _default as orElse } from 'zod/mini';
import { TIMBER_ALIASES, TIMBERS, timberById } from '../timber/timbers.ts';
import { DEFAULT_HIGH_SIDE, DEFAULT_SAW } from './defaults.ts';
import { isCalendarDate } from './dates.ts';
import { CUT_KINDS, DESIGN_FORMAT } from './document.ts';
import * as limit from './limits.ts';
import { CURRENT_VERSION } from './migrations.ts';
import { withoutTurns } from './plainText.ts';

// The page's content policy forbids code made from text, and one design is too small to gain from it.
z.config({ jitless: true });

/** Numbers lose the sign of zero on reading, because writing does not keep it. */
const number = (...checks: z.core.$ZodCheck<number>[]) =>
  z.number().check(
    ...checks,
    z.overwrite((value) => value + 0),
  );

const from0 = (most: number) => number(z.gte(0), z.lte(most));
const length = (most: number) => number(z.gt(0), z.gte(limit.MIN_LENGTH_MM), z.lte(most));
const place = number(z.gte(-limit.MAX_PLACE_MM), z.lte(limit.MAX_PLACE_MM));
const rightAngle = number(z.gt(0), z.lte(90));

const timber = z
  .string()
  .check(z.refine((id) => timberById(id) !== undefined, { params: { code: 'unknown-timber' } }));

const undirected = z.overwrite(withoutTurns);

/** Line breaks and tabs are fine in notes; other control characters and broken surrogates are nowhere. */
const notes = z.optional(
  z.string().check(
    z.maxLength(limit.MAX_NOTES_CHARACTERS),
    z.refine((text) => !/[^\P{Cc}\n\r\t]|\p{Cs}/u.test(text), { params: { code: 'not-plain-text' } }),
    undirected,
  ),
);

const line = (most: number) =>
  z.string().check(
    z.maxLength(most),
    z.refine((text) => !/[\p{Cc}\p{Cs}\p{Zl}\p{Zp}]/u.test(text), { params: { code: 'not-plain-text' } }),
    undirected,
  );

const section = z.strictObject({
  shape: z.enum(['square', 'rectangle', 'hexagon', 'octagon', 'round']),
  width_mm: length(limit.MAX_LENGTH_MM),
  depth_mm: z.optional(length(limit.MAX_LENGTH_MM)),
});

const azimuth = number(z.gte(-limit.MAX_AZIMUTH_DEG), z.lte(limit.MAX_AZIMUTH_DEG));

const grain = z.strictObject({
  along: z.enum(['axis', 'across']),
  azimuth_deg: z.optional(azimuth),
  pith_mm: z.optional(z.tuple([place, place])),
});

const blank = z.strictObject({
  section,
  length_mm: length(limit.MAX_LENGTH_MM),
  timber,
  grain: z.optional(grain),
});

const layer = z.strictObject({
  timber,
  thickness_mm: length(limit.MAX_KERF_MM),
  grain: z.optional(z.enum(['length', 'depth'])),
});

export const SET_ID = /^[A-Za-z][A-Za-z0-9_-]{0,15}$/;

const set = z.strictObject({
  id: z.string().check(
    z.refine((id) => SET_ID.test(id), { params: { code: 'wrong-id' } }),
    z.refine((id) => id !== 'body', { params: { code: 'reserved-id' } }),
  ),
  angle_deg: number(z.gt(0), z.gte(limit.MIN_ANGLE_DEG), z.lte(90)),
  center_mm: place,
  fence_azimuths_deg: z.array(azimuth).check(z.minLength(1), z.maxLength(limit.MAX_SLOTS)),
  high_side: orElse(z.enum(['fence', 'entry']), DEFAULT_HIGH_SIDE),
  kerf_mm: length(limit.MAX_KERF_MM),
  web_mm: number(z.gte(0)),
  cut: z.optional(z.enum(CUT_KINDS)),
  web_side: z.optional(z.enum(['ahead', 'behind'])),
  strip: z.strictObject({ layers: z.array(layer).check(z.minLength(1), z.maxLength(limit.MAX_LAYERS)) }),
  locked: z.optional(z.boolean()),
  notes,
});

const point = z.strictObject({
  z_mm: place,
  r_mm: from0(limit.MAX_LENGTH_MM),
  smooth: z.optional(z.boolean()),
});

const hole = z.strictObject({
  from: z.enum(['head', 'foot', 'side']),
  diameter_mm: length(limit.MAX_LENGTH_MM),
  depth_mm: z.nullable(length(limit.MAX_LENGTH_MM)),
  offset_mm: z.optional(number(z.gte(-limit.MAX_LENGTH_MM), z.lte(limit.MAX_LENGTH_MM))),
  azimuth_deg: z.optional(azimuth),
  z_mm: z.optional(place),
});

const form = z.strictObject({
  outline: z.array(point).check(z.minLength(limit.MIN_OUTLINE_POINTS), z.maxLength(limit.MAX_OUTLINE_POINTS)),
  loop: z.optional(z.boolean()),
  holes: z.optional(z.array(hole).check(z.maxLength(limit.MAX_HOLES))),
  finish: z.optional(z.enum(['raw', 'oiled', 'gloss'])),
});

const color = z.string().check(
  z.refine((text) => /^#[0-9a-f]{6}$/i.test(text), { params: { code: 'wrong-color' } }),
  z.toLowerCase(),
);

/** By every name that a design may use for a timber. */
const byTimber = <T extends z.ZodMiniType>(value: T) =>
  z.strictObject(
    Object.fromEntries([
      ...TIMBERS.map(({ id }) => [id, z.optional(value)] as const),
      ...Array.from(TIMBER_ALIASES.keys(), (id) => [id, z.optional(value)] as const),
    ]),
  );

const colors = byTimber(color);

const saw = z.strictObject({
  stop_side: orElse(z.enum(['acute', 'obtuse']), DEFAULT_SAW.stop_side),
  fence_min_deg: orElse(rightAngle, DEFAULT_SAW.fence_min_deg),
  fence_max_deg: orElse(rightAngle, DEFAULT_SAW.fence_max_deg),
  max_cut_height_mm: orElse(length(limit.MAX_LENGTH_MM), DEFAULT_SAW.max_cut_height_mm),
  strip_overhang_mm: orElse(from0(limit.MAX_OVERHANG_MM), DEFAULT_SAW.strip_overhang_mm),
  angle_tolerance_deg: orElse(from0(limit.MAX_ANGLE_TOLERANCE_DEG), DEFAULT_SAW.angle_tolerance_deg),
  stop_tolerance_mm: orElse(from0(limit.MAX_TOLERANCE_MM), DEFAULT_SAW.stop_tolerance_mm),
  strip_tolerance_mm: orElse(from0(limit.MAX_TOLERANCE_MM), DEFAULT_SAW.strip_tolerance_mm),
  max_open_slots: orElse(z.int().check(z.gte(1), z.lte(limit.MAX_SLOTS)), DEFAULT_SAW.max_open_slots),
  clamp_minutes: orElse(from0(limit.MAX_CLAMP_MINUTES), DEFAULT_SAW.clamp_minutes),
  table_tilt_max_deg: orElse(rightAngle, DEFAULT_SAW.table_tilt_max_deg),
  blade_kerf_mm: z.optional(length(limit.MAX_KERF_MM)),
  throat_mm: z.optional(length(limit.MAX_LENGTH_MM)),
});

const madeSlot = z.strictObject({
  kerf_mm: z.optional(length(limit.MAX_KERF_MM)),
  web_mm: z.optional(from0(limit.MAX_LENGTH_MM)),
  strip_mm: z.optional(length(limit.MAX_KERF_MM)),
});

/** A step of a slot, or one of the whole work; the slots are checked in rules.ts. */
const STEP = /^(?:[A-Za-z][A-Za-z0-9_-]{0,15}\.\d{1,3}:)?[a-z][a-z0-9-]{0,31}$/;

const work = z.strictObject({
  done: z
    .array(z.string().check(z.refine((step) => STEP.test(step), { params: { code: 'wrong-step' } })))
    .check(z.maxLength(limit.MAX_STEPS_DONE)),
});

const shortLine = z.optional(line(limit.MAX_LINE_CHARACTERS));
const amount = from0(limit.MAX_AMOUNT);
const currency = z.optional(
  z.string().check(z.refine((code) => /^[A-Z]{3}$/.test(code), { params: { code: 'wrong-currency' } })),
);
const date = z.string().check(z.refine(isCalendarDate, { params: { code: 'wrong-date' } }));

const offer = z.strictObject({
  note: notes,
  price: z.optional(amount),
  currency,
  tax: shortLine,
  delivery: shortLine,
  valid_until: z.optional(date),
  care: notes,
});

const hours = z.optional(from0(limit.MAX_HOURS));

const quote = z.strictObject({
  currency,
  hour_rate: z.optional(amount),
  hours: z.optional(
    z.strictObject({ prepare: hours, saw: hours, glue: hours, turn: hours, finish: hours, other: hours }),
  ),
  timber_per_m3: z.optional(byTimber(amount)),
  extras: z.optional(
    z
      .array(z.strictObject({ text: line(limit.MAX_LINE_CHARACTERS), amount }))
      .check(z.maxLength(limit.MAX_EXTRAS)),
  ),
  markup_percent: z.optional(from0(limit.MAX_MARKUP_PERCENT)),
  tax_percent: z.optional(from0(limit.MAX_TAX_PERCENT)),
  round_to: z.optional(amount),
});

const choice = z.strictObject({ made_on: date, by: shortLine, note: notes });

export const designSchema = z.strictObject({
  format: z.literal(DESIGN_FORMAT),
  version: z.literal(CURRENT_VERSION),
  name: line(limit.MAX_NAME_CHARACTERS),
  unit: z.enum(['in', 'mm']),
  blank,
  sets: z.array(set).check(z.maxLength(limit.MAX_SETS)),
  /** Left out: filled with the default order once the sets are known to be sound. */
  order: z.optional(z.array(z.string()).check(z.maxLength(limit.MAX_SLOTS))),
  form: orElse(z.nullable(form), null),
  colors: z.optional(colors),
  saw: orElse(saw, DEFAULT_SAW),
  made: z.optional(z.record(z.string(), madeSlot)),
  work: z.optional(work),
  offer: z.optional(offer),
  quote: z.optional(quote),
  choice: z.optional(choice),
  notes,
});

/** A file that has the right shape; `order` may still be missing. */
export type ShapedDesign = z.output<typeof designSchema>;

/** Lists and how long they may be; `*` stands for every entry. Read before the shape, which visits every entry. */
export const LIST_LIMITS: readonly (readonly [path: readonly string[], most: number])[] = [
  [['sets'], limit.MAX_SETS],
  [['sets', '*', 'fence_azimuths_deg'], limit.MAX_SLOTS],
  [['sets', '*', 'strip', 'layers'], limit.MAX_LAYERS],
  [['order'], limit.MAX_SLOTS],
  [['form', 'outline'], limit.MAX_OUTLINE_POINTS],
  [['form', 'holes'], limit.MAX_HOLES],
  [['work', 'done'], limit.MAX_STEPS_DONE],
  [['quote', 'extras'], limit.MAX_EXTRAS],
];
