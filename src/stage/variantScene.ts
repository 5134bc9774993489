/**
 * The scene of one variant: its workpiece at its moment without what is taken away (takenAway.ts), the strip on its way in,
 * the parts pulled apart, what is written and drawn beside them. `update` brings it to a state and does only what has
 * changed; nothing here waits for a worker.
 *
 * Lathe frame in, drawn frame (y-up) in the scene, mm.
 */
import { Group, Matrix3, Matrix4, Scene, Vector3, type DataTexture, type Raycaster } from 'three';
import { materialAt } from '../blank/material.ts';
import type { SlotId } from '../design/document.ts';
import { DEG } from '../geometry/angle.ts';
import { coarser } from '../meshes/formProfile.ts';
import type { Vec3 } from '../geometry/vector.ts';
import { blockMesh } from '../meshes/block.ts';
import { toLathe, type WorkMesh } from '../meshes/mesh.ts';
import type { PartMesh } from '../meshes/parts.ts';
import { profileOpenness } from '../meshes/occlusion.ts';
import { turnedMesh } from '../meshes/turned.ts';
import { Backdrop } from './backdrop.ts';
import { Changes, partKey } from './changes.ts';
import { addDimensions } from './dimensionOverlay.ts';
import { addReference } from './scaleOverlay.ts';
import { forgetUnder } from './forget.ts';
import { incomingStrip } from './incomingStrip.ts';
import { addCaption, addMarks } from './markOverlay.ts';
import { applyFinish, type SharedLook } from './light.ts';
import { variantUniforms, type Uniforms } from './material.ts';
import { PieceMesh, UNSHADED_LAYER } from './pieceMesh.ts';
import { Overlay } from './overlay.ts';
import { layerRow, PartsView, type WantedParts } from './partsView.ts';
import type { StageProps, StageVariant, StageView, Theme } from './props.ts';
import { addSaw, OVERLAY_COLOURS } from './sawOverlay.ts';
import { hasOwnView } from './sawView.ts';
import { shapeAt, type Shape } from './shape.ts';
import { castingOf, VariantShadow, type Casting } from './shadow.ts';
import { SlotTextures } from './slotTexture.ts';
import { TakenAway } from './takenAway.ts';
import { writeWood } from './variantWood.ts';
import type { Design } from '../design/document.ts';

/** Facets of a full turn on the stage. */
export const STAGE_COLUMNS = 96;
const COARSE_COLUMNS = 48;
const NO_FLOOR_MM = -1e7;
/** Where the camera stands at home, lathe frame. */
const HOME_AZIMUTH_DEG = -58;
export class VariantScene {
  readonly scene = new Scene();
  readonly root = new Group();
  readonly uniforms: Uniforms;
  readonly shadow: VariantShadow;
  readonly backdrop: Backdrop;
  readonly slots = new SlotTextures();
  readonly main: PieceMesh;
  readonly taken: TakenAway;
  private incoming: PieceMesh[] = [];
  private readonly parts: PartsView;
  readonly overlay: Overlay;
  private readonly look: SharedLook;
  shape: Shape | null = null;
  wantedParts: WantedParts | null = null;
  casting: Casting = { centerY_mm: 0, radius_mm: 1, floorY_mm: 0, foot_mm: 1, wide_mm: 1, tall_mm: 1 };
  /** The light's view of the piece is out of date. */
  shadowStale = true;
  /** It was drawn from the coarse mesh. */
  shadowCoarse = false;
  private readonly changes = new Changes();
  private slotNames: ReadonlyMap<SlotId, SlotId> | null = null;
  private baseMesh: WorkMesh | null = null;
  /** The saw is drawn with its table tilted. */
  private onTable = false;
  /** The timbers' numbers where the design has colours of its own. */
  private ownTable: DataTexture | null = null;

  constructor(look: SharedLook) {
    this.look = look;
    this.uniforms = variantUniforms(look.uniforms);
    this.shadow = new VariantShadow(look, this.uniforms);
    this.uniforms.uSunMatrix.value = this.shadow.sunMatrix;
    this.uniforms.uSunMap.value = this.shadow.sunTexture;
    this.uniforms.uSunTexel.value = this.shadow.texel;
    this.main = new PieceMesh(this.uniforms);
    this.backdrop = new Backdrop(look.uniforms);
    this.backdrop.mesh.layers.set(UNSHADED_LAYER);
    this.scene.add(this.backdrop.mesh, this.root);
    this.parts = new PartsView(this.root, this.uniforms);
    this.overlay = new Overlay(look.uniforms.uToRig);
    this.root.add(this.main.object);
    this.taken = new TakenAway(this.root, this.uniforms, this.main, (...work) => this.once(...work));
  }

  /** Brings the scene to a design at a place of the line of moments, seen as the properties say. */
  update(design: Design, { variants, position, view, theme, finish }: StageProps): void {
    const variant = variants.find((candidate) => candidate.design === design);
    this.slotNames = variant?.slotNames ?? null;
    const shape = shapeAt(design, position);
    this.shape = shape;
    this.once('wood', [design.blank, design.sets, design.order], () =>
      writeWood(this.uniforms, this.slots, this.look.timbers, shape),
    );
    this.once('colours', [design.colors], () => this.writeColours(design));
    applyFinish(this.uniforms, design.form?.finish ?? finish, shape.finished);
    this.uniforms.uFilled.value = shape.filled;
    this.once('base', [shape.section, shape.profile, design.blank.length_mm], () => this.buildBase(shape));
    this.taken.update(shape, view, {
      mesh: this.baseMesh,
      version: this.changes.version('base'),
      columns: STAGE_COLUMNS,
    });
    this.once('incoming', [shape.incoming, design.sets, design.order, design.saw, design.blank], () =>
      this.writeIncoming(shape),
    );
    this.showParts(shape, view);
    this.once(
      'overlay',
      [
        view.atTheSaw,
        view.dimensions,
        view.dimensionsFrom_deg,
        view.reference,
        theme,
        position,
        design,
        variant?.marks,
        variant?.caption,
        this.changes.version('base'),
        this.changes.version('wood'),
      ],
      () => this.writeOverlay(shape, view, theme, variant ?? {}),
    );
    if (this.root.rotation.y !== shape.spin_rad) {
      this.root.rotation.y = shape.spin_rad;
      this.shadowStale = true;
    }
  }

  /** Takes the worker's parts when they are still the ones wanted. */
  acceptParts(key: string, parts: readonly PartMesh[]): boolean {
    if (this.wantedParts?.key !== key) return false;
    this.parts.accept(key, parts);
    return true;
  }

  /**
   * The first point of the piece that a ray meets, lathe frame, and the slot whose strip shows there (−1: the blank);
   * wood that is taken away does not count.
   */
  pointAt(
    raycaster: Raycaster,
  ): { readonly point: Vec3; readonly slot: number; readonly world: Vector3 } | null {
    const { shape } = this;
    if (!shape) return null;
    this.root.updateMatrixWorld(true);
    const targets = [this.main, ...this.taken.caps].filter((piece) => piece.object.visible);
    const hits = raycaster.intersectObjects(
      targets.map((piece) => piece.object),
      false,
    );
    for (const hit of hits) {
      const own = this.root.worldToLocal(hit.point.clone());
      const point = toLathe(own.x, own.y, own.z);
      if (this.taken.takes(point, hit.object)) continue;
      return { point, slot: materialAt(shape.slots.slice(0, shape.filled), point), world: hit.point };
    }
    return null;
  }

  /** What a slot is called on the stage. */
  readonly nameOf = (slot: SlotId): SlotId => this.slotNames?.get(slot) ?? slot;

  setHighlight(slot: SlotId | null): void {
    this.uniforms.uHighlight.value =
      slot === null ? -1 : (this.shape?.slots.findIndex((s) => this.nameOf(s.id) === slot) ?? -1);
  }

  /** Fewer facets for a frame while something moves; the same woods at the same places. */
  setDetail(coarse: boolean): void {
    this.main.detail(coarse, () => {
      const { shape } = this;
      if (!shape?.profile || this.main.source !== this.baseMesh) return null;
      const profile = coarser(shape.profile);
      return turnedMesh(profile, shape.section, COARSE_COLUMNS, profileOpenness(profile));
    });
  }

  /** The uniforms that follow the rig: call before each draw. */
  turnToRig(toRig: Matrix4): void {
    const turn = new Matrix4()
      .makeRotationY(this.root.rotation.y)
      .premultiply(toRig)
      .multiply(LATHE_TO_DRAWN);
    (this.uniforms.uModel.value as Matrix3).setFromMatrix4(turn);
    const u = this.backdrop.mesh.material.uniforms;
    u.uFloorMap.value = this.shadow.floorTexture;
    u.uReach.value = this.shadow.reach_mm;
    // Beside a tilted table there is no floor: the picture is upright with the blade, not with the axis.
    u.uFloorY.value = this.onTable ? NO_FLOOR_MM : this.casting.floorY_mm;
    u.uSize.value = this.casting.radius_mm;
  }

  /** All meshes of the piece, for shadows and pointing. */
  *pieces(): Generator<PieceMesh> {
    yield this.main;
    yield* this.taken.caps;
    yield* this.incoming;
    yield* this.parts.shown();
  }

  /** The graphics context is lost: lets go of all that was on the card; what is drawn again is made again. */
  forget(): void {
    for (const piece of this.pieces()) piece.dispose();
    forgetUnder(this.scene);
    this.slots.dispose();
    this.shadow.dispose();
    this.shadowStale = true;
  }

  dispose(): void {
    this.parts.dispose();
    this.overlay.clear(this.root);
    for (const piece of this.pieces()) piece.dispose();
    this.ownTable?.dispose();
    this.backdrop.dispose();
    this.slots.dispose();
    this.shadow.dispose();
  }

  /** Runs `action` when the parts named have changed since the last time; then the shadow is out of date, too. */
  private once(name: string, parts: readonly unknown[], action: () => void): void {
    if (this.changes.once(name, parts, action)) this.shadowStale = true;
  }

  private writeColours({ colors }: Design): void {
    this.ownTable?.dispose();
    this.ownTable = colors && Object.keys(colors).length > 0 ? this.look.timbers.tableWith(colors) : null;
    this.uniforms.uTimbers.value = this.ownTable ?? this.look.timbers.table;
  }

  private buildBase({ design, section, profile }: Shape): void {
    this.baseMesh = profile
      ? turnedMesh(profile, section, STAGE_COLUMNS, profileOpenness(profile))
      : blockMesh(section, design.blank.length_mm, STAGE_COLUMNS);
    const blank_mm = section.round ? section.inscribedRadius_mm : section.circumscribedRadius_mm;
    this.casting = castingOf(this.baseMesh, profile ? profile.r_mm[1] : blank_mm);
  }

  private showParts(shape: Shape, view: StageView): void {
    const wants = (view.apart > 0 || view.xray) && shape.filled > 0;
    const key = wants
      ? partKey([shape.filled, shape.holes, this.changes.version('base'), this.changes.version('wood')])
      : null;
    if (key !== (this.wantedParts?.key ?? null)) {
      const { design, filled, profile } = shape;
      const drilled = shape.holes.length > 0;
      const request = { design, filled, profile, drilled, columns: STAGE_COLUMNS };
      this.wantedParts = key ? { key, request } : null;
    }
    const instead = this.parts.show(shape, view, this.wantedParts, this.taken.section);
    this.main.object.visible = !instead && (this.main.source?.indices.length ?? 0) > 0;
    this.taken.showSectionCap(!instead);
    this.once('parts', [key, instead, view.apart, view.xray], () => undefined);
  }

  private writeOverlay(
    shape: Shape,
    view: StageView,
    theme: Theme,
    { marks = [], caption }: Partial<StageVariant>,
  ): void {
    this.overlay.clear(this.root);
    const colours = OVERLAY_COLOURS[theme];
    this.onTable = view.atTheSaw && shape.atSaw !== null && hasOwnView(shape.slots[shape.atSaw]);
    if (view.atTheSaw) addSaw(this.overlay, shape, shape.open?.depth ?? 0, colours, this.nameOf);
    const wide_mm = widthOf(shape);
    if (shape.profile && shape.moment.kind !== 'turned') addMarks(this.overlay, marks, wide_mm, colours);
    if (caption !== undefined) addCaption(this.overlay, caption, wide_mm / 2, colours);
    if (view.dimensions) {
      const from_deg = view.dimensionsFrom_deg ?? HOME_AZIMUTH_DEG;
      addDimensions(this.overlay, shape, from_deg - shape.spin_rad / DEG, colours);
    }
    if (view.reference) addReference(this.overlay, shape, view.reference, colours);
    if (this.overlay.objects.length > 0) this.root.add(...this.overlay.objects);
  }

  private writeIncoming(shape: Shape): void {
    for (const piece of this.incoming) {
      this.root.remove(piece.object);
      piece.dispose();
    }
    this.incoming = [];
    if (!shape.incoming) return;
    const { slot, slide, overhang } = shape.incoming;
    const row = layerRow(shape, slot);
    const strip = incomingStrip(shape, slot, slide, overhang);
    strip.layers.forEach((mesh, layer) => {
      const piece = new PieceMesh(this.uniforms, { forced: { row: row + layer, slot }, whole: true });
      piece.show(mesh);
      piece.object.position.set(...strip.offset);
      this.incoming.push(piece);
      this.root.add(piece.object);
    });
  }
}

/** Largest radius of what is there. */
function widthOf({ profile, section }: Shape): number {
  return profile ? profile.r_mm.reduce((a, b) => Math.max(a, b), 0) : section.circumscribedRadius_mm;
}

const LATHE_TO_DRAWN = new Matrix4().set(1, 0, 0, 0, 0, 0, 1, 0, 0, -1, 0, 0, 0, 0, 0, 1);
