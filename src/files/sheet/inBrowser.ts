/** The shop sheet made in the browser: the same bytes as the command line's. Loaded only when it is asked for. */
import regularUrl from '@expo-google-fonts/archivo/400Regular/Archivo_400Regular.ttf?url';
import semiboldUrl from '@expo-google-fonts/archivo/600SemiBold/Archivo_600SemiBold.ttf?url';
import fallbackUrl from 'dejavu-fonts-ttf/ttf/DejaVuSans.ttf?url';
import type { Design } from '../../design/document.ts';
import type { MakersChoices } from '../../plan/makersChoices.ts';
import type { PaperName } from './frame.ts';
import { shopSheet } from './sheet.ts';
import type { FontFiles } from './typeface.ts';

export async function shopSheetInBrowser(
  design: Design,
  paper: PaperName,
  choices?: MakersChoices,
): Promise<Uint8Array> {
  return shopSheet(design, { paper, fonts: await fontsInBrowser(), choices });
}

export async function fontsInBrowser(): Promise<FontFiles> {
  const [regular, semibold, fallback] = await Promise.all(
    [regularUrl, semiboldUrl, fallbackUrl].map(fetchBytes),
  );
  return { regular, semibold, fallback };
}

async function fetchBytes(url: string): Promise<Uint8Array> {
  const response = await fetch(url);
  if (!response.ok) throw new Error(`${url}: ${response.status} ${response.statusText}`);
  return new Uint8Array(await response.arrayBuffer());
}
