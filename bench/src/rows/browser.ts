import { outcomes } from '@halflight/cli';
import { OPEN_INTENT } from '@halflight/engine';
import type { Page } from 'playwright-core';
import type { Figure } from '../figure.ts';
import { noisyPicture, smallPicture } from '../pictures.ts';
import { inServedApp } from '../servedApp.ts';
import { race } from '../time.ts';

const WISH = { intent: OPEN_INTENT, baseline: null, limitMegapixels: 100, maps: null };

/** From giving the file to the app until its notes stand, against the same check in Node. */
export async function browserRows(): Promise<Figure[]> {
  const path = await noisyPicture();
  const small = await smallPicture();
  return inServedApp(async (browser, address) => {
    const page = await browser.newPage();
    await page.goto(address);
    const started = performance.now();
    await open(page, small);
    const first = performance.now() - started;
    const best = await race(3, {
      browser: async () => {
        await page.evaluate('location.hash = "#/"');
        await page.locator('.shelf').waitFor();
        await open(page, path);
      },
      node: async () => {
        for await (const outcome of outcomes([{ path, name: '' }], WISH))
          if ('trouble' in outcome) throw new Error(outcome.trouble.sentence);
      },
    });
    return [
      {
        what: 'whole check in the browser, PNG, 24 MP',
        value: best.browser,
        unit: 'ms',
        reference: { what: 'the same in Node', value: best.node },
        goal: 3,
      },
      { what: 'first notes in a new profile, 0.1 MP', value: first, unit: 'ms' },
    ];
  });
}

async function open(page: Page, path: string): Promise<void> {
  await page.locator('input[type=file]').first().setInputFiles(path);
  await page.locator('.notes-part[data-read]').waitFor({ timeout: 120_000 });
}
