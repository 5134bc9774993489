/** The quote made in the browser. Loaded only when it is asked for. */
import type { Design } from '../../design/document.ts';
import { fontsInBrowser } from '../sheet/inBrowser.ts';
import { quotePage, type QuoteOptions } from './quotePage.ts';

export async function quotePageInBrowser(design: Design, options: QuoteOptions): Promise<Uint8Array> {
  return quotePage(design, options, await fontsInBrowser());
}
