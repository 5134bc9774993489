/**
 * A second, unseen stage for pictures and films: it takes what the stage shows at one moment and draws that piece by piece
 * beside the screen, whatever is done on the screen meanwhile. Each tile is drawn in full quality into a target of its own
 * and read back without waiting, so that the page and the stage stay usable between tiles.
 *
 * World frame: y-up, mm. Pixels from the lower left, as the graphics card counts them.
 */
import {
  LinearSRGBColorSpace,
  OrthographicCamera,
  PerspectiveCamera,
  RGBAFormat,
  UnsignedByteType,
  Vector3,
  WebGLRenderTarget,
  type WebGLRenderer,
} from 'three';
import { framingOf, type Framing } from './framing.ts';
import { MODE } from './material.ts';
import { tilesOf, uprightStraight } from './pixels.ts';
import type { StageProps } from './props.ts';
import { pointsOf, sweptPoints } from './reach.ts';
import { StageScene, type StageCamera } from './stageScene.ts';
import type { Viewport } from './viewports.ts';

/** Side of a tile on a machine that is not known yet, or slow; and where a small tile takes no time. */
const TILE_PX = 512;
const LARGE_TILE_PX = 2048;
const NO_TIME_MS = 40;
const MOST_SAMPLES = 8;
/** Room around the piece; a picture that is cut out needs less. */
const STUDIO_MARGIN = 1.2;
const CUT_OUT_MARGIN = 1.06;
/** Lesser side of a picture in which names and dimensions are as large as on the screen. */
const LABEL_PICTURE_PX = 640;
/** In pixels of that picture: beside the piece for what is written on dimension lines; above it for its name. */
const DIMENSION_ROOM_PX = 48;
const NAME_ROOM_PX = 44;
const NAME_TOP_PX = 14;
const NAME_SIZE_PX = 16;
const INK = { light: '#2e2b28', dark: '#ece7df' } as const;

export const LOST_WORDS = 'the graphics card was reset while it was drawn; try again';

export interface Shot {
  readonly width_px: number;
  readonly height_px: number;
  readonly transparent: boolean;
  /** One variant alone. */
  readonly only?: string;
  /** The camera will go round: the whole turn has its room. */
  readonly turning: boolean;
  /** Side of the tiles; left out, it follows the graphics card. */
  readonly tile_px?: number;
  readonly signal?: AbortSignal;
}

/** Where the stage's camera stands; copies, because it may move while solids are worked out. */
export interface Standpoint {
  readonly camera: StageCamera;
  readonly target: Vector3;
}

export class Studio {
  readonly canvas = document.createElement('canvas');
  private readonly context: CanvasRenderingContext2D;
  private readonly renderer: WebGLRenderer;
  private readonly scene: StageScene;
  private readonly props: StageProps;
  private readonly shot: Shot;
  private readonly camera: StageCamera;
  private readonly framing: Framing;
  private readonly toward: Vector3;
  private readonly labelScale: number;
  private target: WebGLRenderTarget | null = null;
  private tile_px: number;

  private constructor(
    renderer: WebGLRenderer,
    scene: StageScene,
    props: StageProps,
    from: Standpoint,
    shot: Shot,
  ) {
    this.renderer = renderer;
    this.scene = scene;
    this.props = props;
    this.shot = shot;
    this.tile_px = Math.min(shot.tile_px ?? TILE_PX, largestTile_px(renderer));
    this.toward = from.camera.position.clone().sub(from.target).normalize();
    const boxes = this.boxes().map(({ box }) => box);
    const aspect = Math.min(...boxes.map((box) => box.width / box.height));
    const [width, height] = [
      Math.min(...boxes.map((box) => box.width)),
      Math.min(...boxes.map((box) => box.height)),
    ];
    this.labelScale = Math.max(0.5, Math.min(width, height) / LABEL_PICTURE_PX);
    const beside = props.view.dimensions ? 2 * DIMENSION_ROOM_PX * this.labelScale : 0;
    const above = boxes.length > 1 ? 2 * NAME_ROOM_PX * this.labelScale : 0;
    const perspective = from.camera instanceof PerspectiveCamera ? from.camera : null;
    this.camera = perspective ? new PerspectiveCamera(perspective.fov) : new OrthographicCamera();
    this.camera.up.copy(from.camera.up);
    // As it will look: what faces the eye does so before its place is asked for.
    this.camera.position.copy(this.toward);
    this.camera.lookAt(0, 0, 0);
    this.framing = framingOf(this.points(), this.toward, from.camera.up, {
      parallel: perspective === null,
      tangent: Math.tan(((perspective?.fov ?? 26) * Math.PI) / 360),
      aspect: aspect * Math.max(0.5, 1 - beside / width),
      margin: (shot.transparent ? CUT_OUT_MARGIN : STUDIO_MARGIN) / Math.max(0.6, 1 - above / height),
    });
    this.canvas.width = shot.width_px;
    this.canvas.height = shot.height_px;
    // Kept in memory and not on the card: it is written in parts, and read as a whole.
    const context = this.canvas.getContext('2d', { willReadFrequently: true });
    if (!context) throw new Error('this browser gives no second canvas for the picture');
    this.context = context;
  }

  /** Resolves when the solids of what is shown are there. */
  static async open(
    renderer: WebGLRenderer,
    props: StageProps,
    from: Standpoint,
    shot: Shot,
  ): Promise<Studio> {
    refuseLost(renderer);
    const scene = new StageScene(() => undefined);
    try {
      await solidsOf(scene, props, shot.signal);
      return new Studio(renderer, scene, props, from, shot);
    } catch (error) {
      scene.dispose();
      throw error;
    }
  }

  /** Draws the picture, the camera turned by `turn_rad` about the axis. The canvas is the same each time. */
  async draw(turn_rad: number, onProgress?: (share: number) => void): Promise<HTMLCanvasElement> {
    const { width_px, height_px, signal } = this.shot;
    const tiles = tilesOf(width_px, height_px, this.tile_px);
    let quickest_ms = Infinity;
    for (const [i, tile] of tiles.entries()) {
      signal?.throwIfAborted();
      const started = performance.now();
      await this.drawTile(tile, turn_rad);
      quickest_ms = Math.min(quickest_ms, performance.now() - started);
      if (i === 0) this.checkCanvas();
      onProgress?.((i + 1) / tiles.length);
    }
    signal?.throwIfAborted();
    this.writeNames();
    if (quickest_ms <= NO_TIME_MS && this.shot.tile_px === undefined)
      this.tile_px = Math.min(LARGE_TILE_PX, largestTile_px(this.renderer));
    return this.canvas;
  }

  dispose(): void {
    this.target?.dispose();
    this.target = null;
    this.scene.dispose();
    // Gives the memory back at once.
    this.canvas.width = this.canvas.height = 0;
  }

  private async drawTile(tile: Viewport, turn_rad: number): Promise<void> {
    const { renderer, shot } = this;
    refuseLost(renderer);
    const target = this.tileTarget();
    const before = renderer.getRenderTarget();
    const middle = this.placeCamera(turn_rad);
    try {
      renderer.setRenderTarget(target);
      renderer.setClearColor(0x000000, 0);
      this.scene.draw(renderer, this.camera, middle, shot.width_px, shot.height_px, MODE.picture, {
        only: shot.only,
        backdrop: !shot.transparent,
        labelScale: this.labelScale,
        part: tile,
      });
    } finally {
      renderer.setRenderTarget(before);
    }
    const upward = await readBack(renderer, target, tile.width, tile.height);
    const { data } = uprightStraight(upward, tile.width, tile.height);
    this.context.putImageData(
      new ImageData(data, tile.width, tile.height),
      tile.x,
      shot.height_px - tile.y - tile.height,
    );
  }

  /** A canvas that the browser cannot hold stays empty without a word. */
  private checkCanvas(): void {
    const { width_px, height_px } = this.shot;
    const mark = new ImageData(Uint8ClampedArray.of(40, 80, 120, 255), 1, 1);
    const place = [width_px - 1, height_px - 1] as const;
    const kept = this.context.getImageData(...place, 1, 1);
    this.context.putImageData(mark, ...place);
    const back = this.context.getImageData(...place, 1, 1).data;
    this.context.putImageData(kept, ...place);
    if (back[2] !== 120)
      throw new Error(`this browser cannot hold a picture of ${width_px} × ${height_px} pixels`);
  }

  private tileTarget(): WebGLRenderTarget {
    const side = Math.min(this.tile_px, Math.max(this.shot.width_px, this.shot.height_px));
    if (this.target?.width === side) return this.target;
    this.target?.dispose();
    const gl = this.renderer.getContext() as WebGL2RenderingContext;
    this.target = new WebGLRenderTarget(side, side, {
      samples: Math.min(MOST_SAMPLES, Number(gl.getParameter(gl.MAX_SAMPLES))),
      format: RGBAFormat,
      type: UnsignedByteType,
      // The shader writes display colours; nothing is to be converted on the way.
      colorSpace: LinearSRGBColorSpace,
    });
    return this.target;
  }

  /** All that is to be in the picture. */
  private points(): Float64Array {
    return joined(
      this.boxes().flatMap(({ key }) => {
        const variant = this.scene.variant(key);
        if (!variant) return [];
        const { root, overlay } = variant;
        overlay.face(this.camera, root.rotation.y);
        const piece = pointsOf(root, overlay.objects);
        return [
          this.shot.turning ? sweptPoints(piece) : piece,
          ...overlay.objects.map((object) => pointsOf(object)),
        ];
      }),
    );
  }

  /** Returns the point that the camera looks at. */
  private placeCamera(turn_rad: number): Vector3 {
    const { camera, framing } = this;
    const upright = new Vector3(0, 1, 0);
    const middle = framing.target.clone().applyAxisAngle(upright, turn_rad);
    const toward = this.toward.clone().applyAxisAngle(upright, turn_rad);
    const distance =
      camera instanceof OrthographicCamera
        ? Math.max(framing.distance_mm, 4 * framing.reach_mm)
        : framing.distance_mm;
    camera.position.copy(middle).addScaledVector(toward, distance);
    camera.lookAt(middle);
    camera.near = Math.max(distance - 3 * framing.reach_mm, 0.05 * distance, 0.5);
    camera.far = distance + 4 * framing.reach_mm;
    if (camera instanceof OrthographicCamera) {
      camera.top = framing.halfHeight_mm;
      camera.bottom = -framing.halfHeight_mm;
    }
    camera.updateMatrixWorld();
    return middle;
  }

  private boxes(): { readonly key: string; readonly box: Viewport }[] {
    const { width_px: width, height_px: height, only } = this.shot;
    if (only !== undefined) return [{ key: only, box: { x: 0, y: 0, width, height } }];
    return this.scene.viewports(width, height).map(([key, , box]) => ({ key, box }));
  }

  /** The names of several variants, each over its piece. */
  private writeNames(): void {
    const boxes = this.boxes();
    if (boxes.length < 2) return;
    const { context, labelScale } = this;
    context.font = `500 ${NAME_SIZE_PX * labelScale}px system-ui, sans-serif`;
    context.textAlign = 'center';
    context.textBaseline = 'top';
    context.fillStyle = INK[this.props.theme];
    for (const { key, box } of boxes) {
      const name = this.props.variants.find((variant) => variant.key === key)?.label ?? '';
      const top = this.shot.height_px - box.y - box.height + NAME_TOP_PX * labelScale;
      context.fillText(name, box.x + box.width / 2, top, 0.92 * box.width);
    }
  }
}

function solidsOf(scene: StageScene, props: StageProps, signal: AbortSignal | undefined): Promise<void> {
  return new Promise((resolve, reject) => {
    signal?.throwIfAborted();
    signal?.addEventListener('abort', () => reject(signal.reason as Error), { once: true });
    scene.update({
      ...props,
      onStatus: ({ busy, level, message }) => {
        if (level === 'fault') reject(new Error(message ?? 'its solids could not be made'));
        else if (!busy) resolve();
      },
    });
  });
}

/** Waits for the graphics card without holding up the page. */
async function readBack(
  renderer: WebGLRenderer,
  target: WebGLRenderTarget,
  width: number,
  height: number,
): Promise<Uint8Array> {
  const pixels = new Uint8Array(4 * width * height);
  const canvas = renderer.domElement;
  let lost: () => void = () => undefined;
  const untilLost = new Promise<never>((_resolve, reject) => {
    lost = () => reject(new Error(LOST_WORDS));
    canvas.addEventListener('webglcontextlost', lost);
  });
  const read = renderer.readRenderTargetPixelsAsync(target, 0, 0, width, height, pixels);
  try {
    await Promise.race([
      read.catch((error: unknown) => {
        // Three rejects without a reason when the card's answer does not come.
        throw error instanceof Error ? error : new Error(LOST_WORDS);
      }),
      untilLost,
    ]);
  } finally {
    canvas.removeEventListener('webglcontextlost', lost);
  }
  return pixels;
}

function refuseLost(renderer: WebGLRenderer): void {
  if (renderer.getContext().isContextLost()) throw new Error(LOST_WORDS);
}

function largestTile_px(renderer: WebGLRenderer): number {
  const gl = renderer.getContext();
  const [wide, tall] = gl.getParameter(gl.MAX_VIEWPORT_DIMS) as Int32Array;
  const most = Math.min(
    renderer.capabilities.maxTextureSize,
    Number(gl.getParameter(gl.MAX_RENDERBUFFER_SIZE)),
    wide,
    tall,
  );
  return most - (most % 2);
}

function joined(parts: readonly Float64Array[]): Float64Array {
  const all = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}
