/// <reference lib="dom" />
import type { Page } from 'playwright-core';
import type { Figure } from '../figure.ts';
import { inServedApp } from '../servedApp.ts';

const WORKS = 200;

/** A shelf of many works: until it stands, and the longest task of the page while it is scrolled from end to end. */
export async function shelfRows(): Promise<Figure[]> {
  return inServedApp(async (browser, address) => {
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    await page.goto(address);
    await page.locator('.empty').waitFor();
    await fillShelf(page, WORKS);
    const stands = await reloadShelf(page, WORKS);
    const longest = await scrollShelf(page);
    return [
      { what: `shelf of ${WORKS} works stands, from a reload`, value: stands, unit: 'ms' },
      { what: '  longest task while it is scrolled (0: under 50)', value: longest, unit: 'ms', goal: 50 },
    ];
  });
}

/** Loads the page anew, and gives the milliseconds until all works stand on the shelf. */
export async function reloadShelf(page: Page, works: number): Promise<number> {
  const started = performance.now();
  await page.reload();
  await page
    .locator('.row')
    .nth(works - 1)
    .waitFor({ state: 'attached' });
  const stands = performance.now() - started;
  // What the start still does behind the shelf is no part of what follows.
  await page.waitForTimeout(2000);
  return stands;
}

/** Writes lines with small pictures of their own into the shelf's index. */
export async function fillShelf(page: Page, works: number): Promise<void> {
  await page.evaluate(async (count) => {
    const opened = indexedDB.open('halflight');
    await new Promise((done) => opened.addEventListener('success', done));
    const store = () => opened.result.transaction('works', 'readwrite').objectStore('works');
    for (let i = 0; i < count; i++) {
      const canvas = new OffscreenCanvas(320, 200);
      const paint = canvas.getContext('2d')!;
      for (let y = 0; y < 200; y += 4) {
        paint.fillStyle = `rgb(${(i * 7 + y) % 200} ${(y * 3 + i) % 180} ${90 + ((i * y) % 90)})`;
        paint.fillRect(0, y, 320, 4);
      }
      const thumb = await canvas.convertToBlob({ type: 'image/webp' });
      const day = new Date(Date.UTC(2026, 0, 1 + i)).toISOString();
      const put = store().put({
        id: `bench-${i}`,
        title: `Harbour study ${i + 1}`,
        state: 'painting',
        version: 1,
        created: day,
        touched: day,
        topFinding: 'Darks are closed: 12 % of the picture has no room below.',
        openNotes: 1,
        thumb,
        hashes: [`bench-${i}`],
      });
      await new Promise((done) => put.addEventListener('success', done));
    }
    opened.result.close();
  }, works);
}

/** Scrolls through the whole list, a wheel's turn a frame; the longest task of the page in ms, 0 when all are short. */
export async function scrollShelf(page: Page): Promise<number> {
  return page.evaluate(async () => {
    let longest = 0;
    const watch = new PerformanceObserver((list) => {
      for (const { duration } of list.getEntries()) longest = Math.max(longest, duration);
    });
    watch.observe({ type: 'longtask' });
    const frame = (): Promise<void> => new Promise((next) => requestAnimationFrame(() => next()));
    const last = [...document.querySelectorAll('.row')].at(-1)!;
    let box = last.parentElement;
    while (box && box.scrollHeight <= box.clientHeight + 1) box = box.parentElement;
    const scroller = box ?? document.scrollingElement!;
    while (scroller.scrollTop + scroller.clientHeight < scroller.scrollHeight - 2) {
      scroller.scrollTop += 120;
      await frame();
    }
    await new Promise((later) => setTimeout(later, 200));
    watch.disconnect();
    return longest;
  });
}
