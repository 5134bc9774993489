/**
 * All timbers as textures: `table`, one row of numbers per timber, and `rings`, one line per timber that says what is
 * met at each distance from the pith. Colours are linear; everything but the base colour is a factor on it.
 */
import {
  Color,
  DataArrayTexture,
  DataTexture,
  FloatType,
  LinearFilter,
  LinearMipmapLinearFilter,
  NearestFilter,
  RepeatWrapping,
  RGBAFormat,
  UnsignedByteType,
} from 'three';
import { DEG } from '../../geometry/angle.ts';
import { hexOfLab, labOfHex } from '../../timber/colour.ts';
import { figureOf, type Figure, type LabStep } from '../../timber/figure.ts';
import { TIMBER_ALIASES, TIMBERS, timberById, type Lab } from '../../timber/timbers.ts';
import { randomFrom, seedOf } from './noise.ts';

export const TABLE_COLUMNS = 10;
/** Length of the ring line, mm, and its samples. */
export const RING_SPAN_MM = 204.8;
const RING_SAMPLES = 2048;

export interface TimberTextures {
  readonly table: DataTexture;
  readonly rings: DataArrayTexture;
  /** A table of its own with some timbers in other colours (#rrggbb by name); the caller disposes of it. */
  tableWith(colours: Readonly<Record<string, string>>): DataTexture;
  /** Row of a timber; the same for every id that means it. */
  rowOf(timber: string): number;
  dispose(): void;
}

/** Lab of a timber whose id is not in the list (a newer file): a middling brown. */
const UNKNOWN_LAB: Lab = [60, 8, 20];

export function timberTextures(): TimberTextures {
  const ids = [...TIMBERS.map((timber) => timber.id), 'unknown'];
  const rows = new Map(ids.map((id, row) => [id, row]));
  const lines = new Uint8Array(4 * RING_SAMPLES * ids.length);
  ids.forEach((id, row) => writeRings(lines, row, id, figureOf(id)));
  const tableOf = (labOf: (id: string) => Lab | undefined): DataTexture => {
    const values = new Float32Array(4 * TABLE_COLUMNS * ids.length);
    ids.forEach((id, row) => writeRow(values, row, labOf(id) ?? UNKNOWN_LAB, figureOf(id)));
    const table = new DataTexture(values, TABLE_COLUMNS, ids.length, RGBAFormat, FloatType);
    table.minFilter = table.magFilter = NearestFilter;
    table.needsUpdate = true;
    return table;
  };
  const table = tableOf((id) => timberById(id)?.lab);
  const rings = new DataArrayTexture(lines, RING_SAMPLES, 1, ids.length);
  rings.format = RGBAFormat;
  rings.type = UnsignedByteType;
  rings.wrapS = RepeatWrapping;
  rings.magFilter = LinearFilter;
  rings.minFilter = LinearMipmapLinearFilter;
  rings.generateMipmaps = true;
  rings.needsUpdate = true;
  return {
    table,
    rings,
    rowOf: (timber) => rows.get(TIMBER_ALIASES.get(timber) ?? timber) ?? ids.length - 1,
    tableWith(colours) {
      const chosen = new Map(
        Object.entries(colours).map(([name, hex]) => [TIMBER_ALIASES.get(name) ?? name, hex]),
      );
      return tableOf((id) => labOfHex(chosen.get(id) ?? '') ?? timberById(id)?.lab);
    },
    dispose() {
      table.dispose();
      rings.dispose();
    },
  };
}

function linear(lab: Lab): [number, number, number] {
  const held: Lab = [Math.min(Math.max(lab[0], 4), 96), lab[1], lab[2]];
  const { r, g, b } = new Color(hexOfLab(held));
  return [Math.max(r, 0.002), Math.max(g, 0.002), Math.max(b, 0.002)];
}

/** Factor that takes a base colour to the one `step` away from it. */
function factor(lab: Lab, step: LabStep): [number, number, number] {
  const from = linear(lab);
  const to = linear([lab[0] + step[0], lab[1] + step[1], lab[2] + step[2]]);
  return [to[0] / from[0], to[1] / from[1], to[2] / from[2]];
}

function writeRow(values: Float32Array, row: number, lab: Lab, figure: Figure): void {
  const end = factor(lab, [-figure.endDark, 0, 0]);
  const texels: number[][] = [
    [...linear(lab), figure.pore_mm],
    [...factor(lab, figure.line), figure.poreLength_mm],
    [...factor(lab, figure.streak), figure.rayHeight_mm],
    [...factor(lab, figure.earlyStep), figure.ray_mm],
    [...factor(lab, figure.poreTone), figure.rayShare],
    [...factor(lab, figure.rayTone), figure.fibre],
    [...factor(lab, figure.band), figure.band_mm],
    [figure.poreLate, figure.poreEarly, figure.drift, figure.wander_mm],
    [figure.ribbon_mm, figure.ribbon_deg * DEG, figure.ripple_deg * DEG, figure.sheen],
    [end[1], figure.early, 0, 0],
  ];
  values.set(texels.flat(), 4 * TABLE_COLUMNS * row);
}

/**
 * Channels along the radius: the line at a ring's end, streaks, earlywood, and a tone of each ring's own. Rings vary
 * in width from one to the next and in slow spells, as good and bad years do.
 */
function writeRings(lines: Uint8Array, row: number, id: string, figure: Figure): void {
  const random = randomFrom(seedOf(id));
  const edges: number[] = [0];
  let spell = 0;
  while (edges[edges.length - 1] < RING_SPAN_MM) {
    spell = 0.75 * spell + 0.5 * (random() - 0.5);
    const width = figure.ring_mm * Math.exp(1.6 * figure.unequal * (spell + 0.5 * (random() - 0.5)));
    edges.push(edges[edges.length - 1] + Math.max(width, 0.25 * figure.ring_mm));
  }
  // The line repeats: the last ring ends where the first begins.
  const stretch = RING_SPAN_MM / edges[edges.length - 1];
  const rings = edges.slice(0, -1).map((start, i) => ({
    start: start * stretch,
    width: (edges[i + 1] - start) * stretch,
    tone: random(),
    strength: 0.55 + 0.45 * random(),
  }));
  const waves = Array.from({ length: 7 }, (_, k) => ({
    count: Math.max(1, Math.round((RING_SPAN_MM / figure.streak_mm) * (0.45 + 0.28 * k))),
    phase: random(),
    height: 1 / (1 + 0.5 * k),
  }));
  let ring = 0;
  for (let i = 0; i < RING_SAMPLES; i++) {
    const at = ((i + 0.5) / RING_SAMPLES) * RING_SPAN_MM;
    while (ring + 1 < rings.length && at >= rings[ring + 1].start) ring++;
    const { start, width, tone, strength } = rings[ring];
    const t = (at - start) / width;
    const rise = Math.max(0, 1 - (1 - t) / figure.lineShare);
    // After the line the next ring starts anew within a tenth of a millimetre or so.
    const fall = ring === 0 && at < 0.12 ? 0.4 : 0;
    const line = Math.max(rise * rise, fall) * strength;
    const early = figure.early > 0 ? 1 - smooth(figure.early * 0.65, figure.early * 1.35, t) : 0;
    let wave = 0;
    let height = 0;
    for (const { count, phase, height: h } of waves) {
      wave += h * Math.sin(2 * Math.PI * ((count * at) / RING_SPAN_MM + phase));
      height += h;
    }
    const hard = 0.42 - 0.36 * figure.streakHard;
    const streak = smooth(0.56 - hard, 0.56 + hard, 0.5 + 0.9 * (wave / height));
    const texel = 4 * (row * RING_SAMPLES + i);
    lines[texel] = Math.round(255 * line);
    lines[texel + 1] = Math.round(255 * streak);
    lines[texel + 2] = Math.round(255 * early);
    lines[texel + 3] = Math.round(255 * tone);
  }
}

function smooth(from: number, to: number, x: number): number {
  const t = Math.min(1, Math.max(0, (x - from) / (to - from)));
  return t * t * (3 - 2 * t);
}
