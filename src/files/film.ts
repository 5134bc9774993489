/**
 * A film of one turn from pictures that come one at a time: MP4 where the browser encodes H.264, else WebM, else an animated
 * GIF. The pictures stand at even steps of time and of the turn, and after the last comes the first: the film loops.
 * Loaded when a film is made (docs/decisions/film.md says why these libraries).
 */
import {
  BufferTarget,
  canEncodeVideo,
  Mp4OutputFormat,
  Output,
  Quality,
  VideoSample,
  VideoSampleSource,
  WebMOutputFormat,
  type VideoCodec,
} from 'mediabunny';
import { gifOf, gifTiming } from './filmGif.ts';

export interface FilmPlan {
  readonly width_px: number;
  readonly height_px: number;
  readonly seconds: number;
  /** Pictures a second; a GIF has its own. */
  readonly fps: number;
}

export type FilmFormat =
  | { readonly kind: 'mp4' | 'webm'; readonly codec: VideoCodec }
  | { readonly kind: 'gif'; readonly codec: null };

/** What is drawn: size of the pictures, how many, and for how long each stands. */
export interface FilmShot {
  readonly width_px: number;
  readonly height_px: number;
  readonly frames: number;
  readonly frame_s: number;
}

export interface FilmCalls {
  readonly signal: AbortSignal;
  readonly onProgress: (done: number) => void;
}

const FORMATS: readonly Exclude<FilmFormat, { kind: 'gif' }>[] = [
  { kind: 'mp4', codec: 'avc' },
  { kind: 'webm', codec: 'vp9' },
  { kind: 'webm', codec: 'vp8' },
  { kind: 'webm', codec: 'av1' },
];
const GIF: FilmFormat = { kind: 'gif', codec: null };
const QUALITY = new Quality({ quality: 'very-high', preferBitrate: true });

/** All that can be made in this browser at this size, the most widely played first; a GIF always. */
export async function filmFormats({
  width_px: width,
  height_px: height,
  fps: frameRate,
}: FilmPlan): Promise<FilmFormat[]> {
  if (typeof VideoEncoder === 'undefined') return [GIF];
  const options = { width, height, frameRate, quality: QUALITY };
  const possible = await Promise.all(FORMATS.map(({ codec }) => canEncodeVideo(codec, options)));
  return [...FORMATS.filter((_, i) => possible[i]), GIF];
}

export async function filmFormat(plan: FilmPlan): Promise<FilmFormat> {
  const [first] = await filmFormats(plan);
  return first;
}

export function filmShot(plan: FilmPlan, format: FilmFormat): FilmShot {
  if (format.kind === 'gif') return gifTiming(plan);
  const { width_px, height_px, seconds, fps } = plan;
  return { width_px, height_px, frames: Math.round(seconds * fps), frame_s: 1 / fps };
}

/**
 * Encodes the film. `draw` gives picture `index` on a canvas, which may be the same each time. Rejects with the signal's
 * reason when it is ended; then nothing is left of it.
 */
export async function makeFilm(
  shot: FilmShot,
  format: FilmFormat,
  draw: (index: number) => Promise<HTMLCanvasElement>,
  { signal, onProgress }: FilmCalls,
): Promise<Blob> {
  if (format.kind === 'gif') return gifOf(shot, draw, { signal, onProgress });
  const output = new Output({
    format: format.kind === 'mp4' ? new Mp4OutputFormat() : new WebMOutputFormat(),
    target: new BufferTarget(),
  });
  const source = new VideoSampleSource({ codec: format.codec, quality: QUALITY });
  output.addVideoTrack(source, { frameRate: 1 / shot.frame_s });
  try {
    await output.start();
    for (let i = 0; i < shot.frames; i++) {
      signal.throwIfAborted();
      const canvas = await draw(i);
      const sample = new VideoSample(canvas, { timestamp: i * shot.frame_s, duration: shot.frame_s });
      try {
        await source.add(sample);
      } finally {
        sample.close();
      }
      onProgress(i + 1);
    }
    signal.throwIfAborted();
    await output.finalize();
  } catch (error) {
    if (output.state === 'started' || output.state === 'pending') await output.cancel();
    throw error;
  }
  const { buffer } = output.target;
  if (!buffer) throw new Error('the film came out empty');
  return new Blob([buffer], { type: format.kind === 'mp4' ? 'video/mp4' : 'video/webm' });
}
