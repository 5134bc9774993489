/**
 * Files of the disk: opened, saved to the same file and as another where the browser has pickers (File System Access),
 * dropped on the window, and downloaded elsewhere. The pickers are answered with files of the origin's private file
 * system, whose handles are the browser's own.
 */
import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { parseDesign } from '../../src/design/parse.ts';
import { serializeDesign } from '../../src/design/serialize.ts';
import { makeLink } from '../../src/files/link.ts';
import { fourRings } from '../fixtures/designs.ts';
import { testBrowser } from './harness/browser.ts';
import { nameOf, openDesign } from './harness/designs.ts';

const browser = testBrowser();

/** Keys and drops are listened to from here on. */
async function openStarted(): Promise<Page> {
  const page = await browser.openPage({ width: 1024, height: 700, url: '#/rings' });
  await page.locator('.design-name').waitFor();
  return page;
}

/** A page with `on-disk.json` in its private file system; its pickers give that file, or `picked`, and count. */
async function openWithPickers(): Promise<Page> {
  const page = await openStarted();
  await page.evaluate(
    async (text) => {
      const folder = await navigator.storage.getDirectory();
      const give = async (kind: string) => {
        Reflect.set(window, kind, ((Reflect.get(window, kind) as number | undefined) ?? 0) + 1);
        const name = Reflect.get(window, 'picked') as string | null | undefined;
        if (name === null) throw new DOMException('The user aborted a request.', 'AbortError');
        return folder.getFileHandle(name ?? 'on-disk.json', { create: true });
      };
      Reflect.set(window, 'showOpenFilePicker', async () => [await give('opens')]);
      Reflect.set(window, 'showSaveFilePicker', () => give('saves'));
      const stream = await (await folder.getFileHandle('on-disk.json', { create: true })).createWritable();
      await stream.write(text);
      await stream.close();
    },
    serializeDesign(fourRings({ name: 'On the disk' })),
  );
  return page;
}

const pick = (page: Page, name: string | null) =>
  page.evaluate((file) => Reflect.set(window, 'picked', file), name);
const counted = (page: Page, kind: 'opens' | 'saves') =>
  page.evaluate((what) => (Reflect.get(window, what) as number | undefined) ?? 0, kind);

async function onDisk(page: Page, file: string): Promise<string | null> {
  const text = await page.evaluate(async (name) => {
    const folder = await navigator.storage.getDirectory();
    return (await (await folder.getFileHandle(name)).getFile()).text();
  }, file);
  const result = parseDesign(text);
  return result.ok ? result.design.name : null;
}

test('a design is saved to the file that it came from, and as another file from then on', async () => {
  const page = await openWithPickers();
  await page.keyboard.press('Control+o');
  await expect.poll(() => nameOf(page)).toBe('On the disk');
  await page.locator('.design-name').fill('Changed');
  await page.keyboard.press('Control+s');
  await page.getByText('Saved to on-disk.json.').waitFor();
  expect(await onDisk(page, 'on-disk.json')).toBe('Changed');
  expect(await counted(page, 'saves')).toBe(0);
  await page.locator('.said').waitFor({ state: 'hidden' });
  // Closed without choosing: nothing is saved, nothing is said.
  await page.locator('.design-name').fill('Changed again');
  await pick(page, null);
  await page.keyboard.press('Control+Shift+s');
  await expect.poll(() => counted(page, 'saves')).toBe(1);
  expect(await onDisk(page, 'on-disk.json')).toBe('Changed');
  await pick(page, 'other.json');
  await page.getByRole('button', { name: 'Designs', exact: true }).click();
  await page.getByRole('button', { name: /^Save as another file/ }).click();
  await page.getByText('Saved to other.json.').waitFor();
  await page.locator('.design-name').fill('Once more');
  await page.keyboard.press('Control+s');
  await expect.poll(() => onDisk(page, 'other.json')).toBe('Once more');
  expect(await onDisk(page, 'on-disk.json')).toBe('Changed');
  // Another design knows nothing of that file.
  await page.keyboard.press('Escape');
  await pick(page, 'third.json');
  await openDesign(page, fourRings({ name: 'New' }));
  await page.keyboard.press('Control+s');
  await page.getByText('Saved to third.json.').waitFor();
  expect(await onDisk(page, 'other.json')).toBe('Once more');
});

test('a file that something else has written since is not overwritten', async () => {
  const page = await openWithPickers();
  await page.keyboard.press('Control+o');
  await expect.poll(() => nameOf(page)).toBe('On the disk');
  await page.locator('.design-name').fill('Mine');
  await page.evaluate(
    async (text) => {
      const folder = await navigator.storage.getDirectory();
      await new Promise((resolve) => setTimeout(resolve, 20));
      const stream = await (await folder.getFileHandle('on-disk.json')).createWritable();
      await stream.write(text);
      await stream.close();
    },
    serializeDesign(fourRings({ name: 'Theirs' })),
  );
  await page.keyboard.press('Control+s');
  await page.getByText(/^on-disk\.json was changed by something else since\. Nothing was saved/).waitFor();
  expect(await onDisk(page, 'on-disk.json')).toBe('Theirs');
  expect(await nameOf(page)).toBe('Mine');
});

test('a writing that fails is said, and leaves the file as it was', async () => {
  const page = await openWithPickers();
  await page.keyboard.press('Control+o');
  await expect.poll(() => nameOf(page)).toBe('On the disk');
  await page.evaluate(() => {
    FileSystemWritableFileStream.prototype.write = () => Promise.reject(new Error('the disk is full'));
  });
  await page.locator('.design-name').fill('Too much');
  await page.keyboard.press('Control+s');
  await page.getByText('The file was not saved: the disk is full').waitFor();
  expect(await onDisk(page, 'on-disk.json')).toBe('On the disk');
});

test('a file is opened by dropping it on the window; a bad one changes nothing', async () => {
  const page = await openStarted();
  const drop = (text: string) =>
    page.evaluate((content) => {
      const data = new DataTransfer();
      data.items.add(new File([content], 'dropped.json', { type: 'application/json' }));
      const over = new DragEvent('dragover', { dataTransfer: data, bubbles: true, cancelable: true });
      const dropped = new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true });
      document.querySelector('.stage')!.dispatchEvent(over);
      document.querySelector('.stage')!.dispatchEvent(dropped);
      // Not taken, the browser would leave the app for the file.
      return over.defaultPrevented && dropped.defaultPrevented;
    }, text);
  expect(await drop(serializeDesign(fourRings({ name: 'Dropped' })))).toBe(true);
  await expect.poll(() => nameOf(page)).toBe('Dropped');
  expect(await drop('{"format":"kerfweave-design"')).toBe(true);
  await page.getByRole('heading', { name: 'Not opened' }).waitFor();
  await page.keyboard.press('Escape');
  expect(await nameOf(page)).toBe('Dropped');
});

test('without pickers a design is downloaded, and the file says what it does not hold', async () => {
  const page = await openStarted();
  // Asked for before anything else, because the browser takes a moment to hand choosers over.
  const chooser = page.waitForEvent('filechooser');
  await page.evaluate(() => {
    Reflect.deleteProperty(window, 'showSaveFilePicker');
    Reflect.deleteProperty(window, 'showOpenFilePicker');
  });
  await page.waitForTimeout(500);
  await page.keyboard.press('Control+o');
  const text = serializeDesign(fourRings({ name: 'Chosen' }));
  await (await chooser).setFiles({ name: 'a.json', mimeType: 'application/json', buffer: Buffer.from(text) });
  await expect.poll(() => nameOf(page)).toBe('Chosen');
  const saving = page.waitForEvent('download');
  await page.keyboard.press('Control+s');
  const saved = await saving;
  expect(saved.suggestedFilename()).toBe('chosen.kerfweave.json');
  expect(await readFile(await saved.path(), 'utf8')).toBe(text);
  // Of several variants a file holds the one that is edited; a link holds them all.
  const variants = ['Low', 'High'].map((name) => ({ name, design: fourRings({ name: 'Pair' }) }));
  const link = makeLink({ variants, active: 1 });
  if (!link.ok) throw new Error(link.message);
  await page.evaluate((fragment) => (window.location.hash = fragment), link.fragment);
  await page.locator('.window[data-station=show]').waitFor();
  const second = page.waitForEvent('download');
  await page.keyboard.press('Control+s');
  expect((await second).suggestedFilename()).toBe('pair.kerfweave.json');
  await page.getByText('The file holds High alone; a link holds every variant.').waitFor();
});
