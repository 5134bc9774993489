/**
 * The parts of the piece one by one: pulled apart along their slots, or the strips alone inside wood that is seen
 * through. The meshes come from the exact kernel by way of the worker; until they are there, the whole piece is shown.
 */
import type { Group } from 'three';
import { wayOut } from '../blank/slots.ts';
import type { Plane } from '../geometry/plane.ts';
import { scale, type Vec3 } from '../geometry/vector.ts';
import { sectionCap } from '../meshes/cap.ts';
import { toDrawn } from '../meshes/mesh.ts';
import type { PartMesh, PartsRequest } from '../meshes/parts.ts';
import type { Uniforms } from './material.ts';
import { PieceMesh } from './pieceMesh.ts';
import type { StageView } from './props.ts';
import type { Shape } from './shape.ts';

export interface WantedParts {
  readonly key: string;
  readonly request: PartsRequest;
}

const XRAY_OPACITY = 0.22;

export class PartsView {
  private readonly root: Group;
  private readonly uniforms: Uniforms;
  private pieces: { piece: PieceMesh; cap: PieceMesh; part: PartMesh; ghost: boolean }[] = [];
  private cappedBy: Plane | null = null;
  /** Key of the parts now held. */
  private held: { readonly key: string; readonly parts: readonly PartMesh[] } | null = null;
  private built = '';

  constructor(root: Group, uniforms: Uniforms) {
    this.root = root;
    this.uniforms = uniforms;
  }

  accept(key: string, parts: readonly PartMesh[]): void {
    this.held = { key, parts };
  }

  /** Shows the parts when they are wanted and there; says whether they stand in for the whole piece. */
  show(shape: Shape, view: StageView, wanted: WantedParts | null, section: Plane | null): boolean {
    const held = wanted && this.held?.key === wanted.key ? this.held : null;
    const xray = view.xray && view.apart === 0;
    const key = held ? `${held.key}/${xray}` : '';
    if (key !== this.built) {
      this.built = key;
      this.build(held?.parts ?? [], shape, xray);
    }
    if (section !== this.cappedBy) {
      this.cappedBy = section;
      for (const { cap, part } of this.pieces) cap.show(section ? sectionCap(part.mesh, section) : null);
    }
    for (const { piece, cap, part } of this.pieces) {
      const offset = part.slot === null ? ([0, 0, 0] as const) : pulledOut(shape, part.slot, view.apart);
      piece.object.position.set(...toDrawn(offset));
      cap.object.position.copy(piece.object.position);
    }
    return held !== null;
  }

  *shown(): Generator<PieceMesh> {
    for (const { piece, cap, ghost } of this.pieces) {
      if (!ghost) yield piece;
      yield cap;
    }
  }

  dispose(): void {
    this.build([], null, false);
  }

  private build(parts: readonly PartMesh[], shape: Shape | null, xray: boolean): void {
    for (const { piece, cap } of this.pieces) {
      this.root.remove(piece.object, cap.object);
      piece.dispose();
      cap.dispose();
    }
    this.cappedBy = null;
    this.pieces = parts.map((part) => {
      const ghost = xray && part.slot === null;
      const slot = shape?.slots.findIndex((candidate) => candidate.id === part.slot) ?? -1;
      const forced = { row: layerRow(shape, slot) + (slot < 0 ? 0 : part.layer), slot };
      const opacity = ghost ? XRAY_OPACITY : 1;
      const piece = new PieceMesh(this.uniforms, { forced, opacity });
      const cap = new PieceMesh(this.uniforms, { forced, opacity });
      piece.show(part.mesh);
      piece.object.renderOrder = ghost ? 5 : 0;
      cap.object.renderOrder = piece.object.renderOrder;
      this.root.add(piece.object, cap.object);
      return { piece, cap, part, ghost };
    });
  }
}

/** Row of a slot's first layer in the layer texture; 0 is the blank's own timber. */
export function layerRow(shape: Shape | null, slot: number): number {
  if (!shape || slot < 0) return 0;
  let row = 1;
  for (let i = 0; i < slot; i++) row += shape.slots[i].layers.length;
  return row;
}

/** Strips come out the way they went in, later ones a little farther. */
function pulledOut(shape: Shape, id: string, apart: number): Vec3 {
  const index = shape.slots.findIndex((slot) => slot.id === id);
  if (index < 0 || apart === 0) return [0, 0, 0];
  const slot = shape.slots[index];
  const out = wayOut(slot);
  const reach = shape.section.circumscribedRadius_mm;
  return scale(out, apart * reach * (1.5 + (0.6 * index) / shape.slots.length));
}
