/**
 * The parts of a piece by three-bvh-csg the obvious way, operation upon operation: cut slot after slot out of
 * everything there is, give each strip its slot, and intersect every part with the turned form at the end.
 * Results of operations go into further operations, which the library does not do soundly; this is here only
 * for the bench to show what the product avoids, in time and in lost wood. Lathe frame, mm.
 */
import { BufferAttribute, BufferGeometry, MeshBasicMaterial } from 'three';
import { Brush, Evaluator, INTERSECTION, SUBTRACTION } from 'three-bvh-csg';
import type { Manifold, ManifoldToplevel } from 'manifold-3d';
import { slotsOf } from '../../src/blank/slots.ts';
import type { Design } from '../../src/design/document.ts';
import { cutterSolid, wholeSolid, type OracleOptions } from './manifoldOracle.ts';
import { enclosedVolume } from './closed.ts';

export interface ChainInput {
  readonly block: Brush;
  readonly cutters: readonly Brush[];
  readonly form: Brush | null;
}

/** Clean solids to start from, made outside the measured time. */
export function chainInput(library: ManifoldToplevel, design: Design, options: OracleOptions): ChainInput {
  const take = (solid: Manifold): Brush => {
    const { numProp, vertProperties, triVerts } = solid.getMesh();
    solid.delete();
    if (numProp !== 3) throw new Error('positions only');
    return brush(vertProperties, triVerts);
  };
  return {
    block: take(wholeSolid(library, design, { ...options, turned: false })),
    cutters: slotsOf(design).map((slot) =>
      take(cutterSolid(library, design, slot, -slot.kerf_mm / 2, slot.kerf_mm / 2)),
    ),
    form: options.turned ? take(wholeSolid(library, design, options)) : null,
  };
}

/** Volumes, mm³: the body, then the strips in cutting order. */
export function chainedParts({ block, cutters, form }: ChainInput): number[] {
  const evaluator = new Evaluator();
  // Left out of the library's types.
  (evaluator as Evaluator & { useCDTClipping: boolean }).useCDTClipping = true;
  evaluator.useGroups = false;
  evaluator.attributes = ['position'];
  let parts: Brush[] = [block];
  for (const cutter of cutters) {
    const strip = evaluator.evaluate(block, cutter, INTERSECTION);
    parts = parts.map((part) => (isEmpty(part) ? part : evaluator.evaluate(part, cutter, SUBTRACTION)));
    parts.push(strip);
  }
  if (form)
    parts = parts.map((part) => (isEmpty(part) ? part : evaluator.evaluate(part, form, INTERSECTION)));
  return parts.map(volume_mm3);
}

function brush(positions: Float32Array, triangles: Uint32Array): Brush {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(positions, 3));
  geometry.setIndex(new BufferAttribute(triangles, 1));
  const made = new Brush(geometry, new MeshBasicMaterial());
  made.updateMatrixWorld();
  return made;
}

/** Results are drawn from the start of larger buffers: the draw range says how far they reach. */
function drawnCount({ geometry }: Brush): number {
  const stored = geometry.index ? geometry.index.count : geometry.getAttribute('position').count;
  return Math.min(stored, geometry.drawRange.count);
}

function isEmpty(part: Brush): boolean {
  return drawnCount(part) === 0;
}

function volume_mm3(part: Brush): number {
  const count = drawnCount(part);
  if (count === 0) return 0;
  const position = part.geometry.getAttribute('position');
  const { index } = part.geometry;
  const triangles = Uint32Array.from({ length: count }, (_, i) => (index ? index.getX(i) : i));
  return enclosedVolume(Float64Array.from(position.array), triangles);
}
