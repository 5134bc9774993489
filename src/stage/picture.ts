/** A picture of the stage as a PNG, in full quality at any size, drawn beside the canvas and read back. */
import {
  LinearSRGBColorSpace,
  RGBAFormat,
  UnsignedByteType,
  WebGLRenderTarget,
  type WebGLRenderer,
} from 'three';
import type { CameraControl } from './cameraControl.ts';
import { MODE, type Mode } from './material.ts';
import type { PictureRequest } from './props.ts';
import type { StageScene } from './stageScene.ts';

export interface PixelPicture {
  readonly width: number;
  readonly height: number;
  /** RGBA, rows from the top. */
  readonly data: Uint8ClampedArray<ArrayBuffer>;
}

/** The pixels of a picture; `mode` other than the picture's is for tests. */
export function readPicture(
  renderer: WebGLRenderer,
  scene: StageScene,
  camera: CameraControl,
  request: PictureRequest,
  mode: Mode = MODE.picture,
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
  const data = new Uint8ClampedArray(upward.length);
  for (let row = 0; row < height; row++)
    data.set(upward.subarray((height - 1 - row) * width * 4, (height - row) * width * 4), row * width * 4);
  return { width, height, data };
}

export async function takePicture(
  renderer: WebGLRenderer,
  scene: StageScene,
  camera: CameraControl,
  request: PictureRequest,
): Promise<Blob> {
  if (renderer.getContext().isContextLost())
    throw new Error('The graphics context is lost; try again in a moment.');
  const picture = readPicture(renderer, scene, camera, request);
  const canvas = document.createElement('canvas');
  canvas.width = picture.width;
  canvas.height = picture.height;
  const context = canvas.getContext('2d');
  if (!context) throw new Error('This browser gives no second canvas for the picture.');
  context.putImageData(new ImageData(picture.data, picture.width, picture.height), 0, 0);
  return new Promise((resolve, reject) => {
    canvas.toBlob(
      (blob) => (blob ? resolve(blob) : reject(new Error('The picture could not be written.'))),
      'image/png',
    );
  });
}
