/**
 * The solids of a design as a 3D file: which parts belong to the moment asked for, and in which format.
 * Lathe frame, mm (glb.ts, threemf.ts and stl.ts say what becomes of it).
 *
 * A step is a moment of the work at the saw: 0 the sawn block, 2n − 1 cut n open, 2n strip n glued; without
 * a step the finished piece, turned where the design has a form.
 */
import { blockParts, turnedParts, wholePart, type SolidOptions } from '../blank/solids.ts';
import type { Part } from '../blank/parts.ts';
import type { Design } from '../design/document.ts';
import { writeGlb } from './glb.ts';
import { looksOf } from './look.ts';
import { writeStl } from './stl.ts';
import { write3mf } from './threemf.ts';

export const MODEL_ENDINGS = ['glb', '3mf', 'stl'] as const;
export type ModelEnding = (typeof MODEL_ENDINGS)[number];

export interface ModelRequest {
  readonly ending: ModelEnding;
  /** Moment of the work; left out: the finished piece. */
  readonly step?: number;
  /** `body`, a slot id or the layer of a strip (`S1.1/1`): this part alone. */
  readonly part?: string;
}

/** The file's bytes, or why there is no such file; the design must be valid. */
export type ModelResult = { readonly bytes: Uint8Array } | { readonly refusal: string };

/** What a file name says of the format, by its ending. */
export function modelEnding(fileName: string): ModelEnding | null {
  const ending = /\.([^./\\]+)$/.exec(fileName)?.[1].toLowerCase();
  return MODEL_ENDINGS.find((known) => known === ending) ?? null;
}

export function modelFile(design: Design, request: ModelRequest): ModelResult {
  const { ending, step, part } = request;
  const last = 2 * design.order.length;
  if (step !== undefined && !(Number.isInteger(step) && step >= 0 && step <= last))
    return { refusal: `step ${step} is not one of 0 to ${last}` };
  const options: SolidOptions =
    step === undefined ? {} : { filled: Math.floor(step / 2), open: step % 2 === 1 };
  const turned = step === undefined && design.form !== null;
  const title = design.name.trim() === '' ? 'Untitled' : design.name;

  if (ending === 'stl' && part === undefined) {
    const whole = wholePart(design, turned, options);
    return whole.triangles.length === 0
      ? { refusal: 'nothing is left of the piece' }
      : { bytes: writeStl(title, [whole]) };
  }
  const parts = partsOf(ending === 'stl' && part !== undefined ? withoutLayers(design, part) : design);
  const chosen =
    part === undefined ? parts : parts.filter(({ name, slot }) => name === part || slot === part);
  if (chosen.length === 0) return { refusal: missing(design, part ?? '', step) };
  const solid = chosen.filter(({ triangles }) => triangles.length > 0);
  if (solid.length === 0) return { refusal: `nothing is left of ${part ?? 'the piece'} at this moment` };
  if (ending === 'glb') return { bytes: writeGlb(title, solid, looksOf(design)) };
  if (ending === '3mf') return { bytes: write3mf(title, solid, looksOf(design)) };
  return { bytes: writeStl(`${title}, ${part}`, solid) };

  function partsOf(drawn: Design): Part[] {
    return turned ? turnedParts(drawn, options) : blockParts(drawn, options);
  }
}

/**
 * The design with the strips of one slot's set in one piece, so that a layered strip asked for by its slot's
 * id comes out as one solid without walls inside.
 */
function withoutLayers(design: Design, slot: string): Design {
  const set = slot.slice(0, Math.max(slot.lastIndexOf('.'), 0));
  if (slot.includes('/')) return design;
  return {
    ...design,
    sets: design.sets.map((one) =>
      one.id === set ? { ...one, strip: { layers: one.strip.layers.slice(0, 1) } } : one,
    ),
  };
}

function missing(design: Design, part: string, step: number | undefined): string {
  const slot = part.replace(/\/\d+$/, '');
  if (design.order.includes(slot) && step !== undefined && design.order.indexOf(slot) >= Math.floor(step / 2))
    return `the strip of ${slot} is not in the piece at step ${step}`;
  return `the design has no part called ${part}`;
}
