import { readFileSync } from 'node:fs';
import { checkLine, examine, makeViews, readingInput, takeCensus } from '@halflight/engine';
import { openCodec, readPicture } from '@halflight/files/node';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { house } from '../house/app.ts';
import { expectClean } from '../house/axe.ts';
import { hand } from '../house/hand.ts';
import { folder, paint } from '../house/pictures.ts';

const files = folder();
const NAMES = ['Ana Brook', 'Ben Oake', 'Cleo Marsh', 'Dov Linden', 'Edda Fjord', 'Finn Alder'];
const MORE = ['Greta Sund', 'Hugo Reed', 'Ida Quill', 'Jon Wick'];

/** A small evening: sky, water, and as many strong patches as it is told, lighter or darker. */
const evening = (place: number, patches: number) =>
  paint(240, 160, (x, y) => {
    const lift = 18 * place;
    if (y > 0.45 && y < 0.6 && Math.floor(x * 7) % 2 === 1 && Math.floor(x * 3.5) < patches)
      return [
        [230, 120, 30],
        [40, 170, 70],
        [190, 40, 150],
      ][Math.floor(x * 3.5) % 3];
    return y < 0.5 ? [30 + lift, 38 + lift, 86 + lift] : [24 + lift / 2, 34 + lift / 2, 70 + lift / 2];
  });

const works = await Promise.all(
  [...NAMES, ...MORE].map((name, place) =>
    files.picture(`${name} - Landing.png`, evening(place % 6, place % 4), (image) => image),
  ),
);
const cut = files.bytes('Kit Rowan - Cut off.png', readFileSync(works[0]).subarray(0, 900));
const phone = files.bytes('Lou Pine - Phone.heic', '\0\0\0\x18ftypheic\0\0\0\0mif1heic');
const index = files.bytes(
  'index.json',
  JSON.stringify([...works, cut, phone].map((path) => ({ file: path.split('/').at(-1) }))),
);
const demo = Object.fromEntries(
  [...works, cut, phone].map((path) => [`class/${path.split('/').at(-1)}`, path]),
);
const app = house({ demo: { ...demo, 'class/index.json': index } });

test('a class from the empty state to its pages', async () => {
  // The demo's class comes by one click.
  const other = await app.open();
  await other.page.getByRole('button', { name: 'Read a class' }).click();
  await other.page.getByRole('button', { name: 'take the class of twelve' }).click();
  await other.page.locator('[data-stop]').first().waitFor({ timeout: 120_000 });
  await other.context.close();

  const { page } = await app.open();
  await page.getByRole('button', { name: 'Read a class' }).click();
  await page.getByRole('button', { name: 'take the class of twelve' }).waitFor();
  await hand(page, 'drop', [...works, cut, phone]);
  await page.getByText('Twelve works are here; two could not be read.').waitFor({ timeout: 120_000 });
  await page.getByText(/Share it as JPEG instead/).waitFor();
  await page.getByText(/“Kit Rowan - Cut off.png” is damaged or cut off/).waitFor();
  await expect.poll(() => page.locator('[data-stop]').count()).toBe(10);

  // Arrow keys go from work to work on the plane; what is pointed at is told.
  const first = page.locator('[data-stop]').first();
  await first.focus();
  const visited = new Set<string | undefined>();
  for (const key of ['ArrowRight', 'ArrowUp', 'ArrowRight', 'ArrowDown']) {
    await page.keyboard.press(key);
    visited.add(await page.evaluate(() => (document.activeElement as HTMLElement).dataset.stop));
  }
  expect(visited.size).toBeGreaterThan(1);
  expect(visited.has(undefined)).toBe(false);

  // Against a shared intent everything is read again.
  await page.getByRole('button', { name: 'What was asked for is not written down.' }).click();
  await page.getByLabel('What was asked for, one sentence').fill('An evening in two hues.');
  await page.getByRole('button', { name: 'Decide its mood, light and hues' }).click();
  await page.getByRole('button', { name: 'melancholy', exact: true }).click();
  await page.getByRole('button', { name: 'Back to the class' }).click();
  await page.getByText('The mood is decided').waitFor();
  await expect.poll(() => page.locator('.class-reading').count(), { timeout: 120_000 }).toBe(0);
  await expect.poll(() => page.locator('.plane .meant').count()).toBeGreaterThan(0);

  // The first critique, by pointer: a finding with its outlines, then a pin that becomes praise.
  await page.getByLabel('How the works are shown').selectOption('list');
  await page.locator('[data-stop]', { hasText: 'Dov Linden' }).click();
  await page.locator('.stage canvas').waitFor();
  await dragFinding(page);
  await expect.poll(() => page.locator('.point-number').count()).toBeGreaterThan(0);
  const box = await stageBox(page);
  await page.mouse.click(box.x + box.width * 0.5, box.y + box.height * 0.3);
  await page.getByLabel('What to work on here').last().fill('The sky holds the evening together.');
  await page.getByRole('button', { name: 'something to work on' }).click();
  await page.getByRole('button', { name: 'Keep these words for others' }).click();
  await page.getByText(/words: .* when spoken\./).waitFor();
  await page.getByRole('button', { name: 'propose one and attach it' }).click();
  await page.getByText(/stands on the page as before and after/).waitFor({ timeout: 120_000 });
  await expectClean(page);

  // The second one, by the keyboard alone: a pin is set, moved, written with kept words; undo takes it back.
  await page.getByRole('button', { name: 'The next work' }).click();
  await page.getByRole('heading', { level: 1, name: 'Edda Fjord, “Landing”' }).waitFor();
  const stage = page.locator('.stage');
  await stage.focus();
  for (const key of ['ArrowRight', 'ArrowDown', 'Enter']) await page.keyboard.press(key);
  await page.getByLabel('Use kept words').selectOption({ index: 1 });
  const pin = page.locator('.point-number');
  const before = await pin.boundingBox();
  await pin.focus();
  await page.keyboard.press('Shift+ArrowRight');
  await expect.poll(async () => (await pin.boundingBox())!.x).toBeGreaterThan(before!.x + 10);
  await page.keyboard.press('Control+z');
  await expect.poll(async () => (await pin.boundingBox())!.x).toBeCloseTo(before!.x, 0);

  // Over a reload everything is there.
  await page.reload();
  await page.getByText('1. The sky holds the evening together.').waitFor();
  await page.getByRole('button', { name: 'the class', exact: true }).click();

  // The pages, in a fresh browser without a network.
  await page.getByRole('button', { name: 'A page for each to take home.' }).click();
  await page.getByText('These are works of others.').waitFor();
  await page.getByLabel('Each also as PDF, to print').check();
  const pages = await savedPages(page);
  expect(pages.size).toBe(22);
  const line = await readingLine(works[3]);
  await expect.poll(() => keptLine(page, 'Dov Linden')).toEqual(line);
  await openPages(pages);
});

async function stageBox(page: Page) {
  const box = await page.locator('.stage').boundingBox();
  if (box === null) throw new Error('The picture has no place.');
  return box;
}

/** Drags the outline of the first finding onto the picture. */
async function dragFinding(page: Page): Promise<void> {
  const from = await page.locator('.drag-outline').first().boundingBox();
  const to = await stageBox(page);
  await page.mouse.move(from!.x + 20, from!.y + 10);
  await page.mouse.down();
  await page.mouse.move(to.x + to.width / 2, to.y + to.height / 2, { steps: 4 });
  await page.mouse.up();
}

/** The pages as they come out of the ZIP, by their names. */
async function savedPages(page: Page): Promise<Map<string, Uint8Array>> {
  await page.evaluate(() => Object.assign(window, { showSaveFilePicker: undefined }));
  const [download] = await Promise.all([
    page.waitForEvent('download', { timeout: 120_000 }),
    page.getByRole('button', { name: 'save them as one ZIP' }).click(),
  ]);
  const path = files.bytes('pages.zip', '');
  await download.saveAs(path);
  return unzipped(readFileSync(path));
}

/** Files of a ZIP in which everything is stored (PKWARE APPNOTE 6.3: central directory headers). */
function unzipped(zip: Buffer): Map<string, Uint8Array> {
  const found = new Map<string, Uint8Array>();
  let at = zip.readUInt32LE(zip.lastIndexOf('PK\x05\x06', undefined, 'latin1') + 16);
  while (zip.readUInt32LE(at) === 0x02014b50) {
    const [size, name, extra, comment] = [
      zip.readUInt32LE(at + 20),
      zip.readUInt16LE(at + 28),
      zip.readUInt16LE(at + 30),
      zip.readUInt16LE(at + 32),
    ];
    const local = zip.readUInt32LE(at + 42);
    const start = local + 30 + zip.readUInt16LE(local + 26) + zip.readUInt16LE(local + 28);
    found.set(zip.toString('utf8', at + 46, at + 46 + name), zip.subarray(start, start + size));
    at += 46 + name + extra + comment;
  }
  return found;
}

/** What `check --json` says of the picture, against the same intent. */
async function readingLine(path: string): Promise<unknown> {
  const codec = await openCodec();
  const { raster, facts } = await readPicture(path, { codec });
  const input = readingInput({
    picture: facts,
    census: takeCensus(raster),
    views: makeViews(raster),
    intent: { schema: 'halflight/intent@1' },
  });
  const { readings } = examine(input);
  codec.close();
  const told = readings.map(({ id, reading: { value, evidence } }) => ({ id, value, evidence }));
  return numbersOf(checkLine({ picture: facts, readings: told, findings: [] }, raster.space));
}

/** What the app has kept of a work in the browser's store. */
async function keptLine(page: Page, who: string): Promise<unknown> {
  const line = await page.evaluate(async (name) => {
    let folder = await navigator.storage.getDirectory();
    for (const part of ['class', 'reading']) folder = await folder.getDirectoryHandle(part);
    for await (const handle of (
      folder as unknown as { values(): AsyncIterable<FileSystemFileHandle> }
    ).values()) {
      const text = await (await handle.getFile()).text();
      const { line = '' } = JSON.parse(text.slice(9)) as { line?: string };
      if (line.includes(name)) return line;
    }
    return '';
  }, who);
  return numbersOf(line);
}

/** All numbers of a line but those of the mood's distance, which belongs to the intent. */
function numbersOf(line: string): unknown {
  const { picture, readings } = JSON.parse(line) as {
    picture: unknown;
    readings: Record<string, Record<string, unknown>>;
  };
  const { distance: _distance, ...mood } = readings.mood;
  return { picture, readings: { ...readings, mood } };
}

async function openPages(pages: Map<string, Uint8Array>): Promise<void> {
  const context = await app.browser().newContext({ offline: true });
  const page = await context.newPage();
  const asked: string[] = [];
  page.on('request', (request) => asked.push(request.url()));
  const names = [...pages.keys()];
  for (const [name, bytes] of pages) files.bytes(name, bytes);
  for (const name of names.filter((it) => /^0[45].*html$|overview.html$/.test(it))) {
    await page.goto(`file://${files.path}/${encodeURIComponent(name)}`);
    await page.locator('h1').waitFor();
    expect(
      await page.evaluate(() => [...document.images].every(({ naturalWidth }) => naturalWidth > 0)),
    ).toBe(true);
    // Initials were asked for: whole names are nowhere, not in what is not shown either.
    expect(await page.content()).not.toMatch(/Dov Linden|Edda Fjord/);
    await expectClean(page);
  }
  await page.locator('a[href^="04"]').click();
  await page.getByText('The sky holds the evening together.').waitFor();
  expect(asked.filter((url) => !/^(file|data):/.test(url))).toEqual([]);
  const pdf = pages.get(names.find((it) => /^04.*pdf$/.test(it)) ?? '');
  expect(Buffer.from(pdf?.subarray(0, 5) ?? []).toString()).toBe('%PDF-');
  await context.close();
}
