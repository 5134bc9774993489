/** What a file says of a timber: its name and one flat colour. The exporters take this instead of the wood itself. */

export interface TimberLook {
  /** Common name, as printed. */
  readonly name: string;
  /** sRGB colour, `#rrggbb`. */
  readonly srgb: string;
}

export type TimberLooks = (timber: string) => TimberLook;

/** Red, green, blue of an `#rrggbb` colour, 0 … 1 in sRGB as written. */
export function srgbComponents(srgb: string): [number, number, number] {
  const value = Number.parseInt(srgb.slice(1), 16);
  return [(value >> 16) / 255, ((value >> 8) & 255) / 255, (value & 255) / 255];
}

/** The same colour in linear light (IEC 61966-2-1), as glTF asks of colour factors. */
export function linearComponents(srgb: string): [number, number, number] {
  const [r, g, b] = srgbComponents(srgb).map((c) =>
    c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4,
  );
  return [r, g, b];
}
