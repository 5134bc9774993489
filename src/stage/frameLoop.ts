/**
 * When a frame is drawn, and how well. Nothing is drawn while nothing changes. A change is followed in the next frame;
 * on a machine where a full frame takes long, at a lower resolution and without the finest figure, and once the stage
 * has rested for a moment again in full.
 */
import type { WebGLRenderer } from 'three';
import type { CameraControl } from './cameraControl.ts';
import { MODE } from './material.ts';
import type { StageScene } from './stageScene.ts';

/** Rest after which the full picture is drawn, ms. */
const REST_MS = 160;
/** A full frame that takes no longer than this is drawn while things move, too. */
const FLUENT_MS = 28;
const MOVING_RATIO = 0.42;
const TURN_DEG_PER_S = 18;

export interface FrameCalls {
  readonly requestFrame: () => void;
  /** The full picture of what there is has been drawn. */
  readonly settled: () => void;
}

export class FrameLoop {
  private readonly renderer: WebGLRenderer;
  private readonly scene: StageScene;
  private readonly camera: CameraControl;
  private readonly calls: FrameCalls;
  private restTimer: ReturnType<typeof setTimeout> | undefined;
  private fullDue = false;
  private dirty = false;
  private width = 0;
  private height = 0;
  private ratio = 0;
  /** Time of the last full frame on this machine, ms; unknown until one has been measured. */
  private fullFrame_ms = Infinity;
  private disposed = false;
  /** Frames drawn so far. */
  frames = 0;
  private turning = false;
  private lastTurn_ms = 0;

  constructor(renderer: WebGLRenderer, scene: StageScene, camera: CameraControl, calls: FrameCalls) {
    this.renderer = renderer;
    this.scene = scene;
    this.camera = camera;
    this.calls = calls;
  }

  /** Something that is drawn has changed. */
  changed(): void {
    if (this.disposed) return;
    this.dirty = true;
    clearTimeout(this.restTimer);
    this.restTimer = setTimeout(() => {
      this.fullDue = true;
      this.calls.requestFrame();
    }, REST_MS);
    this.calls.requestFrame();
  }

  /** The turntable: on, a frame follows each frame. */
  turn(on: boolean): void {
    if (on === this.turning) return;
    this.turning = on;
    this.lastTurn_ms = performance.now();
    this.changed();
  }

  resize(width: number, height: number): void {
    this.width = width;
    this.height = height;
    this.ratio = 0;
    this.changed();
  }

  frame(): void {
    if (this.disposed || this.width === 0 || this.height === 0) return;
    if (this.turning) this.turnOn();
    const full = this.fullDue || this.fullFrame_ms <= FLUENT_MS;
    if (!this.dirty && !this.fullDue) return;
    this.dirty = false;
    const still = this.stillRatio();
    this.setRatio(full ? still : still * MOVING_RATIO);
    this.camera.prepare();
    const [w, h] = this.pixels();
    const started = performance.now();
    this.frames++;
    this.scene.draw(
      this.renderer,
      this.camera.camera,
      this.camera.target,
      w,
      h,
      full ? MODE.picture : MODE.moving,
    );
    if (!full) return;
    const wasDue = this.fullDue;
    this.fullDue = false;
    if (!wasDue) return;
    clearTimeout(this.restTimer);
    this.whenDone((end) => {
      this.fullFrame_ms = end - started;
      this.calls.settled();
    });
  }

  dispose(): void {
    this.disposed = true;
    clearTimeout(this.restTimer);
  }

  /** Where it costs nothing, coarse screens get a picture drawn at twice their resolution: smoother edges. */
  private stillRatio(): number {
    const screen = Math.min(window.devicePixelRatio || 1, 2);
    return screen < 1.5 && this.fullFrame_ms <= FLUENT_MS / 3 ? 2 : screen;
  }

  private turnOn(): void {
    const now = performance.now();
    // A pause (a hidden tab, a slow frame) is not caught up with a jump.
    const step_ms = Math.min(now - this.lastTurn_ms, 250);
    this.lastTurn_ms = now;
    this.camera.orbit((TURN_DEG_PER_S * step_ms) / 1000, 0);
  }

  private pixels(): [number, number] {
    const { canvas } = this.renderer.getContext();
    return [canvas.width, canvas.height];
  }

  private setRatio(ratio: number): void {
    if (ratio === this.ratio) return;
    this.ratio = ratio;
    this.renderer.setPixelRatio(ratio);
    this.renderer.setSize(this.width, this.height, false);
  }

  /** Calls back when the graphics card has finished what it was given, without waiting for it. */
  private whenDone(report: (now: number) => void): void {
    const gl = this.renderer.getContext() as WebGL2RenderingContext;
    const fence = gl.fenceSync(gl.SYNC_GPU_COMMANDS_COMPLETE, 0);
    if (!fence) {
      report(performance.now());
      return;
    }
    gl.flush();
    const poll = (): void => {
      if (this.disposed || gl.isContextLost()) return;
      if (gl.getSyncParameter(fence, gl.SYNC_STATUS) === gl.SIGNALED) {
        gl.deleteSync(fence);
        report(performance.now());
      } else setTimeout(poll, 4);
    };
    setTimeout(poll, 0);
  }
}
