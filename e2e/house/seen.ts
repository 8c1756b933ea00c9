import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import pixelmatch from 'pixelmatch';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { expect } from 'vitest';

const SEEN = fileURLToPath(new URL('../tests/seen/', import.meta.url));
/** Where what differs is put for a look. */
const DIFFERENT = join(tmpdir(), 'halflight-seen');
/** Pixels that may differ in any square of this side: single ones at the rims of letters, never a line or a word. */
const SIDE = 40;
const MOST = 24;

/** Holds screens against their pictures from the same major version of the browser. */
export interface Album {
  /** True when there are pictures of this browser to hold against, or when they are being made. */
  readonly known: boolean;
  hold(page: Page, name: string): Promise<void>;
  /** The same for a picture of a page at rest that another driver took. */
  holdPicture(now: Buffer, name: string): Promise<void>;
}

/**
 * Opens the album of a browser. `SEEN=renew` in the environment writes its pictures anew; without pictures of this
 * version nothing is compared, and the caller says so.
 */
export function album(browser: string, version: string): Album {
  const folder = `${SEEN}${browser}-${version.split('.')[0]}/`;
  const renew = process.env.SEEN === 'renew';
  return {
    known: renew || existsSync(folder),
    hold: async (page, name) => holdPicture(await still(page), name),
    holdPicture,
  };

  async function holdPicture(now: Buffer, name: string): Promise<void> {
    const file = `${folder}${name}.png`;
    if (renew) {
      mkdirSync(folder, { recursive: true });
      writeFileSync(file, now);
      return;
    }
    expect(existsSync(file), `${name} has no picture yet: SEEN=renew makes it`).toBe(true);
    expect({ name, different: await difference(name, readFileSync(file), now) }).toEqual({
      name,
      different: 'nothing',
    });
  }
}

/** A picture of the page at rest, without a pointer, a caret or a focus to blink. */
async function still(page: Page): Promise<Buffer> {
  await page.mouse.move(0, 0);
  await page.evaluate(async () => {
    (document.activeElement as HTMLElement | null)?.blur();
    document.querySelector('.margin-body')?.scrollTo({ top: 0, behavior: 'instant' });
    await document.fonts.ready;
    await Promise.all([...document.images].map((image) => image.decode().catch(() => undefined)));
  });
  // Until two pictures in a row are the same: the sharp part of the painting and the last veil come in late.
  let before = await shot(page);
  for (let tries = 0; tries < 20; tries++) {
    await page.waitForTimeout(250);
    const now = await shot(page);
    if (now.equals(before)) return sharp(now).png({ compressionLevel: 9, effort: 10 }).toBuffer();
    before = now;
  }
  return before;
}

/** What a machine's disk holds is its own. */
const shot = (page: Page): Promise<Buffer> =>
  page.screenshot({
    animations: 'disabled',
    caret: 'hide',
    mask: [page.getByText(/browser’s store holds/)],
    maskColor: '#393939',
  });

async function difference(name: string, before: Buffer, now: Buffer): Promise<string> {
  const [a, b] = await Promise.all([raw(before), raw(now)]);
  const { width, height } = a.info;
  if (width !== b.info.width || height !== b.info.height) return `${b.info.width} × ${b.info.height} pixels`;
  const map = new Uint8Array(a.data.length);
  const worst = pixelmatch(a.data, b.data, map, width, height, { windowSize: SIDE });
  if (worst <= MOST) return 'nothing';
  mkdirSync(DIFFERENT, { recursive: true });
  writeFileSync(join(DIFFERENT, `${name}.png`), now);
  await sharp(map, { raw: { width, height, channels: 4 } }).toFile(join(DIFFERENT, `${name}.difference.png`));
  return `${worst} pixels of one square; see ${DIFFERENT}`;
}

const raw = (png: Buffer) => sharp(png).ensureAlpha().raw().toBuffer({ resolveWithObject: true });
