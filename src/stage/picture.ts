/** Pictures and turns of the piece, drawn apart from the screen (studio.ts). Loaded when the first is asked for. */
import type { WebGLRenderer } from 'three';
import { DEG } from '../geometry/angle.ts';
import {
  MOST_PICTURE_PX,
  type PictureRequest,
  type StageProps,
  type TurnFrames,
  type TurnRequest,
} from './props.ts';
import { Studio, type Standpoint } from './studio.ts';

/** What the stage shows, for a picture: nothing in it is marked, nothing moves, dimensions are read from where it is seen. */
function still(props: StageProps, dimensions: boolean, { camera, target }: Standpoint): StageProps {
  const { x, z } = camera.position.clone().sub(target);
  // Azimuth 0 of the lathe frame is X, 90° is −Z.
  const dimensionsFrom_deg = Math.atan2(-z, x) / DEG;
  const view = { ...props.view, dimensions, dimensionsFrom_deg, turntable: false };
  return { ...props, highlight: null, inset_px: 0, view };
}

export async function takePicture(
  renderer: WebGLRenderer,
  props: StageProps,
  from: Standpoint,
  request: PictureRequest,
): Promise<Blob> {
  const { width_px, height_px, signal, onProgress } = request;
  checkSize(width_px, height_px);
  const view = still(props, request.dimensions ?? props.view.dimensions, from);
  const studio = await Studio.open(renderer, view, from, {
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
  from: Standpoint,
  { width_px, height_px, frames, signal }: TurnRequest,
): Promise<TurnFrames> {
  checkSize(width_px, height_px);
  const studio = await Studio.open(renderer, still(props, false, from), from, {
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

function checkSize(width_px: number, height_px: number): void {
  for (const side of [width_px, height_px])
    if (!Number.isInteger(side) || side < 16 || side > MOST_PICTURE_PX)
      throw new Error(`a picture has sides of 16 to ${MOST_PICTURE_PX} whole pixels, not ${side}`);
}
