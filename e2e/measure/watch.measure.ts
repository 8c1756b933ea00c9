import { readFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { test } from 'vitest';
import { house } from '../house/app.ts';
import { folder } from '../house/pictures.ts';
import { openPicture } from '../house/steps.ts';

/** Saves that are timed, and the long side of the picture that is saved. */
const SAVES = Number(process.env.HALFLIGHT_SAVES ?? 6);
const SIDE = Number(process.env.HALFLIGHT_SIDE ?? 3464);
const files = folder();
const app = house();

/** A painting of soft masses with grain, a little further on at each save. */
async function saveOf(step: number): Promise<string> {
  const [width, height] = [SIDE, Math.round((SIDE * 2) / 3)];
  const data = Buffer.alloc(3 * width * height);
  let state = 7;
  for (let p = 0; p < width * height; p++) {
    const [x, y] = [(p % width) / width, p / width / height];
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    const wave = 30 * Math.sin(9 * x + 4 * y) * Math.sin(7 * y - 3 * x) + (12 * state) / 2 ** 32;
    const painted = Math.hypot(x - 0.1 * step - 0.1, y - 0.6) < 0.06 ? 40 : 0;
    data.set([60 + 90 * x + wave + painted, 70 + 70 * y + wave, 150 - 60 * y + wave - painted], 3 * p);
  }
  const png = await sharp(data, { raw: { width, height, channels: 3 } })
    .png({ compressionLevel: 3 })
    .toBuffer();
  return files.bytes(step === 0 ? 'ferry.png' : `ferry-${step}.png`, png);
}

const STAGES = [
  'Reading the file',
  'Counting',
  'Looking from',
  'Writing the notes',
  'Laying it on',
  'Asking it',
];

/** Writes the watched file and tells when what stood on the page after it, in milliseconds. */
async function timed(page: Page, path: string, version: number): Promise<[string, number][]> {
  const encoded = readFileSync(path).toString('base64');
  return page.evaluate(
    async ({ encoded, version, stages }) => {
      const bytes = Uint8Array.from(atob(encoded), (c) => c.charCodeAt(0));
      const handle = await (await navigator.storage.getDirectory()).getFileHandle('ferry.png', {
        create: true,
      });
      const stream = await handle.createWritable();
      await stream.write(bytes);
      await stream.close();
      const began = performance.now();
      const seen: [string, number][] = [];
      let done: () => void = () => undefined;
      const ended = new Promise<void>((resolve) => {
        done = resolve;
      });
      const look = () => {
        const text = document.body.textContent ?? '';
        for (const stage of [...stages, `version ${version}`])
          if (text.includes(stage) && !seen.some(([it]) => it === stage))
            seen.push([stage, Math.round(performance.now() - began)]);
        const hung = document.querySelector('h1')?.textContent?.endsWith(`version ${version}`);
        if (hung && document.querySelector('.notes-part[data-read]') !== null) {
          seen.push(['notes', Math.round(performance.now() - began)]);
          observer.disconnect();
          done();
        }
      };
      const observer = new MutationObserver(look);
      observer.observe(document.body, { subtree: true, childList: true, characterData: true });
      setTimeout(done, 60_000);
      await ended;
      return seen;
    },
    { encoded, version, stages: STAGES },
  );
}

test('from a save of the watched file to its notes', async () => {
  const { page } = await app.open();
  const start = await saveOf(0);
  await openPicture(page, start);
  const encoded = readFileSync(start).toString('base64');
  await page.evaluate(async (encoded) => {
    const bytes = Uint8Array.from(atob(encoded), (c) => c.charCodeAt(0));
    const handle = await (await navigator.storage.getDirectory()).getFileHandle('ferry.png', {
      create: true,
    });
    const stream = await handle.createWritable();
    await stream.write(bytes);
    await stream.close();
    Object.assign(window, { showOpenFilePicker: async () => [handle] });
  }, encoded);
  await page.getByRole('button', { name: 'Watch its file' }).click();
  await page.getByText('Every save of ferry.png is read.').waitFor();
  for (let k = 1; k <= SAVES; k++) {
    const path = await saveOf(k);
    const stages = await timed(page, path, k + 1);
    const words = stages.map(([stage, ms]) => `${stage} ${ms}`).join(', ');
    console.log(`save ${k} (load ${loadavg()[0].toFixed(1)} on ${cpus().length}): ${words}`);
  }
});
