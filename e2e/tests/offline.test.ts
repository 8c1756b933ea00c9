import { describe, expect, test } from 'vitest';
import { type App, house } from '../house/app.ts';
import { folder, motley } from '../house/pictures.ts';
import { notesOf, openPicture } from '../house/steps.ts';

const files = folder();
const ferry = await files.picture('ferry.png', motley);
const deep = await files.picture('deep.tif', motley, (it) =>
  it.toColourspace('rgb16').tiff({ compression: 'lzw' }),
);

/** Waits until the service worker has everything and answers for the page. */
async function installed(page: App['page']): Promise<void> {
  await expect
    .poll(() =>
      page.evaluate(async () => {
        const registration = await navigator.serviceWorker.getRegistration();
        return registration?.active?.state === 'activated' && navigator.serviceWorker.controller !== null;
      }),
    )
    .toBe(true);
}

describe('on a host that sends the headers', () => {
  const app = house({ demo: { 'ferry-landing-1.png': ferry } });

  test('after the first visit everything works without a network', async () => {
    const { page, context, complaints } = await app.open({ serviceWorkers: 'allow' });
    await page.getByRole('button', { name: 'Open Ferry landing, version 1' }).click();
    await notesOf(page);
    // All of the first visit is kept, the demo as well, though the worker came after it.
    await installed(page);
    await context.setOffline(true);
    await page.reload();
    await notesOf(page);
    expect(await page.evaluate(() => crossOriginIsolated)).toBe(true);
    await openPicture(page, deep);
    await page.getByRole('heading', { name: 'Ferry landing · version 2' }).waitFor();
    await page.goto(`${app.address}#/`);
    await page.locator('.row').first().waitFor();
    await page.getByRole('button', { name: 'Open Ferry landing, version 1' }).click();
    await notesOf(page);
    await context.setOffline(false);
    complaints.length = 0;
  });

  test('it can be installed: name, icons and start lie in the app’s own folder', async () => {
    const { page } = await app.open({ serviceWorkers: 'allow' });
    const manifest = await page.evaluate(async () => {
      const link = document.querySelector<HTMLLinkElement>('link[rel=manifest]')!;
      const json = (await (await fetch(link.href)).json()) as Record<string, unknown> & {
        icons: { src: string; sizes: string; type: string }[];
      };
      const icons = await Promise.all(
        json.icons.map(async ({ src, sizes, type }) => {
          const image = new Image();
          image.src = new URL(src, link.href).href;
          await image.decode();
          return {
            sizes,
            type,
            width: image.naturalWidth,
            fits: sizes === 'any' || sizes === `${image.naturalWidth}x${image.naturalHeight}`,
          };
        }),
      );
      return { ...json, icons };
    });
    expect(manifest).toMatchObject({
      name: 'Halflight',
      display: 'standalone',
      start_url: './',
      scope: './',
    });
    expect(manifest.icons.every(({ fits }) => fits)).toBe(true);
    expect(manifest.icons.some(({ width }) => width >= 512)).toBe(true);
  });
});

describe('on a plain static host, in a subfolder', () => {
  const app = house({ headers: false, folder: 'tools/half/' });

  test('one reload gives the headers, and everything is read in full', async () => {
    const { page } = await app.open({ serviceWorkers: 'allow' });
    await page.waitForFunction(() => crossOriginIsolated, undefined, { timeout: 40_000 });
    await openPicture(page, deep);
    await expect.poll(() => page.locator('.nearness').textContent()).toContain('16 bit');
    const policy = await page.evaluate(async () =>
      (await fetch('./index.html')).headers.get('content-security-policy'),
    );
    expect(policy).toContain("script-src 'self' 'wasm-unsafe-eval'");
  });

  test('without the service worker the browser reads what it can, and says what it can’t', async () => {
    const { page } = await app.open({ serviceWorkers: 'block' });
    await openPicture(page, ferry);
    await page.getByText('The browser’s own reader was used.').waitFor();
    await page.locator('input[type=file]').setInputFiles(deep);
    await page.getByRole('alert').getByText(/TIFF/).waitFor();
  });
});
