/**
 * The one camera of the stage: orbit by mouse, touch and keys, presets, fit to the blank. World frame: y-up, mm.
 * The camera belongs to the stage, not to the document: it is not undone and not saved.
 */
import { OrthographicCamera, PerspectiveCamera, Vector3 } from 'three';
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js';
import { cosDeg, sinDeg } from '../geometry/angle.ts';
import type { CameraPreset, StageProps } from './props.ts';
import type { StageCamera, StageScene } from './stageScene.ts';

const FIELD_DEG = 26;
/** Room left around the blank, as a share of the picture. */
const MARGIN = 1.04;

export class CameraControl {
  readonly target = new Vector3();
  private readonly perspective = new PerspectiveCamera(FIELD_DEG, 1, 1, 10000);
  private readonly parallel = new OrthographicCamera();
  private readonly controls: OrbitControls;
  private readonly changed: () => void;
  private fitted = '';
  private preset = '';
  private reach_mm = 100;

  constructor(element: HTMLElement, changed: () => void) {
    this.changed = changed;
    this.controls = new OrbitControls(this.perspective, element);
    this.controls.enableDamping = false;
    this.controls.screenSpacePanning = true;
    this.controls.zoomToCursor = true;
    this.controls.rotateSpeed = 0.85;
    this.controls.minPolarAngle = 0.02;
    this.controls.maxPolarAngle = Math.PI - 0.02;
    this.controls.addEventListener('change', changed);
  }

  get camera(): StageCamera {
    return this.controls.object as StageCamera;
  }

  get enabled(): boolean {
    return this.controls.enabled;
  }

  set enabled(enabled: boolean) {
    this.controls.enabled = enabled;
  }

  /** Takes projection, preset and size of the blank from the properties; moves only when one of them has changed. */
  follow(props: StageProps, scene: StageScene, width: number, height: number): void {
    if (width === 0 || height === 0) return;
    const boxes = scene.viewports(width, height).map(([, , box]) => box);
    const aspect = Math.min(...boxes.map((box) => box.width / box.height));
    const blanks = props.variants.map(({ design }) => design.blank);
    const length_mm = Math.max(...blanks.map((blank) => blank.length_mm));
    const width_mm = Math.max(...blanks.map((b) => Math.max(b.section.width_mm, b.section.depth_mm ?? 0)));
    this.project(props.view.projection);
    const size = `${length_mm}/${width_mm}/${Math.round(aspect * 20)}`;
    const { preset, nonce } = props.view.camera;
    const wanted = `${preset}/${nonce}`;
    if (wanted !== this.preset || this.fitted === '') {
      this.preset = wanted;
      this.fitted = size;
      this.aim(preset, props, scene, length_mm, width_mm, aspect);
    } else if (size !== this.fitted) {
      this.fitted = size;
      this.fit(this.direction(), length_mm, width_mm, aspect);
    }
  }

  orbit(azimuth_deg: number, elevation_deg: number): void {
    const offset = this.camera.position.clone().sub(this.controls.target);
    const radius = offset.length();
    const azimuth = Math.atan2(offset.x, offset.z) + (azimuth_deg * Math.PI) / 180;
    const polar = Math.acos(offset.y / radius) - (elevation_deg * Math.PI) / 180;
    const held = Math.min(Math.max(polar, 0.02), Math.PI - 0.02);
    offset.setFromSphericalCoords(radius, held, azimuth);
    this.camera.position.copy(this.controls.target).add(offset);
    this.controls.update();
    this.changed();
  }

  zoom(factor: number): void {
    const { camera } = this;
    if (camera instanceof OrthographicCamera) {
      camera.zoom *= factor;
      camera.updateProjectionMatrix();
    } else camera.position.sub(this.controls.target).divideScalar(factor).add(this.controls.target);
    this.controls.update();
    this.changed();
  }

  /** Near and far planes close around the piece, for the sake of the depth buffer; call before each draw. */
  prepare(): void {
    this.target.copy(this.controls.target);
    const distance = this.camera.position.distanceTo(this.target);
    this.camera.near = Math.max(distance - 3 * this.reach_mm, distance * 0.02, 0.5);
    this.camera.far = distance + 4 * this.reach_mm;
    this.camera.updateMatrixWorld();
  }

  dispose(): void {
    this.controls.removeEventListener('change', this.changed);
    this.controls.dispose();
  }

  private direction(): Vector3 {
    return this.camera.position.clone().sub(this.controls.target).normalize();
  }

  private aim(
    preset: CameraPreset,
    props: StageProps,
    scene: StageScene,
    length_mm: number,
    width_mm: number,
    aspect: number,
  ): void {
    const shape = scene.variant(props.variants[0].key)?.shape;
    const slot = shape?.slots[shape.atSaw ?? 0];
    const spin = shape?.spin_rad ?? 0;
    const azimuth_deg =
      preset === 'face'
        ? 0
        : preset === 'entry'
          ? (slot?.fenceAzimuth_deg ?? 0) + 180 + (spin * 180) / Math.PI
          : -58;
    const elevation_deg = preset === 'axis' ? 88.8 : preset === 'home' ? 19 : preset === 'entry' ? 6 : 0;
    // Azimuth 0 of the lathe frame is X, 90° is −Z.
    const flat = cosDeg(elevation_deg);
    const toward = new Vector3(
      cosDeg(azimuth_deg) * flat,
      sinDeg(elevation_deg),
      -sinDeg(azimuth_deg) * flat,
    );
    this.fit(toward, length_mm, width_mm, aspect);
  }

  /** Stands off so that the blank fills the picture, seen along `toward`. */
  private fit(toward: Vector3, length_mm: number, width_mm: number, aspect: number): void {
    const middle = length_mm / 2;
    const elevation = Math.asin(Math.min(1, Math.max(-1, toward.y)));
    const wide = width_mm * 1.15;
    const tall = length_mm * Math.cos(elevation) + wide * Math.abs(Math.sin(elevation));
    const halfHeight = (MARGIN / 2) * Math.max(tall, wide / aspect);
    this.reach_mm = Math.hypot(length_mm, wide);
    this.controls.target.set(0, middle, 0);
    const distance = halfHeight / Math.tan((FIELD_DEG * Math.PI) / 360) + (wide / 2) * Math.cos(elevation);
    this.camera.position.copy(this.controls.target).addScaledVector(toward, distance);
    this.controls.minDistance = this.reach_mm * 0.02;
    this.controls.maxDistance = distance * 6;
    if (this.camera instanceof OrthographicCamera) {
      this.camera.zoom = 1;
      this.camera.top = halfHeight;
      this.camera.bottom = -halfHeight;
      this.camera.updateProjectionMatrix();
    }
    this.controls.update();
    this.changed();
  }

  private project(projection: StageProps['view']['projection']): void {
    const next = projection === 'orthographic' ? this.parallel : this.perspective;
    const now = this.camera;
    if (next === now) return;
    const distance = now.position.distanceTo(this.controls.target);
    const tangent = Math.tan((FIELD_DEG * Math.PI) / 360);
    next.position.copy(now.position);
    next.quaternion.copy(now.quaternion);
    if (next instanceof OrthographicCamera) {
      next.zoom = 1;
      next.top = distance * tangent;
      next.bottom = -next.top;
    } else if (now instanceof OrthographicCamera) {
      const wanted = now.top / now.zoom / tangent;
      next.position.sub(this.controls.target).setLength(wanted).add(this.controls.target);
    }
    this.controls.object = next;
    this.controls.update();
    this.changed();
  }
}
