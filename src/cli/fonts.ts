/** The typeface's files for the command line, read from the packages that carry them. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { FontFiles } from '../files/sheet/typeface.ts';

export function readFontFiles(): FontFiles {
  const { resolve } = createRequire(import.meta.url);
  const read = (path: string): Uint8Array => readFileSync(resolve(path));
  return {
    regular: read('@expo-google-fonts/archivo/400Regular/Archivo_400Regular.ttf'),
    semibold: read('@expo-google-fonts/archivo/600SemiBold/Archivo_600SemiBold.ttf'),
    fallback: read('dejavu-fonts-ttf/ttf/DejaVuSans.ttf'),
  };
}
