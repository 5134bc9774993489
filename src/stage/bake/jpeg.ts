/** A baked picture as the bytes of a JPEG: wood has too fine a grain for PNG, which would be four times as large. */
import type { BakedPicture } from './bake.ts';

/** Where a strip's edge stays an edge and the file still travels. */
const QUALITY = 0.92;

export async function jpegOf({ data, size_px }: BakedPicture): Promise<Uint8Array<ArrayBuffer>> {
  const canvas = document.createElement('canvas');
  canvas.width = size_px;
  canvas.height = size_px;
  const context = canvas.getContext('2d');
  if (!context) throw new Error(`This browser gives no canvas of ${size_px} pixels.`);
  context.putImageData(new ImageData(data, size_px, size_px), 0, 0);
  const blob = await new Promise<Blob | null>((resolve) => {
    canvas.toBlob(resolve, 'image/jpeg', QUALITY);
  });
  // The canvas of a large picture is memory that a phone misses.
  canvas.width = canvas.height = 0;
  if (!blob || blob.type !== 'image/jpeg')
    throw new Error(`The picture of ${size_px} pixels could not be written.`);
  return new Uint8Array(await blob.arrayBuffer());
}
