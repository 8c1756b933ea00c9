import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium, type Page } from 'playwright-core';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { house, launchOptions } from '../house/app.ts';
import { folder, motley } from '../house/pictures.ts';
import { host } from '../house/server.ts';
import { goTo, note, notesOf, openNote, openPicture } from '../house/steps.ts';

const files = folder();
const ferry = await files.picture('ferry.png', motley, (image) => image.resize(300));
const app = house();
const DARKS = /Darks are closed/;

/** Lets the test reach the workers of the page: [picture or storage] in the order in which they were started. */
function reachWorkers(): void {
  const workers: Worker[] = [];
  Object.assign(window, { workers });
  window.Worker = class extends Worker {
    constructor(...all: ConstructorParameters<typeof Worker>) {
      super(...all);
      workers.push(this);
    }
  };
}

/** Ends the newest worker of a kind as browsers do when it crashes: without a word but the error event. */
const crash = (page: Page, kind: 'picture' | 'storage'): Promise<void> =>
  page.evaluate((name) => {
    const { workers, urls } = window as unknown as { workers: Worker[]; urls: string[] };
    const worker = workers[urls.findLastIndex((url) => url.includes(name))];
    worker.terminate();
    worker.dispatchEvent(new ErrorEvent('error', { cancelable: true }));
  }, kind);

test('faults are said, and what was decided stays', async () => {
  const { page, context } = await app.open();
  await page.addInitScript(reachWorkers);
  await page.addInitScript(() => {
    const urls: string[] = [];
    Object.assign(window, { urls });
    const reached = window.Worker;
    window.Worker = class extends reached {
      constructor(url: string | URL, options?: WorkerOptions) {
        super(url, options);
        urls.push(String(url));
      }
    };
  });
  await page.reload();
  await openPicture(page, ferry);
  await openNote(page, DARKS);
  await page.getByRole('button', { name: 'will do' }).click();
  await note(page, DARKS).getByText('You will do this').first().waitFor();

  // The part that reads pictures dies: it is started again and the work is open as it was.
  await crash(page, 'picture');
  await page.getByText('The part that reads pictures stopped and was started again.').waitFor();
  await notesOf(page);
  await note(page, DARKS).getByText('You will do this').first().waitFor();

  // The tab is frozen and comes back.
  const session = await context.newCDPSession(page);
  await session.send('Page.setWebLifecycleState', { state: 'frozen' });
  await page.waitForTimeout(300);
  await session.send('Page.setWebLifecycleState', { state: 'active' });
  await openNote(page, DARKS);
  if ((await page.locator('.note[data-open]').count()) === 0) await openNote(page, DARKS);
  await page.getByRole('button', { name: 'Take that back' }).click();
  await page.getByRole('button', { name: 'will do' }).waitFor();

  // The clock jumps back by three days: what is done next still comes after what was done before.
  await page.evaluate(() => {
    const now = Date.now;
    Date.now = () => now() - 3 * 86_400_000;
  });
  await page.getByRole('button', { name: 'meant so' }).click();
  await page.getByLabel('Meant so, because').fill('the night is black');
  await page.keyboard.press('Enter');
  await page.locator('summary', { hasText: 'answered' }).waitFor();
  // And on by a year: what is taken back now is taken back, and comes again.
  await page.evaluate(() => {
    const now = Date.now;
    Date.now = () => now() + 365 * 86_400_000;
  });
  await page.keyboard.press('Control+z');
  await page.locator('summary', { hasText: 'answered' }).waitFor({ state: 'detached' });
  await page.keyboard.press('Control+Shift+z');
  await page.locator('summary', { hasText: 'answered' }).waitFor();

  // The store's files go while the work is open: the next command brings the work back, without its picture.
  await page.evaluate(async () => {
    const root = await navigator.storage.getDirectory();
    for (const name of ['works', 'pictures']) await root.removeEntry(name, { recursive: true });
  });
  await page.locator('summary', { hasText: 'answered' }).click();
  await page.getByText('because the night is black').first().waitFor();
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Control+Shift+z');
  await page.getByText('because the night is black').first().waitFor({ state: 'attached' });
  await page.reload();
  await page.getByRole('alert').getByText('is no longer in this browser’s store').waitFor();
  await openPicture(page, ferry);
  await page.getByText('because the night is black').first().waitFor({ state: 'attached' });
  await goTo(page, 'shelf');
  await expect.poll(() => page.locator('.row').count()).toBe(1);

  // The part that keeps works dies: the page says so, and a reload goes on.
  await crash(page, 'storage');
  await page.getByText('The part that keeps works stopped unexpectedly.').first().waitFor();
  await page.reload();
  await page.locator('.row').waitFor();
});

test('memory that runs out in the decoder, and a watched file that goes away', async () => {
  const { page } = await app.open();
  // The worker gets no piece of memory above a megabyte, and is told so in the browser's own words.
  await page.route(/picture\.worker-[^/]*\.js$/, async (route) => {
    const response = await route.fetch();
    const poor = `const whole = self.Uint8Array;
      self.Uint8Array = new Proxy(whole, { construct(kind, given, target) {
        if (given[0] > 1e6) throw new RangeError('Array buffer allocation failed');
        return Reflect.construct(kind, given, target === self.Uint8Array ? kind : target);
      } });`;
    await route.fulfill({ response, body: `${poor}\n${await response.text()}` });
  });
  await page.reload();
  const vast = `${files.path}/vast.png`;
  await sharp({ create: { width: 1200, height: 1200, channels: 3, background: '#345' } })
    .png({ compressionLevel: 1 })
    .toFile(vast);
  await page.locator('input[type=file]').first().setInputFiles(vast);
  await page.getByRole('alert').getByText('There is not enough memory to read “vast.png”.').waitFor();
  await expect.poll(() => page.locator('.row').count()).toBe(0);
  await page.unrouteAll();
  await page.reload();
  await openPicture(page, ferry);
  await note(page, DARKS).waitFor();

  // The file that is watched is taken away while its work is open: the page says so, and reads it when it comes back.
  const write = (bytes: readonly number[]): Promise<void> =>
    page.evaluate(
      async (content) => {
        const file = await (await navigator.storage.getDirectory()).getFileHandle('ferry.png', {
          create: true,
        });
        const stream = await file.createWritable();
        await stream.write(new Uint8Array(content));
        await stream.close();
      },
      [...bytes],
    );
  const bytes = [...readFileSync(ferry)];
  await write(bytes);
  await page.evaluate(() => {
    Object.assign(window, {
      showOpenFilePicker: async () => [
        await (await navigator.storage.getDirectory()).getFileHandle('ferry.png'),
      ],
    });
  });
  await page.getByRole('button', { name: 'Watch its file' }).click();
  await page.getByText('Every save of ferry.png is read.').waitFor();
  await page.evaluate(async () => (await navigator.storage.getDirectory()).removeEntry('ferry.png'));
  await page.getByText('ferry.png can’t be reached: it is read when it comes back.').waitFor();
  await note(page, DARKS).waitFor();
  const other = await sharp(ferry).modulate({ brightness: 1.2 }).png().toBuffer();
  await write([...other]);
  await page.getByText('Every save of ferry.png is read.').waitFor();
  await page.getByRole('heading', { level: 1, name: 'Ferry · version 2' }).waitFor({ timeout: 60_000 });
});

test('a first start without its host, in a browser that was closed after the first visit', async () => {
  const profile = join(files.path, 'profile');
  const start = async (work: (page: Page) => Promise<void>): Promise<void> => {
    const browser = await chromium.launchPersistentContext(profile, launchOptions());
    await work(await browser.newPage()).finally(() => browser.close());
  };
  const server = await host();
  await start(async (page) => {
    await page.goto(server.address);
    const kept = () =>
      page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.active?.state);
    await expect.poll(kept, { timeout: 30_000 }).toBe('activated');
  }).finally(() => server.close());
  // Nothing listens at its address any more.
  await start(async (page) => {
    await page.goto(server.address);
    await page.locator('.empty').waitFor();
    await openPicture(page, ferry);
    expect(await page.evaluate(() => crossOriginIsolated)).toBe(true);
  });
});
