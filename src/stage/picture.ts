/** Pictures and turns of the piece, drawn apart from the screen (studio.ts); and for tests, the stage's own view read back. */
import {
  LinearSRGBColorSpace,
  RGBAFormat,
  UnsignedByteType,
  WebGLRenderTarget,
  type WebGLRenderer,
} from 'three';
import type { CameraControl } from './cameraControl.ts';
import { MODE, type Mode } from './material.ts';
import { type PixelPicture, uprightStraight } from './pixels.ts';
import type { PictureRequest, StageProps, TurnFrames, TurnRequest } from './props.ts';
import type { StageScene } from './stageScene.ts';
import { Studio } from './studio.ts';

/** Longest side of a picture. */
export const MOST_PX = 4096;

/** The pixels of the stage's own view, at once. */
export function readPicture(
  renderer: WebGLRenderer,
  scene: StageScene,
  camera: CameraControl,
  request: PictureRequest,
  mode: Mode,
): PixelPicture {
  const { width_px: width, height_px: height } = request;
  const target = new WebGLRenderTarget(width, height, {
    samples: mode === MODE.number ? 0 : 4,
    format: RGBAFormat,
    type: UnsignedByteType,
    // The shader writes display colours; nothing is to be converted on the way.
    colorSpace: LinearSRGBColorSpace,
  });
  const before = renderer.getRenderTarget();
  const upward = new Uint8Array(4 * width * height);
  try {
    renderer.setRenderTarget(target);
    renderer.setClearColor(0x000000, 0);
    camera.prepare();
    scene.draw(renderer, camera.camera, camera.target, width, height, mode, {
      only: request.variant,
      backdrop: request.background !== 'transparent',
      labelScale: Math.max(0.5, Math.min(width, height) / 640),
    });
    renderer.readRenderTargetPixels(target, 0, 0, width, height, upward);
  } finally {
    renderer.setRenderTarget(before);
    target.dispose();
  }
  return uprightStraight(upward, width, height);
}

/** What the stage shows, for a picture: nothing in it is marked, and nothing moves. */
function still(props: StageProps, dimensions: boolean): StageProps {
  return { ...props, highlight: null, view: { ...props.view, dimensions, turntable: false } };
}

export async function takePicture(
  renderer: WebGLRenderer,
  props: StageProps,
  control: CameraControl,
  request: PictureRequest,
): Promise<Blob> {
  const { width_px, height_px, signal, onProgress } = request;
  checkSize(width_px, height_px);
  const view = still(props, request.dimensions ?? props.view.dimensions);
  const studio = await Studio.open(renderer, view, standpointOf(control), {
    width_px,
    height_px,
    transparent: request.background === 'transparent',
    only: request.variant,
    turning: false,
    tile_px: request.tile_px,
    signal,
  });
  try {
    const canvas = await studio.draw(0, onProgress);
    const blob = await new Promise<Blob | null>((resolve) => {
      canvas.toBlob(resolve, 'image/png');
    });
    signal?.throwIfAborted();
    if (!blob) throw new Error('the browser could not write it as a PNG; a smaller size may do');
    return blob;
  } finally {
    studio.dispose();
  }
}

export async function openTurn(
  renderer: WebGLRenderer,
  props: StageProps,
  control: CameraControl,
  { width_px, height_px, frames, signal }: TurnRequest,
): Promise<TurnFrames> {
  checkSize(width_px, height_px);
  const studio = await Studio.open(renderer, still(props, false), standpointOf(control), {
    width_px,
    height_px,
    transparent: false,
    turning: true,
    signal,
  });
  return {
    draw: (index) => studio.draw((2 * Math.PI * index) / frames),
    dispose: () => studio.dispose(),
  };
}

function standpointOf(control: CameraControl) {
  control.prepare();
  return { camera: control.camera, target: control.target };
}

function checkSize(width_px: number, height_px: number): void {
  for (const side of [width_px, height_px])
    if (!Number.isInteger(side) || side < 16 || side > MOST_PX)
      throw new Error(`a picture has sides of 16 to ${MOST_PX} whole pixels, not ${side}`);
}
