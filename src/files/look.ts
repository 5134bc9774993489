/** What a file says of a timber, its name and one flat colour, and of a finish: how it shines. */
import { colorGiven } from '../design/colors.ts';
import type { Design, Finish } from '../design/document.ts';
import { timberName } from '../timber/names.ts';
import { timberById } from '../timber/timbers.ts';

export interface TimberLook {
  /** Common name, as printed. */
  readonly name: string;
  /** sRGB colour, `#rrggbb`. */
  readonly srgb: string;
}

/** Look of a timber by its id in the design. */
export type TimberLooks = (timber: string) => TimberLook;

/** Name and flat colour of the timbers of a valid design: the colour that it gives them, else their own. */
export function looksOf(design: Pick<Design, 'colors'>): TimberLooks {
  return (timber) => ({
    name: timberName(timber),
    srgb: (colorGiven(design, timber) ?? timberById(timber)?.srgb ?? '').toLowerCase(),
  });
}

/** Place of a look in the list of materials; added at the end when it is new. */
export function materialIndex(materials: TimberLook[], look: TimberLook): number {
  const index = materials.findIndex(({ name, srgb }) => name === look.name && srgb === look.srgb);
  return index >= 0 ? index : materials.push(look) - 1;
}

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

/** How a finish shines, in the terms that glTF and USD share: 0 a mirror, 1 chalk; a layer of lacquer on top. */
export interface Shine {
  readonly roughness: number;
  /** Roughness of the lacquer; left out: there is none. */
  readonly lacquer?: number;
}

/** Chosen by eye next to the stage's own studio. */
export const SHINE: Readonly<Record<Finish, Shine>> = {
  raw: { roughness: 0.85 },
  oiled: { roughness: 0.5 },
  gloss: { roughness: 0.4, lacquer: 0.08 },
};

/** The finish of the piece as the stage shows it: what is not turned is left from the saw. */
export function finishOf({ form }: Pick<Design, 'form'>): Finish {
  return form ? (form.finish ?? 'oiled') : 'raw';
}
