/**
 * The one camera of the stage: orbit by mouse, touch and keys, presets, fit to the blank. World frame: y-up, mm.
 * The camera belongs to the stage, not to the document: it is not undone and not saved.
 */
import { OrthographicCamera, PerspectiveCamera, Vector3 } from 'three';
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js';
import { cosDeg, DEG, normalizeDegrees, sinDeg } from '../geometry/angle.ts';
import { blankCorners, circlePoint, outward } from './corners.ts';
import type { CameraPreset, StageProps } from './props.ts';
import { hasOwnView, sawViewOf, type SawView } from './sawView.ts';
import { referenceReach_mm } from './scaleOverlay.ts';
import type { StageCamera, StageScene } from './stageScene.ts';

const FIELD_DEG = 26;
/** Room left around the blank, as a share of the picture. */
const MARGIN = 1.1;
/** More when the names of several variants stand above them: this much, or room for the name's height. */
const NAMED_MARGIN = 1.26;
const NAME_ROOM_PX = 36;
const MOST_MARGIN = 1.6;
/** Nearest that the camera comes to the axis, in radii of the blank. */
const CLOSEST = 1.6;
/** Beside the piece for its dimension lines, mm, and for what is written on them, CSS pixels. */
const LINE_ROOM_MM = 12;
const LABEL_ROOM_PX = 48;
/** At the saw the camera stands at most this far beside the entry side, so that the fence is behind the block. */
const BESIDE_ENTRY_DEG = 45;
const MOST_ZOOM = 60;
const UP = new Vector3(0, 1, 0);
const WHEEL_STEP = 1.12;

export class CameraControl {
  readonly target = new Vector3();
  private readonly perspective = new PerspectiveCamera(FIELD_DEG, 1, 1, 10000);
  private readonly parallel = new OrthographicCamera();
  private readonly controls: OrbitControls;
  private readonly changed: () => void;
  private readonly element: HTMLElement;
  private fitted = '';
  private room = '';
  private atFence = false;
  private atTable: SawView | null = null;
  /** Where the camera looked from before it went to the tilted table. */
  private beforeTable: Vector3 | null = null;
  /** Place of the camera after the last fit: elsewhere, somebody has zoomed or turned. */
  private readonly stood = new Vector3();
  private preset = '';
  private reach_mm = 100;
  private margin = MARGIN;

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
    this.element = element;
    element.addEventListener('wheel', this.wheel, { capture: true, passive: false });
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
    const inset = props.inset_px ?? 0;
    scene.insetShare = inset / width;
    const boxes = scene.viewports(width, height).map(([, , box]) => box);
    const labels = props.view.dimensions ? LABEL_ROOM_PX : 0;
    const beside = Math.max(inset, labels);
    // Kept at both sides, so that the piece stays in the middle; never more than half of a narrow picture.
    const aspect = Math.min(
      ...boxes.map((box) => {
        const taken = box.x + box.width >= Math.round(width) ? beside : labels;
        return Math.max(box.width - 2 * taken, box.width / 2) / box.height;
      }),
    );
    const room = `${beside}/${props.view.dimensions}/${props.view.reference}`;
    const corners = props.variants.flatMap(({ design }) => blankCorners(design.blank));
    this.margin =
      props.variants.length > 1 ? namedMargin(Math.min(...boxes.map((box) => box.height))) : MARGIN;
    this.project(props.view.projection);
    const went = this.goToTable(props, scene);
    const size = `${corners.map((corner) => corner.toArray().join(' ')).join()}/${Math.round(aspect * 20)}/${room}`;
    const { preset, nonce } = props.view.camera;
    const wanted = `${preset}/${nonce}`;
    if (went) {
      this.preset = wanted;
      this.fitted = size;
      this.room = room;
      this.fit(went, this.reachOf(props, scene), aspect);
    } else if (wanted !== this.preset || this.fitted === '') {
      this.preset = wanted;
      this.fitted = size;
      this.room = room;
      if (preset === 'home') this.atFence = false;
      this.aim(preset, props, scene, this.reachOf(props, scene), aspect);
    } else if (size !== this.fitted) {
      // Dimensions switched on make room only where nobody has chosen the view.
      const moved = this.room !== room && this.camera.position.distanceTo(this.stood) > 1e-6 * this.reach_mm;
      this.fitted = size;
      this.room = room;
      if (!moved) this.fit(this.direction(), this.reachOf(props, scene), aspect);
    }
    this.goBeforeFence(props, scene);
  }

  /**
   * At a cut with the table tilted the camera goes to where the blank is fed, the blade upright; afterwards it looks from
   * where it did. The direction to look from, when it is another than before.
   */
  private goToTable(props: StageProps, scene: StageScene): Vector3 | null {
    const shape = scene.variant(props.variants[0].key)?.shape;
    const view = props.view.atTheSaw && shape ? sawViewOf(shape) : null;
    if (view?.key === this.atTable?.key) return null;
    if (view && !this.atTable) this.beforeTable = this.fitted === '' ? null : this.direction();
    const before = this.beforeTable;
    this.atTable = view;
    this.camera.up.copy(view?.up ?? UP);
    if (view) return view.toward;
    if (!before) this.fitted = '';
    return before;
  }

  /** When the saw appears with its fence before the block, goes round to the side where the blade enters. */
  private goBeforeFence(props: StageProps, scene: StageScene): void {
    const shape = scene.variant(props.variants[0].key)?.shape;
    const slot = shape?.slots[shape.atSaw ?? -1];
    const atFence = props.view.atTheSaw && slot !== undefined && !hasOwnView(slot);
    const appears = atFence && !this.atFence;
    this.atFence = atFence;
    if (!appears || !shape || !slot) return;
    const { x, z } = this.direction();
    const entry_deg = slot.fenceAzimuth_deg + shape.spin_rad / DEG + 180;
    const turn_deg = normalizeDegrees(entry_deg - Math.atan2(-z, x) / DEG + 180) - 180;
    const beyond_deg = Math.abs(turn_deg) - BESIDE_ENTRY_DEG;
    if (beyond_deg > 0) this.orbit(Math.sign(turn_deg) * beyond_deg, 0);
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
      this.changed();
      return;
    }
    const distance = camera.position.distanceTo(this.controls.target);
    const wanted = distance / camera.zoom / factor;
    const next = Math.min(Math.max(wanted, this.controls.minDistance), this.controls.maxDistance);
    camera.zoom = Math.min(Math.max(next / wanted, 1), MOST_ZOOM);
    camera.updateProjectionMatrix();
    camera.position.sub(this.controls.target).setLength(next).add(this.controls.target);
    this.controls.update();
    this.changed();
  }

  /** Near the wood the camera stops and the lens takes over, so that zooming never ends inside the piece. */
  private readonly wheel = (event: WheelEvent): void => {
    const { camera } = this;
    if (!this.controls.enabled || camera instanceof OrthographicCamera) return;
    const closer = event.deltaY < 0;
    const near = camera.position.distanceTo(this.controls.target) <= this.controls.minDistance * 1.001;
    if (closer ? !near : camera.zoom <= 1) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    this.zoom(closer ? WHEEL_STEP : 1 / WHEEL_STEP);
  };

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
    this.element.removeEventListener('wheel', this.wheel, { capture: true });
    this.controls.dispose();
  }

  /** What is to be in the picture: the blanks, or once they are turned the pieces and most of where the blanks were. */
  private reachOf(props: StageProps, scene: StageScene): Vector3[] {
    return props.variants.flatMap(({ key, design }) => {
      const beside = props.view.dimensions ? LINE_ROOM_MM : 0;
      const corners = blankCorners(design.blank);
      const profile = scene.variant(key)?.shape?.profile;
      if (this.atTable) return [...corners, ...this.atTable.points];
      if (!profile) return [...corners, ...corners.map((corner) => outward(corner, beside))];
      const low = Math.min(...profile.z_mm);
      const high = Math.max(...profile.z_mm);
      const middle = new Vector3(0, (low + high) / 2, 0);
      const radius = Math.max(...profile.r_mm);
      const wide = radius + beside;
      // All round, because it stands to the right from wherever the piece is seen.
      const reach = props.view.reference ? referenceReach_mm(props.view.reference, radius, low) : null;
      const reference = reach
        ? Array.from({ length: 12 }, (_, i) =>
            [low, reach.top_mm].map((y) => circlePoint(reach.out_mm, i / 12, y)),
          ).flat()
        : [];
      const piece = Array.from({ length: 12 }, (_, i) =>
        [low, high].map((y) => circlePoint(wide, i / 12, y)),
      );
      return [
        ...piece.flat(),
        ...reference,
        ...corners.map((corner) => corner.sub(middle).multiplyScalar(0.8).add(middle)),
      ];
    });
  }

  private direction(): Vector3 {
    return this.camera.position.clone().sub(this.controls.target).normalize();
  }

  private aim(
    preset: CameraPreset,
    props: StageProps,
    scene: StageScene,
    corners: readonly Vector3[],
    aspect: number,
  ): void {
    if (this.atTable && (preset === 'home' || preset === 'entry')) {
      this.fit(preset === 'home' ? this.atTable.toward : this.atTable.entry, corners, aspect);
      return;
    }
    const shape = scene.variant(props.variants[0].key)?.shape;
    const slot = shape?.slots[shape.atSaw ?? 0];
    const spin = shape?.spin_rad ?? 0;
    const azimuth_deg =
      preset === 'face' ? 0 : preset === 'entry' ? (slot?.fenceAzimuth_deg ?? 0) + 180 + spin / DEG : -58;
    const elevation_deg = preset === 'axis' ? 88.8 : preset === 'home' ? 19 : preset === 'entry' ? 6 : 0;
    // Azimuth 0 of the lathe frame is X, 90° is −Z.
    const flat = cosDeg(elevation_deg);
    const toward = new Vector3(
      cosDeg(azimuth_deg) * flat,
      sinDeg(elevation_deg),
      -sinDeg(azimuth_deg) * flat,
    );
    this.fit(toward, corners, aspect);
  }

  /** Stands off so that every corner of the blank is in the picture, seen along `toward`. */
  private fit(toward: Vector3, corners: readonly Vector3[], aspect: number): void {
    this.perspective.zoom = 1;
    const heights = corners.map((corner) => corner.y);
    const target = new Vector3(0, (Math.min(...heights) + Math.max(...heights)) / 2, 0);
    const side = new Vector3().crossVectors(this.camera.up, toward).normalize();
    const up = new Vector3().crossVectors(toward, side);
    if (this.atTable) {
      // Blank and table are not alike on all sides of the axis.
      for (const way of [side, up]) {
        const places = corners.map((corner) => corner.clone().sub(target).dot(way));
        target.addScaledVector(way, (Math.min(...places) + Math.max(...places)) / 2);
      }
    }
    const tangent = Math.tan((FIELD_DEG * Math.PI) / 360) / this.margin;
    let distance = 0;
    let halfHeight = 0;
    this.reach_mm = 0;
    for (const corner of corners) {
      const from = corner.clone().sub(target);
      const half = Math.max(Math.abs(from.dot(up)), Math.abs(from.dot(side)) / aspect);
      distance = Math.max(distance, from.dot(toward) + half / tangent);
      halfHeight = Math.max(halfHeight, half * this.margin);
      this.reach_mm = Math.max(this.reach_mm, 2 * from.length());
    }
    this.controls.target.copy(target);
    this.camera.position.copy(target).addScaledVector(toward, distance);
    const wide = Math.max(...corners.map((corner) => Math.hypot(corner.x, corner.z)));
    this.controls.minDistance = wide * CLOSEST;
    this.controls.maxDistance = distance * 6;
    if (this.camera instanceof OrthographicCamera) {
      this.camera.zoom = 1;
      this.camera.top = halfHeight;
      this.camera.bottom = -halfHeight;
      this.camera.updateProjectionMatrix();
    }
    this.controls.update();
    this.stood.copy(this.camera.position);
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
    next.up.copy(now.up);
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

/** The margin that leaves room for a name above a piece in the middle of a part of the canvas. */
function namedMargin(height_px: number): number {
  const room = height_px / Math.max(height_px - 2 * NAME_ROOM_PX, 1);
  return Math.min(Math.max(NAMED_MARGIN, room), MOST_MARGIN);
}
