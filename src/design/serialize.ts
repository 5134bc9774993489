/**
 * Writing a design file: the same design always gives the same bytes. Keys stand in the order of the file's
 * description, short objects and lists on one line; reading the text gives an identical design.
 */
import { writtenCut } from './cuts.ts';
import type { Blank, Choice, Design, Form, Hole, MadeSlot, Offer, Quote, Saw, SlotSet } from './document.ts';
import { HOUR_KINDS } from './document.ts';

const WIDTH = 110;

/** The text of a design file, ending with a line break. */
export function serializeDesign(design: Design): string {
  const { format, version, name, unit, blank, sets, order, form, colors, saw } = design;
  const { made, work, offer, quote, choice, notes } = design;
  const file = {
    format,
    version,
    name,
    unit,
    blank: writtenBlank(blank),
    sets: sets.map(writtenSet),
    order,
    form: form && writtenForm(form),
    colors: colors && byName(colors),
    saw: writtenSaw(saw),
    made: made && writtenMade(made),
    work: work && { done: work.done },
    offer: offer && writtenOffer(offer),
    quote: quote && writtenQuote(quote),
    choice: choice && writtenChoice(choice),
    notes,
  };
  return `${written(file, 0, 0, true)}\n`;
}

function writtenBlank({ section, length_mm, timber, grain }: Blank): object {
  const { shape, width_mm, depth_mm } = section;
  return {
    section: { shape, width_mm, depth_mm },
    length_mm,
    timber,
    grain: grain && { along: grain.along, azimuth_deg: grain.azimuth_deg, pith_mm: grain.pith_mm },
  };
}

function writtenForm({ outline, loop, holes, finish }: Form): object {
  return {
    outline: outline.map(({ z_mm, r_mm, smooth }) => ({ z_mm, r_mm, smooth: smooth || undefined })),
    loop: loop || undefined,
    holes: holes?.map(writtenHole),
    finish,
  };
}

function writtenHole({ from, diameter_mm, depth_mm, offset_mm, azimuth_deg, z_mm }: Hole): object {
  return { from, diameter_mm, depth_mm, offset_mm, azimuth_deg, z_mm };
}

/** By name, so that the order in which they were chosen does not show. */
function byName(values: Readonly<Record<string, unknown>>): object {
  return Object.fromEntries(Object.entries(values).toSorted(([a], [b]) => (a < b ? -1 : 1)));
}

function writtenOffer({ note, price, currency, tax, delivery, valid_until, care }: Offer): object {
  return { note, price, currency, tax, delivery, valid_until, care };
}

function writtenQuote(quote: Quote): object {
  const { currency, hour_rate, hours, timber_per_m3, extras, markup_percent, tax_percent, round_to } = quote;
  return {
    currency,
    hour_rate,
    hours: hours && Object.fromEntries(HOUR_KINDS.map((kind) => [kind, hours[kind]])),
    timber_per_m3: timber_per_m3 && byName(timber_per_m3),
    extras: extras?.map(({ text, amount }) => ({ text, amount })),
    markup_percent,
    tax_percent,
    round_to,
  };
}

function writtenChoice({ made_on, by, note }: Choice): object {
  return { made_on, by, note };
}

function writtenSet(set: SlotSet): object {
  const { id, angle_deg, center_mm, fence_azimuths_deg, high_side, kerf_mm, web_mm } = set;
  const { strip, locked, notes } = set;
  const layers = strip.layers.map(({ timber, thickness_mm, grain }) => ({ timber, thickness_mm, grain }));
  return {
    id,
    angle_deg,
    center_mm,
    fence_azimuths_deg,
    high_side,
    kerf_mm,
    web_mm,
    ...writtenCut(set),
    strip: { layers },
    locked: locked || undefined,
    notes,
  };
}

function writtenSaw(saw: Saw): object {
  return {
    stop_side: saw.stop_side,
    fence_min_deg: saw.fence_min_deg,
    fence_max_deg: saw.fence_max_deg,
    max_cut_height_mm: saw.max_cut_height_mm,
    strip_overhang_mm: saw.strip_overhang_mm,
    angle_tolerance_deg: saw.angle_tolerance_deg,
    stop_tolerance_mm: saw.stop_tolerance_mm,
    strip_tolerance_mm: saw.strip_tolerance_mm,
    max_open_slots: saw.max_open_slots,
    clamp_minutes: saw.clamp_minutes,
    table_tilt_max_deg: saw.table_tilt_max_deg,
    blade_kerf_mm: saw.blade_kerf_mm,
    throat_mm: saw.throat_mm,
  };
}

/** By slot, so that the order of measuring does not show. */
function writtenMade(made: Readonly<Record<string, MadeSlot>>): object {
  const slots = Object.entries(made).toSorted(([a], [b]) => (a < b ? -1 : 1));
  return Object.fromEntries(
    slots.map(([slot, { kerf_mm, web_mm, strip_mm }]) => [slot, { kerf_mm, web_mm, strip_mm }]),
  );
}

/** JSON of a value that starts at a column, on one line where it fits before the margin. */
function written(value: unknown, indent: number, column: number, alwaysOpen = false): string {
  const flat = onOneLine(value);
  if (!alwaysOpen && column + flat.length <= WIDTH) return flat;
  const inner = ' '.repeat(indent + 2);
  const outer = ' '.repeat(indent);
  if (Array.isArray(value)) {
    const entries = value.map((entry: unknown) => inner + written(entry, indent + 2, indent + 2));
    return `[\n${entries.join(',\n')}\n${outer}]`;
  }
  if (typeof value === 'object' && value !== null) {
    const entries = fieldsOf(value).map(([key, field]) => {
      const label = `${inner}${JSON.stringify(key)}: `;
      return label + written(field, indent + 2, label.length);
    });
    return `{\n${entries.join(',\n')}\n${outer}}`;
  }
  return flat;
}

function onOneLine(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(onOneLine).join(', ')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const fields = fieldsOf(value).map(([key, field]) => `${JSON.stringify(key)}: ${onOneLine(field)}`);
  return `{ ${fields.join(', ')} }`;
}

function fieldsOf(value: object): [string, unknown][] {
  return Object.entries(value).filter(([, field]) => field !== undefined);
}
