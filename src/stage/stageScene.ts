/**
 * The stage without React: variants side by side under one camera, drawn when something has changed and not otherwise.
 * While things move, frames are drawn small and without the finest figure; when they rest, once more in full. Which
 * wood a pixel shows is the same in both.
 *
 * World frame: y-up, mm, the lathe axis along y and the foot of the blank at y = 0.
 */
import { Matrix3, Matrix4, PerspectiveCamera, OrthographicCamera, Vector3, type WebGLRenderer } from 'three';
import { MeshClient } from '../meshes/meshClient.ts';
import { SharedLook } from './light.ts';
import { MODE, type Mode } from './material.ts';
import type { StageProps, StageStatus } from './props.ts';
import { UNSHADED_LAYER } from './pieceMesh.ts';
import { worldToRig } from './rig.ts';
import { VariantScene } from './variantScene.ts';
import { pieceAspectOf, viewportsOf, type PieceBox, type Viewport } from './viewports.ts';

export type StageCamera = PerspectiveCamera | OrthographicCamera;

export interface DrawOptions {
  /** One variant alone, over the whole target. */
  readonly only?: string;
  readonly backdrop?: boolean;
  /** Device pixels per pixel of a label; the renderer's pixel ratio when left out. */
  readonly labelScale?: number;
  /** Draws only this part of the picture, which then is the whole target; pixels from the picture's lower left. */
  readonly part?: Viewport;
}

interface Entry {
  readonly scene: VariantScene;
  readonly meshes: MeshClient;
  askedCut: string | null;
  askedParts: string | null;
  cutStatus: StageStatus;
  partsStatus: StageStatus;
}

export class StageScene {
  readonly look = new SharedLook();
  private readonly entries = new Map<string, Entry>();
  private order: string[] = [];
  private pieceAspect = 1;
  /** What stands over the right edge of the canvas, as a share of its width. */
  insetShare = 0;
  private readonly toRig = new Matrix4();
  private rigged = false;
  /** Asks for a frame. */
  private readonly invalidate: () => void;
  private props: StageProps | null = null;
  private report: (status: StageStatus) => void = () => undefined;

  constructor(invalidate: () => void) {
    this.invalidate = invalidate;
  }

  update(props: StageProps): void {
    const before = this.props;
    this.props = props;
    this.report = props.onStatus ?? (() => undefined);
    if (before && looksTheSame(before, props)) return;
    const lightMoved = this.look.setLight(props.theme, props.view.light ?? 'studio');
    this.order = props.variants.map((variant) => variant.key);
    this.pieceAspect = pieceAspectOf(props.variants.map(({ design }) => design));
    for (const [key, entry] of this.entries) {
      if (this.order.includes(key)) continue;
      entry.meshes.dispose();
      entry.scene.dispose();
      this.entries.delete(key);
    }
    for (const { key, design } of props.variants) {
      const entry = this.entryOf(key);
      entry.scene.update(design, props);
      entry.scene.setHighlight(props.highlight);
      if (lightMoved) entry.scene.shadowStale = true;
      this.askForCut(entry);
      this.askForParts(entry);
    }
    this.tellStatus();
    this.invalidate();
  }

  variant(key: string): VariantScene | null {
    return this.entries.get(key)?.scene ?? null;
  }

  /** Variants in order, each with its part of a canvas of the given size (pixels from the lower left). */
  viewports(width: number, height: number): [string, VariantScene, PieceBox][] {
    const inset = this.insetShare * width;
    const boxes = viewportsOf(this.order.length, width, height, this.pieceAspect, inset);
    return this.order.flatMap((key, i) => {
      const entry = this.entries.get(key);
      return entry ? [[key, entry.scene, boxes[i]] as [string, VariantScene, PieceBox]] : [];
    });
  }

  /** Draws all variants into the current render target, `width` × `height` device pixels. */
  draw(
    renderer: WebGLRenderer,
    camera: StageCamera,
    target: Vector3,
    width: number,
    height: number,
    mode: Mode,
    options: DrawOptions = {},
  ): void {
    this.followCamera(camera, target);
    const u = this.look.uniforms;
    const all = this.viewports(width, height);
    const chosen = options.only === undefined ? all : all.filter(([key]) => key === options.only);
    // Shadows first: they draw into targets of their own.
    for (const [, scene] of chosen) this.drawShadow(renderer, scene, mode);
    u.uMode.value = mode;
    renderer.autoClear = false;
    const picture = { x: 0, y: 0, width, height };
    const part = options.part ?? picture;
    for (const [, scene, viewport] of chosen) {
      const box = options.only === undefined ? viewport : picture;
      const drawn = options.only === undefined ? { ...viewport, width: viewport.drawnWidth } : picture;
      const seen = overlap(drawn, part);
      if (!seen) continue;
      this.aimCamera(camera, box.width / box.height);
      camera.setViewOffset(
        box.width,
        box.height,
        seen.x - box.x,
        box.y + box.height - seen.y - seen.height,
        seen.width,
        seen.height,
      );
      setBox(renderer, { ...seen, x: seen.x - part.x, y: seen.y - part.y });
      camera.layers.enable(UNSHADED_LAYER);
      scene.backdrop.mesh.visible = mode !== MODE.number && options.backdrop !== false;
      scene.backdrop.mesh.material.uniforms.uSeam.value = chosen.length > 1 ? 1 : 0;
      scene.backdrop.setPart(box, seen, part);
      scene.setDetail(mode === MODE.moving);
      scene.turnToRig(this.toRig);
      const labelScale = options.labelScale ?? renderer.getPixelRatio();
      scene.overlay.face(camera, scene.root.rotation.y);
      scene.overlay.fitTo(seen.width, seen.height, labelScale);
      // Tools stand over the right edge of the canvas, not of a picture that is taken.
      const atTools = options.labelScale === undefined && viewport.x + viewport.drawnWidth >= width;
      scene.overlay.labels.inset_px = atTools ? (this.props?.inset_px ?? 0) : 0;
      this.placeEye(camera, target);
      renderer.clear(true, true, false);
      renderer.render(scene.scene, camera);
      camera.clearViewOffset();
    }
    renderer.setScissorTest(false);
  }

  /** Shapes the camera's picture to a viewport. */
  aimCamera(camera: StageCamera, aspect: number): void {
    if (camera instanceof PerspectiveCamera) camera.aspect = aspect;
    else {
      const half = (camera.top - camera.bottom) / 2;
      camera.left = -half * aspect;
      camera.right = half * aspect;
    }
    camera.updateProjectionMatrix();
  }

  dispose(): void {
    for (const entry of this.entries.values()) {
      entry.meshes.dispose();
      entry.scene.dispose();
    }
    this.entries.clear();
    this.look.dispose();
  }

  /** The graphics context is lost, and everything on the card with it. */
  forget(): void {
    for (const { scene } of this.entries.values()) scene.forget();
    this.look.dispose();
  }

  private entryOf(key: string): Entry {
    const known = this.entries.get(key);
    if (known) return known;
    const made: Entry = {
      scene: new VariantScene(this.look),
      meshes: new MeshClient(),
      askedCut: null,
      askedParts: null,
      cutStatus: QUIET,
      partsStatus: QUIET,
    };
    this.entries.set(key, made);
    return made;
  }

  /** Brings one variant up to date after its worker has answered. */
  private refresh(entry: Entry): void {
    const { props } = this;
    const variant = props?.variants.find((candidate) => this.entries.get(candidate.key) === entry);
    if (props && variant) entry.scene.update(variant.design, props);
    this.tellStatus();
    this.invalidate();
  }

  private askForCut(entry: Entry): void {
    const { wanted } = entry.scene.taken;
    if ((wanted?.key ?? null) === entry.askedCut) return;
    entry.askedCut = wanted?.key ?? null;
    if (!wanted) {
      entry.meshes.cuts.withdraw();
      entry.cutStatus = QUIET;
      return;
    }
    entry.cutStatus = BUSY;
    entry.meshes.cuts.ask({ source: wanted.source, region: wanted.region }, (outcome) => {
      if ('error' in outcome)
        entry.cutStatus = fault(
          `The cut solid could not be made (${outcome.error}); the picture leaves the wood out instead.`,
        );
      else if (entry.scene.taken.accept(wanted.key, outcome.answer))
        entry.cutStatus = outcome.answer.fault
          ? note(`The quick solid failed its check (${outcome.answer.fault}); the exact one is shown.`)
          : QUIET;
      this.refresh(entry);
    });
  }

  private askForParts(entry: Entry): void {
    const { wantedParts } = entry.scene;
    if ((wantedParts?.key ?? null) === entry.askedParts) return;
    entry.askedParts = wantedParts?.key ?? null;
    if (!wantedParts) {
      entry.meshes.parts.withdraw();
      entry.partsStatus = QUIET;
      return;
    }
    entry.partsStatus = BUSY;
    entry.meshes.parts.ask(wantedParts.request, (outcome) => {
      if ('error' in outcome) entry.partsStatus = fault(`The parts could not be made (${outcome.error}).`);
      else if (entry.scene.acceptParts(wantedParts.key, outcome.answer)) entry.partsStatus = QUIET;
      this.refresh(entry);
    });
  }

  private told: StageStatus | null = null;

  /** The gravest of all variants: a fault, else work under way, else a note. */
  private tellStatus(): void {
    const all = [...this.entries.values()].flatMap((entry) => [entry.cutStatus, entry.partsStatus]);
    const status =
      all.find((one) => one.level === 'fault') ??
      all.find((one) => one.busy) ??
      all.find((one) => one.level === 'note') ??
      QUIET;
    if (this.told && this.told.busy === status.busy && this.told.message === status.message) return;
    this.told = status;
    this.report(status);
  }

  private followCamera(camera: StageCamera, target: Vector3): void {
    const toRig = worldToRig(camera.up, camera.position.clone().sub(target));
    if (this.rigged && toRig.equals(this.toRig)) return;
    this.rigged = true;
    this.toRig.copy(toRig);
    (this.look.uniforms.uToRig.value as Matrix3).setFromMatrix4(this.toRig);
    for (const { scene } of this.entries.values()) scene.shadowStale = true;
  }

  private placeEye(camera: StageCamera, target: Vector3): void {
    const eye = this.look.uniforms.uEye.value as Vector3;
    const view = this.look.uniforms.uView.value as Vector3;
    eye.copy(camera.position).applyMatrix4(this.toRig);
    if (camera instanceof OrthographicCamera)
      view.copy(camera.position).sub(target).normalize().applyMatrix4(this.toRig);
    else view.set(0, 0, 0);
  }

  private drawShadow(renderer: WebGLRenderer, scene: VariantScene, mode: Mode): void {
    const coarse = mode === MODE.moving;
    // A shadow of the coarse mesh will do while things move; a picture at rest has its own.
    const due = scene.shadowStale || (scene.shadowCoarse && !coarse);
    if (!due || mode === MODE.number) return;
    scene.shadowStale = false;
    scene.shadowCoarse = coarse;
    scene.turnToRig(this.toRig);
    scene.setDetail(coarse);
    scene.backdrop.mesh.visible = false;
    for (const piece of scene.pieces()) piece.castShadow(true);
    scene.shadow.drawMap(renderer, scene.scene, this.toRig, scene.casting);
    for (const piece of scene.pieces()) piece.castShadow(false);
    scene.shadow.drawFloor(renderer, scene.casting);
  }
}

/** Whether nothing that is drawn differs; callbacks may. */
function looksTheSame(a: StageProps, b: StageProps): boolean {
  return (
    a.variants === b.variants &&
    a.position === b.position &&
    a.view === b.view &&
    a.theme === b.theme &&
    a.finish === b.finish &&
    a.highlight === b.highlight
  );
}

const QUIET: StageStatus = { busy: false, message: null, level: 'ok' };
const BUSY: StageStatus = { busy: true, message: null, level: 'ok' };

function note(message: string): StageStatus {
  return { busy: false, message, level: 'note' };
}

function fault(message: string): StageStatus {
  return { busy: false, message, level: 'fault' };
}

/** What two rectangles share; null where they only touch or lie apart. */
function overlap(a: Viewport, b: Viewport): Viewport | null {
  const x = Math.max(a.x, b.x);
  const y = Math.max(a.y, b.y);
  const width = Math.min(a.x + a.width, b.x + b.width) - x;
  const height = Math.min(a.y + a.height, b.y + b.height) - y;
  return width > 0 && height > 0 ? { x, y, width, height } : null;
}

/** Viewport and scissor in device pixels, whatever the renderer's pixel ratio. */
function setBox(renderer: WebGLRenderer, box: Viewport): void {
  const target = renderer.getRenderTarget();
  if (target) {
    target.viewport.set(box.x, box.y, box.width, box.height);
    target.scissor.set(box.x, box.y, box.width, box.height);
    target.scissorTest = true;
    renderer.setRenderTarget(target);
    return;
  }
  const ratio = renderer.getPixelRatio();
  renderer.setViewport(box.x / ratio, box.y / ratio, box.width / ratio, box.height / ratio);
  renderer.setScissor(box.x / ratio, box.y / ratio, box.width / ratio, box.height / ratio);
  renderer.setScissorTest(true);
}
