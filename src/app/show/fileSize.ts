/** The size of a file that was made, in words: kB of a thousand bytes, MB of a million. */

/** `48 kB`, `2.8 MB`. */
export function fileSizeText({ size }: Blob): string {
  return size < 1e5 ? `${Math.ceil(size / 1000)} kB` : `${(size / 1e6).toFixed(1)} MB`;
}
