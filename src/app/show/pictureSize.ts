/** Sizes of pictures and films that are offered. Pixels. */
import { MOST_PICTURE_PX } from '../../stage/props.ts';

export type PictureShape = 'square' | 'wide' | 'tall' | 'screen' | 'own';

export interface PixelSize {
  readonly width_px: number;
  readonly height_px: number;
}

export const LEAST_PX = 64;
export const LONG_SIDES_PX = [1024, 2048, MOST_PICTURE_PX] as const;

const ASPECTS: Readonly<Record<Exclude<PictureShape, 'own'>, number>> = {
  square: 1,
  wide: 4 / 3,
  tall: 3 / 4,
  screen: 16 / 9,
};

/** The size with this longer side. */
export function sizeOf(shape: Exclude<PictureShape, 'own'>, long_px: number): PixelSize {
  const aspect = ASPECTS[shape];
  return aspect >= 1
    ? { width_px: long_px, height_px: Math.round(long_px / aspect) }
    : { width_px: Math.round(long_px * aspect), height_px: long_px };
}

export const FILM_SIZES = {
  '720p': { width_px: 1280, height_px: 720 },
  '1080p': { width_px: 1920, height_px: 1080 },
  square: { width_px: 1080, height_px: 1080 },
} as const;
export type FilmSize = keyof typeof FILM_SIZES;

/** `about 40 s`, `about 3 min`: what is left of a work, from what is done of it. */
export function timeLeft(done: number, total: number, elapsed_ms: number): string {
  const left_s = ((elapsed_ms / done) * (total - done)) / 1000;
  if (left_s < 90) return `about ${Math.max(1, Math.round(left_s))} s left`;
  return `about ${Math.round(left_s / 60)} min left`;
}
