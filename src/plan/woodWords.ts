/** What the plan says of weight, movement and grain of the wood, for panel and sheet. Formulas: wood.ts. */
import type { Design } from '../design/document.ts';
import type { Measures } from './measures.ts';
import { grainChoices, movementBetween, weightOf, worstStrip, type Climate, type Weight } from './wood.ts';
import { massText, mm, said, temperatureText, volumeText, type Wording } from './wording.ts';
import type { StripGroup } from './strips.ts';

/** Moisture of wood in a heated room, which the weights are given for. */
const MOISTURE_PCT = 8;
const ROOM_C = 20;
/** Less than can be measured on wood. */
const NOTHING_MM = 0.005;

export interface Weights {
  readonly blank: Weight;
  /** null when the blank is left square. */
  readonly piece: Weight | null;
}

export function weightsOf(design: Design, { slots, block, form }: Measures): Weights {
  return {
    blank: weightOf(design, slots, block, MOISTURE_PCT),
    piece: form && weightOf(design, slots, form.turned, MOISTURE_PCT),
  };
}

export function weightWords({ blank, piece }: Weights, unit: Design['unit']): Wording {
  const turned = piece ? `, the turned piece about ${massText(piece.mass_g, unit)}` : '';
  return said`The glued blank weighs about ${massText(blank.mass_g, unit)}${turned} at ${MOISTURE_PCT} % moisture; one board of a species differs from another by 10 to 20 %.`;
}

/** What body and strips do between two humidities, and which way the fibre of the strips had better run. */
export function movementWords(design: Design, from_pct: number, to_pct: number): Wording[] {
  const climate = (humidity_pct: number): Climate => ({ temperature_C: ROOM_C, humidity_pct });
  const [from, to] = [climate(from_pct), climate(to_pct)];
  const move = movementBetween(design, from, to);
  const shrinks = move.to_pct < move.from_pct;
  const size = (value_mm: number) => mm(Math.abs(value_mm));
  const known = move.tangential.status === 'V' && move.radial.status === 'V';
  const worst = worstStrip(move.strips);
  return [
    said`From ${from_pct} % to ${to_pct} % humidity at ${temperatureText(ROOM_C, design.unit)} the wood goes from ${move.from_pct.toFixed(1)} % to ${move.to_pct.toFixed(1)} % moisture and the blank ${shrinks ? 'shrinks' : 'grows'} by ${size(move.radial.value)} (quarter-sawn) to ${size(move.tangential.value)} (flat-sawn) across its fibre. ${
      known ? 'Coefficients from published tables.' : 'Coefficients in part from memory: an estimate.'
    }${move.withinRange ? '' : ' They hold for 6 to 14 % moisture; beyond that the figures are rough.'}`,
    ...(worst && Math.abs(worst.worst_mm) >= NOTHING_MM
      ? [
          said`Of all strips that of ${worst.slot} moves most against the body: ${worst.direction} the body moves ${size(worst.worst_mm)} ${worst.worst_mm < 0 === shrinks ? 'more' : 'less'} than the strip.`,
        ]
      : []),
    ...grainWords(design, from, to),
  ];
}

function grainWords(design: Design, from: Climate, to: Climate): Wording[] {
  const [less, more] = grainChoices(design, from, to);
  if (!less || !more || Math.abs(more.worst_mm) < NOTHING_MM) return [];
  const name = { length: 'along the blade', depth: 'down the slope' } as const;
  const size = (value_mm: number) => mm(Math.abs(value_mm));
  const alike = Math.abs(more.worst_mm) - Math.abs(less.worst_mm) < 0.01;
  return [
    alike
      ? said`Grain of the strips: ${name.length} or ${name.depth}, they move alike against the body (${size(less.worst_mm)} at most); along its longer side a thin strip breaks less in the hand (common practice).`
      : said`Grain of the strips: with the fibre ${name[less.grain]} they move ${size(less.worst_mm)} at most against the body, ${name[more.grain]} ${size(more.worst_mm)}. A thin strip with its fibre along its longer side breaks less in the hand (common practice).`,
  ];
}

/** What a group of strips takes from the stock. */
export function stockWords({ count, spare, stock, grain }: StripGroup, unit: Design['unit']): Wording {
  return said`${count} and ${spare} spare, from one billet ${mm(stock.depth_mm)} (deep) × ${mm(stock.length_mm)} (long) × ${mm(stock.thickness_mm)}; grain ${grain === 'depth' ? 'down the slope' : 'along the blade'}; ${volumeText(stock.kerfLoss_mm3, unit)} go to dust.`;
}
