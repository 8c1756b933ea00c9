import { createHash, randomUUID } from 'node:crypto';
import { createWriteStream, statSync } from 'node:fs';
import { join } from 'node:path';
import { Writable } from 'node:stream';
import { newWork } from '@halflight/files';
import { writeDossier, writeShelfFile } from '@halflight/files/dossier';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { house, secondTab } from '../house/app.ts';
import { folder } from '../house/pictures.ts';
import { notesOf } from '../house/steps.ts';

const WORKS = Number(process.env.HALFLIGHT_WORKS ?? 200);
const files = folder();
const app = house();
const hashOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** A painting of 8 megapixels as JPEG; its trailing bytes make each copy another file of the same size. */
async function painting(): Promise<Buffer> {
  const [width, height] = [3464, 2310];
  const data = Buffer.alloc(3 * width * height);
  let state = 7;
  for (let p = 0; p < width * height; p++) {
    const [x, y] = [(p % width) / width, p / width / height];
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    const grain = (24 * state) / 2 ** 32;
    data.set([60 + 90 * x + grain, 70 + 70 * y + grain, 150 - 60 * y + grain], 3 * p);
  }
  return sharp(data, { raw: { width, height, channels: 3 } })
    .jpeg({ quality: 80 })
    .toBuffer();
}

async function shelfFile(path: string): Promise<void> {
  const plain = await painting();
  async function* parts() {
    for (let k = 0; k < WORKS; k++) {
      const bytes = Buffer.concat([plain, Buffer.from(`\n${k}`)]);
      const small = await sharp({
        create: {
          width: 320,
          height: 213,
          channels: 3,
          background: { r: (k * 37) % 256, g: (k * 91) % 256, b: 120 },
        },
      })
        .composite([
          {
            input: await sharp(plain)
              .resize(300, 190, { fit: 'fill' })
              .modulate({ hue: 7 * k })
              .toBuffer(),
          },
        ])
        .webp()
        .toBuffer();
      const finding = {
        key: 'value.flat',
        text: `Lights and darks stand ${k} steps apart, where this mood wants more.`,
      };
      const readings = Buffer.from(
        JSON.stringify({ schema: 'halflight/check@1', findings: [finding], of: k }),
      );
      const things = [
        { bytes, mediaType: 'image/jpeg' },
        { bytes: small, mediaType: 'image/webp' },
        { bytes: readings, mediaType: 'application/json' },
      ];
      const [hash, thumb, read] = things.map((thing) => hashOf(thing.bytes));
      const work = newWork(randomUUID(), `Landing ${k + 1}`, {
        number: 1,
        name: `landing-${k + 1}.jpg`,
        hash,
        bytes: bytes.length,
        mediaType: 'image/jpeg',
        width: 3464,
        height: 2310,
        depth: 8,
        profile: 'sRGB',
        tagged: false,
        added: new Date(Date.UTC(2026, 0, 1 + k)).toISOString(),
        small: thumb,
        readings: read,
      });
      yield {
        name: work.title,
        write: async (sink: WritableStream<Uint8Array>) => {
          const all = things.map((thing) => ({
            hash: hashOf(thing.bytes),
            bytes: thing.bytes.length,
            mediaType: thing.mediaType,
            open: () => new Blob([new Uint8Array(thing.bytes)]).stream() as ReadableStream<Uint8Array>,
          }));
          await writeDossier(sink, { work, things: all, writer: 'measure', written: work.created });
        },
      };
    }
  }
  const sink = Writable.toWeb(createWriteStream(path)) as WritableStream<Uint8Array>;
  await writeShelfFile(sink, parts(), new Date().toISOString());
}

interface Traced {
  readonly name: string;
  readonly pid: number;
  readonly tid: number;
  readonly tdur?: number;
  readonly args?: { readonly name?: string };
}

test(`two tabs, ${WORKS} works of 8 megapixels: the shelf scrolls without a long task`, async () => {
  const path = join(files.path, 'shelf.zip');
  await shelfFile(path);
  const first = await app.open();
  await first.page.locator('.empty').waitFor();
  const began = Date.now();
  await first.page.locator('input[type=file]').first().setInputFiles(path);
  await expect.poll(() => first.page.locator('.row').count(), { timeout: 1_200_000 }).toBe(WORKS);
  console.log(
    `${Math.round(statSync(path).size / 1e6)} MB brought in within ${Math.round((Date.now() - began) / 1000)} s`,
  );

  // The other tab has one of the works open and writes it all the time.
  const other = await secondTab(first, app.address);
  await other.locator('.row-open').first().click();
  await notesOf(other);
  const writing = setInterval(() => {
    void other
      .evaluate(() => {
        const states = document.querySelector<HTMLSelectElement>('[aria-label="State of this work"]');
        if (states === null) return;
        const write = Object.getOwnPropertyDescriptor(HTMLSelectElement.prototype, 'value')?.set;
        write?.call(states, states.value === 'painting' ? 'editing' : 'painting');
        states.dispatchEvent(new Event('change', { bubbles: true }));
      })
      .catch(() => undefined);
  }, 1000);

  const { page } = first;
  await page.bringToFront();
  await page.evaluate(() => {
    const long: { from: string; ms: number }[] = [];
    Object.assign(window, { long, doing: '' });
    new PerformanceObserver((list) => {
      const from = (window as unknown as { doing: string }).doing;
      long.push(...list.getEntries().map(({ duration }) => ({ from, ms: duration })));
    }).observe({ type: 'longtask' });
  });
  const browser = app.browser();
  /** The longest tasks of any page's own thread, by processor time: a busy machine lengthens the others. */
  const traced = async (): Promise<string> => {
    const { traceEvents } = JSON.parse((await browser.stopTracing()).toString()) as { traceEvents: Traced[] };
    const mains = new Set(
      traceEvents
        .filter(({ args }) => args?.name === 'CrRendererMain')
        .map(({ pid, tid }) => `${pid} ${tid}`),
    );
    const tasks = traceEvents.filter(
      ({ name, tdur, pid, tid }) => /RunTask/.test(name) && tdur !== undefined && mains.has(`${pid} ${tid}`),
    );
    const ms = tasks.map(({ tdur = 0 }) => tdur / 1000).sort((a, b) => b - a);
    return `${tasks.length} tasks, ${ms.filter((it) => it > 50).length} over 50 ms; longest ${ms.slice(0, 5).map((it) => it.toFixed(1))}`;
  };
  const doing = (what: string) => page.evaluate((it) => Object.assign(window, { doing: it }), what);
  for (let round = 0; round < 3; round++) {
    await browser.startTracing(page, { categories: ['toplevel', 'devtools.timeline', '__metadata'] });
    await doing('scrolling');
    await page.mouse.move(500, 500);
    for (let k = 0; k < 60; k++) {
      await page.mouse.wheel(0, 700);
      await page.waitForTimeout(50);
    }
    for (let k = 0; k < 60; k++) {
      await page.mouse.wheel(0, -700);
      await page.waitForTimeout(50);
    }
    await doing('finding');
    await page.getByLabel('Find').pressSequentially('landing 17', { delay: 60 });
    await page.waitForTimeout(300);
    await page.getByLabel('Find').fill('');
    await doing('sorting');
    await page.getByLabel('In the order of').selectOption('title');
    await page.waitForTimeout(300);
    await page.getByLabel('In the order of').selectOption('touched');
    await page.waitForTimeout(300);
    await doing('resting');
    await page.waitForTimeout(2000);
    const { long, frames } = await page.evaluate(() => {
      const { long } = window as unknown as { long: { from: string; ms: number }[] };
      return { long: long.splice(0), frames: document.querySelectorAll('.row').length };
    });
    const worst = (from: string) => {
      const all = long.filter((task) => task.from === from).map(({ ms }) => ms);
      return `${from} ${all.length} (at most ${Math.max(0, ...all)} ms)`;
    };
    const all = ['scrolling', 'finding', 'sorting', 'resting'].map(worst).join(', ');
    console.log(`round ${round + 1}: ${frames} rows; long tasks by the clock: ${all}`);
    console.log(`  by processor time: ${await traced()}`);
  }
  clearInterval(writing);
});
