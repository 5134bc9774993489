/** What of gifenc is used here; the package brings no types. */
declare module 'gifenc' {
  export type GifPalette = number[][];
  export function quantize(rgba: Uint8ClampedArray, maxColours: number): GifPalette;
  export function applyPalette(rgba: Uint8ClampedArray, palette: GifPalette): Uint8Array<ArrayBuffer>;
  export function GIFEncoder(): {
    /** `delay`: ms. `repeat`: 0 for ever. */
    writeFrame(
      index: Uint8Array,
      width: number,
      height: number,
      options: { palette: GifPalette; delay: number; repeat: number },
    ): void;
    finish(): void;
    bytes(): Uint8Array<ArrayBuffer>;
  };
}
