/**
 * The wood that is taken away from a variant's piece: beyond the section plane, inside the region of a cutaway or an open
 * kerf, and in drilled holes. The picture follows at once, by leaving out pixels and adding caps; the worker's checked solid
 * takes the region's place when it has come. Lathe frame, mm.
 */
import type { Group, Object3D, Vector4 } from 'three';
import type { Plane } from '../geometry/plane.ts';
import type { Vec3 } from '../geometry/vector.ts';
import { sectionCap } from '../meshes/cap.ts';
import { opposite, unitPlane } from '../meshes/convex.ts';
import type { CutAnswer } from '../meshes/cut.ts';
import { cutawayPlanes, slotPlanes } from '../meshes/cutters.ts';
import type { CutSource } from '../meshes/exact.ts';
import type { WorkMesh } from '../meshes/mesh.ts';
import { breaksThrough } from '../meshes/turned.ts';
import { partKey } from './changes.ts';
import type { Uniforms } from './material.ts';
import { PieceMesh } from './pieceMesh.ts';
import type { StageView } from './props.ts';
import type { Shape } from './shape.ts';

const MAX_CUT_PLANES = 6;
/** Holes that are marked dark until the worker's solid has them. */
const MAX_MARKED_HOLES = 8;

export interface WantedCut {
  readonly key: string;
  readonly source: CutSource;
  readonly region: readonly Plane[] | null;
}

/** The piece before anything is taken away; another version, another mesh. */
export interface BasePiece {
  readonly mesh: WorkMesh | null;
  readonly version: number;
  readonly columns: number;
}

/** Runs `action` when the parts named differ from the last time. */
type Once = (name: string, parts: readonly unknown[], action: () => void) => void;

export class TakenAway {
  /** What the worker is to cut out. */
  wanted: WantedCut | null = null;
  section: Plane | null = null;
  private readonly uniforms: Uniforms;
  private readonly main: PieceMesh;
  private readonly once: Once;
  private readonly sectionCapMesh: PieceMesh;
  private readonly regionCaps: readonly PieceMesh[];
  /** The checked solid of the region now cut out, when the worker has delivered it. */
  private solid: { readonly key: string; readonly mesh: WorkMesh } | null = null;

  constructor(root: Group, uniforms: Uniforms, main: PieceMesh, once: Once) {
    this.uniforms = uniforms;
    this.main = main;
    this.once = once;
    this.sectionCapMesh = new PieceMesh(uniforms);
    // The cap lies on the plane itself, on the side that is taken away by a hair.
    this.regionCaps = Array.from({ length: MAX_CUT_PLANES }, (_, i) => new PieceMesh(uniforms, { capOf: i }));
    root.add(...this.caps.map((cap) => cap.object));
  }

  get caps(): readonly PieceMesh[] {
    return [this.sectionCapMesh, ...this.regionCaps];
  }

  /** Shows the piece `base` in the main mesh without what the shape and the view take away. */
  update(shape: Shape, view: StageView, base: BasePiece): void {
    this.cutOut(shape, view, base);
    this.once('section', [view.section, this.main.source, this.wanted?.key], () => this.writeSection(view));
  }

  /** Takes the worker's solid when it is still the one wanted. */
  accept(key: string, answer: CutAnswer): boolean {
    if (this.wanted?.key !== key) return false;
    this.solid = { key, mesh: answer.left };
    return true;
  }

  /** While parts stand in for the whole piece, its section has no cap. */
  showSectionCap(shown: boolean): void {
    this.sectionCapMesh.object.visible = shown && (this.sectionCapMesh.source?.indices.length ?? 0) > 0;
  }

  /** Whether a point of a drawn object of the piece is left out of the picture: the rule of shader/workpiece.ts. */
  takes(p: Vec3, object: Object3D): boolean {
    const section = this.uniforms.uSection.value as Vector4;
    if (section.x * p[0] + section.y * p[1] + section.z * p[2] > section.w + 1e-3) return true;
    const count = this.uniforms.uCutCount.value as number;
    if (count === 0) return false;
    const capOf = this.regionCaps.findIndex((cap) => cap.object === object);
    const planes = (this.uniforms.uCut.value as Vector4[]).slice(0, count);
    const inside = planes.every(
      (plane, i) => i === capOf || plane.x * p[0] + plane.y * p[1] + plane.z * p[2] <= plane.w,
    );
    return capOf < 0 ? inside : !inside;
  }

  /** The region to take out of the piece, at once by leaving out pixels; later as the worker's solid. */
  private cutOut(shape: Shape, view: StageView, base: BasePiece): void {
    const { design, section, profile, open } = shape;
    const kerf = open && !view.cutaway ? shape.slots[open.slot] : null;
    const region = view.cutaway
      ? cutawayPlanes(view.cutaway, design.blank.section.width_mm)
      : kerf && open
        ? slotPlanes(kerf, section, open.depth)
        : null;
    const source = {
      section,
      length_mm: design.blank.length_mm,
      profile,
      columns: base.columns,
      holes: shape.holes,
    };
    const needed = region !== null || shape.holes.length > 0 || breaksThrough(source.profile, source.section);
    const key = needed ? partKey([region, shape.holes, base.version]) : null;
    if (key !== (this.wanted?.key ?? null)) this.wanted = key ? { key, region, source } : null;
    const solid = this.solid && this.solid.key === key ? this.solid.mesh : null;
    this.once('cut', [key, solid !== null, base.version], () => {
      this.main.show(solid ?? base.mesh);
      const planes = region && !solid ? region : [];
      const cut = this.uniforms.uCut.value as Vector4[];
      planes.forEach((plane, i) => cut[i].set(...plane.normal, plane.offset_mm));
      this.uniforms.uCutCount.value = planes.length;
      this.regionCaps.forEach((cap, i) =>
        cap.show(planes[i] && base.mesh ? sectionCap(base.mesh, opposite(planes[i])) : null),
      );
    });
    this.markHoles(solid ? [] : shape.holes);
    const openKerf = this.uniforms.uOpenKerf.value as Vector4;
    this.uniforms.uOpenHalf.value = kerf ? kerf.kerf_mm / 2 : 0;
    if (kerf) openKerf.set(...kerf.normal, kerf.offset_mm);
  }

  private markHoles(holes: Shape['holes']): void {
    const marked = holes.slice(0, MAX_MARKED_HOLES);
    this.uniforms.uHoleCount.value = marked.length;
    marked.forEach(({ cylinder }, i) => {
      (this.uniforms.uHoleFrom.value as Vector4[])[i].set(...cylinder.origin_mm, cylinder.radius_mm);
      const depth = Math.min(cylinder.depth_mm, 1e5);
      (this.uniforms.uHoleTo.value as Vector4[])[i].set(...cylinder.inward, depth);
    });
  }

  private writeSection(view: StageView): void {
    const value = this.uniforms.uSection.value as Vector4;
    const plane = view.section ? unitPlane(view.section.normal, view.section.offset_mm) : null;
    this.section = plane;
    if (plane) value.set(...plane.normal, plane.offset_mm);
    else value.set(0, 0, 0, 0);
    const mesh = this.main.source;
    this.sectionCapMesh.show(plane && mesh ? sectionCap(mesh, plane) : null);
  }
}
