/** Designs brought into the app as a maker brings them: by choosing a file. */
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import type { Design } from '../../../src/design/document.ts';
import { serializeDesign } from '../../../src/design/serialize.ts';

/** Chooses a file of this text; what the app makes of it is the test's to look at. */
export async function chooseFile(page: Page, text: string, name = 'design.json'): Promise<void> {
  const buffer = Buffer.from(text);
  await page.locator('#open-file').setInputFiles({ name, mimeType: 'application/json', buffer });
}

/** The name in the title bar; a design's own is there once it is open. */
export const nameOf = (page: Page): Promise<string> => page.locator('.design-name').inputValue();

/** Opens a design and waits until it is there. */
export async function openDesign(page: Page, design: Design): Promise<void> {
  await chooseFile(page, serializeDesign(design));
  await expect.poll(() => nameOf(page)).toBe(design.name);
}
