/**
 * One boolean of two clean solids by three-bvh-csg, and the check that its result must pass before it is shown.
 * Results are never fed back in. Settings as measured: exact clipping, no groups, indexed float32, one evaluator.
 *
 * The two results, what is left and what was taken, come from one call: they must both be closed, and their volumes
 * must add up to the whole. Drawn frame (y-up), mm.
 */
import { BufferAttribute, BufferGeometry } from 'three';
import { Brush, Evaluator, INTERSECTION, SUBTRACTION } from 'three-bvh-csg';
import { checkClosed, meshVolume_mm3, weldedIds, type WorkMesh } from './mesh.ts';

export interface BooleanResult {
  /** workpiece − cutter */
  readonly left: WorkMesh;
  /** workpiece ∩ cutter */
  readonly taken: WorkMesh;
  /** null when both results passed. */
  readonly fault: string | null;
  /** |left + taken − whole| as a share of the whole. */
  readonly volumeError: number;
}

/** Vertices closer than this are one: the library computes a cut twice, in float32, for the faces on its two sides. */
export const BOOLEAN_WELD_MM = 2e-4;
/** Share of the whole's volume that the two results may miss it by; float32 vertices of an 80 mm block give about 1e-7. */
export const BOOLEAN_VOLUME_TOLERANCE = 2e-6;

let evaluator: Evaluator | null = null;

function sharedEvaluator(): Evaluator {
  if (evaluator) return evaluator;
  evaluator = new Evaluator();
  (evaluator as Evaluator & { useCDTClipping: boolean }).useCDTClipping = true;
  evaluator.useGroups = false;
  evaluator.attributes = ['position', 'normal', 'surface'];
  return evaluator;
}

/** The workpiece cut by a convex cutter: what is left and what was taken. */
export function cutWorkpiece(workpiece: WorkMesh, cutter: WorkMesh): BooleanResult {
  const [left, taken] = sharedEvaluator().evaluate(
    brushOf(workpiece),
    brushOf(cutter),
    [SUBTRACTION, INTERSECTION],
    [new Brush(), new Brush()],
  );
  const results = { left: meshOf(left.geometry), taken: meshOf(taken.geometry) };
  const whole = meshVolume_mm3(workpiece);
  const volumeError = Math.abs(meshVolume_mm3(results.left) + meshVolume_mm3(results.taken) - whole) / whole;
  return { ...results, volumeError, fault: faultOf(results.left, results.taken, volumeError) };
}

function faultOf(left: WorkMesh, taken: WorkMesh, volumeError: number): string | null {
  for (const [name, mesh] of [['left', left] as const, ['taken', taken] as const]) {
    if (mesh.indices.length === 0) continue;
    const { openEdges } = checkClosed(mesh, BOOLEAN_WELD_MM);
    if (openEdges > 0) return `${openEdges} open edges in the part ${name}`;
    if (meshVolume_mm3(mesh) < 0) return `the part ${name} is inside out`;
  }
  if (volumeError > BOOLEAN_VOLUME_TOLERANCE)
    return `volumes differ by ${volumeError.toExponential(1)} of the whole`;
  return null;
}

function brushOf(mesh: WorkMesh): Brush {
  const geometry = new BufferGeometry();
  const surface = new Float32Array(mesh.radii.length * 2);
  mesh.radii.forEach((radius, i) => {
    surface[2 * i] = radius;
    surface[2 * i + 1] = mesh.openness[i];
  });
  geometry.setAttribute('position', new BufferAttribute(mesh.positions, 3));
  geometry.setAttribute('normal', new BufferAttribute(mesh.normals, 3));
  geometry.setAttribute('surface', new BufferAttribute(surface, 2));
  geometry.setIndex(new BufferAttribute(mesh.indices.slice(), 1));
  const brush = new Brush(geometry);
  brush.updateMatrixWorld();
  return brush;
}

/** The library's result in our arrays; its buffers are larger than what is drawn. */
function meshOf(geometry: BufferGeometry): WorkMesh {
  const { start, count } = geometry.drawRange;
  const index = geometry.index;
  const total = index ? index.count : geometry.attributes.position.count;
  const end = Math.min(total, start + count);
  const used = new Map<number, number>();
  const indices = new Uint32Array(Math.max(0, end - start));
  for (let i = start; i < end; i++) {
    const vertex = index ? index.getX(i) : i;
    const known = used.get(vertex);
    if (known === undefined) used.set(vertex, used.size);
    indices[i - start] = known ?? used.size - 1;
  }
  const take = (name: string, size: number, item: number): Float32Array => {
    const source = geometry.attributes[name].array;
    const out = new Float32Array(used.size * item);
    for (const [from, to] of used)
      for (let k = 0; k < item; k++) out[to * item + k] = source[from * size + k];
    return out;
  };
  const surface = take('surface', 2, 2);
  return {
    positions: joined(take('position', 3, 3)),
    normals: take('normal', 3, 3),
    radii: Float32Array.from({ length: used.size }, (_, i) => surface[2 * i]),
    openness: Float32Array.from({ length: used.size }, (_, i) => surface[2 * i + 1]),
    indices,
  };
}

/** Vertices that stand for one place are moved onto it, so that no crack is drawn between the faces of a cut. */
function joined(positions: Float32Array): Float32Array {
  const ids = weldedIds(positions, BOOLEAN_WELD_MM);
  ids.forEach((id, v) => positions.copyWithin(3 * v, 3 * id, 3 * id + 3));
  return positions;
}
