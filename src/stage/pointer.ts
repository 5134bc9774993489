/**
 * Pointing at the piece: which strip is under the pointer, and dragging a ring along the axis. A drag that starts on a
 * strip moves its ring when someone listens for that; any other drag is the camera's. Lathe frame in what is reported.
 */
import { Raycaster, Vector2, Vector3 } from 'three';
import { azimuthOf } from '../geometry/angle.ts';
import type { CameraControl } from './cameraControl.ts';
import type { RingDrag, StageProps } from './props.ts';
import type { StageScene } from './stageScene.ts';

/** Way that a pointer goes before a press becomes a drag, px. */
const DRAG_START_PX = 4;

interface Pressed {
  readonly pointer: number;
  readonly variant: string;
  readonly slot: string;
  readonly startCenter_mm: number;
  readonly anchor: Vector3;
  readonly x: number;
  readonly y: number;
  dragging: boolean;
  center_mm: number;
}

export class PointerControl {
  private readonly element: HTMLElement;
  private readonly scene: StageScene;
  private readonly camera: CameraControl;
  private readonly props: () => StageProps;
  private readonly raycaster = new Raycaster();
  private pressed: Pressed | null = null;
  private pointers = 0;
  private hovered: string | null = null;
  private frame = 0;
  private lastMove: PointerEvent | null = null;

  constructor(element: HTMLElement, scene: StageScene, camera: CameraControl, props: () => StageProps) {
    this.element = element;
    this.scene = scene;
    this.camera = camera;
    this.props = props;
    // Before the camera's own listeners: a press on a ring is not the camera's.
    element.addEventListener('pointerdown', this.down, { capture: true });
    element.addEventListener('pointermove', this.move);
    element.addEventListener('pointerleave', this.leave);
    window.addEventListener('pointerup', this.up);
    window.addEventListener('pointercancel', this.cancel);
    window.addEventListener('keydown', this.key, { capture: true });
  }

  dispose(): void {
    cancelAnimationFrame(this.frame);
    this.element.removeEventListener('pointerdown', this.down, { capture: true });
    this.element.removeEventListener('pointermove', this.move);
    this.element.removeEventListener('pointerleave', this.leave);
    window.removeEventListener('pointerup', this.up);
    window.removeEventListener('pointercancel', this.cancel);
    window.removeEventListener('keydown', this.key, { capture: true });
  }

  private readonly down = (event: PointerEvent): void => {
    this.pointers++;
    // A second finger means the camera.
    if (this.pointers > 1) this.finish('cancel');
    if (this.pointers > 1 || event.button !== 0 || event.shiftKey || event.ctrlKey || event.metaKey) return;
    if (!this.props().onDragRing) return;
    const found = this.find(event);
    if (!found || found.slot === null) return;
    const design = this.props().variants.find((variant) => variant.key === found.variant)?.design;
    const shape = this.scene.variant(found.variant)?.shape;
    const slot = shape?.slots.find((candidate) => candidate.id === found.slot);
    if (!design || !slot) return;
    this.pressed = {
      pointer: event.pointerId,
      variant: found.variant,
      slot: found.slot,
      startCenter_mm: slot.center_mm,
      anchor: found.world,
      x: event.clientX,
      y: event.clientY,
      dragging: false,
      center_mm: slot.center_mm,
    };
    this.camera.enabled = false;
  };

  private readonly move = (event: PointerEvent): void => {
    const { pressed } = this;
    if (pressed && event.pointerId === pressed.pointer) {
      if (
        !pressed.dragging &&
        Math.hypot(event.clientX - pressed.x, event.clientY - pressed.y) < DRAG_START_PX
      )
        return;
      if (!pressed.dragging) {
        pressed.dragging = true;
        this.element.setPointerCapture(event.pointerId);
        this.tell('start');
      }
      pressed.center_mm = pressed.startCenter_mm + this.alongAxis(event, pressed);
      this.tell('move');
      return;
    }
    if (event.buttons !== 0 || event.pointerType === 'touch') return;
    this.lastMove = event;
    if (this.frame === 0)
      this.frame = requestAnimationFrame(() => {
        this.frame = 0;
        if (this.lastMove) this.hover(this.lastMove);
      });
  };

  private readonly up = (event: PointerEvent): void => {
    this.pointers = Math.max(0, this.pointers - 1);
    if (this.pressed?.pointer === event.pointerId) this.finish('end');
  };

  private readonly cancel = (): void => {
    this.pointers = 0;
    this.finish('cancel');
  };

  private readonly leave = (): void => {
    this.lastMove = null;
    if (this.hovered === null) return;
    this.hovered = null;
    this.props().onHover?.(null);
  };

  private readonly key = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape' || !this.pressed?.dragging) return;
    event.stopPropagation();
    this.finish('cancel');
  };

  private finish(phase: 'end' | 'cancel'): void {
    const { pressed } = this;
    if (!pressed) return;
    if (phase === 'cancel') pressed.center_mm = pressed.startCenter_mm;
    if (pressed.dragging) this.tell(phase);
    this.pressed = null;
    this.camera.enabled = true;
  }

  private tell(phase: RingDrag['phase']): void {
    if (!this.pressed) return;
    const { variant, slot, center_mm } = this.pressed;
    this.props().onDragRing?.({ variant, slot, center_mm, phase });
  }

  private hover(event: PointerEvent): void {
    const { onHover, onDragRing } = this.props();
    const found = this.find(event);
    this.element.style.cursor = found?.slot && onDragRing ? 'ns-resize' : '';
    const key = found
      ? `${found.variant}/${found.slot}/${found.z_mm.toFixed(2)}/${found.azimuth_deg.toFixed(1)}`
      : null;
    if (key === this.hovered) return;
    this.hovered = key;
    if (!found) onHover?.(null);
    else {
      const { variant, slot, z_mm, azimuth_deg, radius_mm } = found;
      onHover?.({ variant, slot, z_mm, azimuth_deg, radius_mm });
    }
  }

  private find(event: PointerEvent) {
    const bounds = this.element.getBoundingClientRect();
    const x = event.clientX - bounds.left;
    const y = bounds.bottom - event.clientY;
    for (const [key, variant, box] of this.scene.viewports(bounds.width, bounds.height)) {
      if (x < box.x || x >= box.x + box.drawnWidth || y < box.y || y >= box.y + box.height) continue;
      this.scene.aimCamera(this.camera.camera, box.width / box.height);
      this.camera.prepare();
      const at = new Vector2(((x - box.x) / box.width) * 2 - 1, ((y - box.y) / box.height) * 2 - 1);
      this.raycaster.setFromCamera(at, this.camera.camera);
      const hit = variant.pointAt(this.raycaster);
      if (!hit) return null;
      const [px, py, pz] = hit.point;
      return {
        variant: key,
        slot: hit.slot < 0 || !variant.shape ? null : variant.nameOf(variant.shape.slots[hit.slot].id),
        z_mm: pz,
        azimuth_deg: azimuthOf(px, py),
        radius_mm: Math.hypot(px, py),
        world: hit.world.clone(),
      };
    }
    return null;
  }

  /** How far along the axis the pointer has come from where it took hold: the upright line's nearest point to its ray. */
  private alongAxis(event: PointerEvent, pressed: Pressed): number {
    const bounds = this.element.getBoundingClientRect();
    const box = this.scene
      .viewports(bounds.width, bounds.height)
      .find(([key]) => key === pressed.variant)?.[2];
    if (!box) return 0;
    this.scene.aimCamera(this.camera.camera, box.width / box.height);
    this.camera.prepare();
    const x = event.clientX - bounds.left - box.x;
    const y = bounds.bottom - event.clientY - box.y;
    this.raycaster.setFromCamera(
      new Vector2((x / box.width) * 2 - 1, (y / box.height) * 2 - 1),
      this.camera.camera,
    );
    const { origin, direction } = this.raycaster.ray;
    const from = origin.clone().sub(pressed.anchor);
    const across = 1 - direction.y * direction.y;
    if (across < 1e-4) return pressed.center_mm - pressed.startCenter_mm;
    return (from.y - direction.y * from.dot(direction)) / across;
  }
}
