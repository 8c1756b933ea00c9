import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { house } from '../house/app.ts';
import { folder, motley } from '../house/pictures.ts';
import { DIST } from '../house/server.ts';
import { goTo, openPicture } from '../house/steps.ts';

const files = folder();
const ferry = await files.picture('ferry.png', motley);
const app = house();

/** Sizes after gzip of what a first load fetches before the codec, by path. */
async function firstLoad(): Promise<Record<string, number>> {
  const { page, context } = await app.open();
  await page.locator('.empty').waitFor();
  // The page does not know what its workers fetch; the browser does.
  const paths: string[] = [];
  context.on('request', (request) => paths.push(new URL(request.url()).pathname.slice(1)));
  await page.reload();
  await page.locator('.empty').waitFor();
  await expect.poll(() => paths.some((path) => path.includes('picture.worker'))).toBe(true);
  await page.waitForLoadState('networkidle');
  const own = [...new Set(['index.html', ...paths])].filter(
    (path) => path !== '' && !/(?:^|\/)vips/.test(path) && !path.startsWith('demo/'),
  );
  return Object.fromEntries(
    own.map((path) => {
      const bytes = readFileSync(join(DIST, path));
      return [path, path.endsWith('.woff2') ? bytes.length : gzipSync(bytes).length];
    }),
  );
}

test('the first load is at most 250 kB after gzip, the codec apart', async () => {
  const sizes = await firstLoad();
  const total = Object.values(sizes).reduce((sum, size) => sum + size, 0);
  console.log(`first load: ${Math.round(total / 1000)} kB`, sizes);
  expect(total).toBeLessThanOrEqual(250_000);
});

describe('the policy', () => {
  test('the page works under it, and under Trusted Types', async () => {
    const { page, complaints } = await app.open();
    await openPicture(page, ferry);
    // After a pause: the debugger itself may turn text into script, what runs later may not.
    const tried = await page.evaluate(async () => {
      await new Promise((later) => setTimeout(later, 10));
      const outcomes: string[] = [];
      const tryTo = (name: string, act: () => void): void => {
        try {
          act();
          outcomes.push(`${name}: allowed`);
        } catch {
          outcomes.push(`${name}: refused`);
        }
      };
      tryTo('text as script', () => new Function('return 1'));
      tryTo('text as HTML', () => {
        document.createElement('div').innerHTML = '<b>x</b>';
      });
      tryTo('a worker from elsewhere', () => new Worker('https://example.invalid/x.js'));
      return outcomes;
    });
    expect(tried).toEqual([
      'text as script: refused',
      'text as HTML: refused',
      'a worker from elsewhere: refused',
    ]);
    complaints.length = 0;
  });
});

test('nothing in the build comes from elsewhere or carries text to be run', () => {
  const html = readFileSync(join(DIST, 'index.html'), 'utf8');
  expect(html).not.toMatch(/<script(?![^>]*\bsrc=)[^>]*>|\bon\w+=|style=/);
  expect([...html.matchAll(/(?:src|href)="([^"]+)"/g)].map(([, address]) => address)).toSatisfy(
    (list: string[]) => list.every((address) => address.startsWith('./')),
  );
});

test('around the picture there are only neutral greys', () => {
  const styles = readdirSync(join(DIST, 'assets')).filter((name) => name.endsWith('.css'));
  const css = styles.map((name) => readFileSync(join(DIST, 'assets', name), 'utf8')).join('\n');
  const hexes = [...css.matchAll(/#([0-9a-f]{3,8})\b/gi)].map(([, hex]) => hex.toLowerCase());
  expect(hexes.length).toBeGreaterThan(10);
  for (const hex of hexes) {
    const digits =
      hex.length < 6 ? [...hex].slice(0, 3) : [hex.slice(0, 2), hex.slice(2, 4), hex.slice(4, 6)];
    expect(new Set(digits).size, hex).toBe(1);
  }
  expect(css).not.toMatch(/gradient\(|box-shadow|text-shadow|hsl\(|oklch\(/);
});

test('the page never blocks for long while a picture is read', async () => {
  const { page } = await app.open();
  await page.locator('.empty').waitFor();
  await page.evaluate(() => {
    const long: number[] = [];
    Object.assign(window, { long });
    new PerformanceObserver((list) =>
      long.push(...list.getEntries().map(({ duration }) => duration)),
    ).observe({
      type: 'longtask',
    });
  });
  await openPicture(page, ferry);
  await goTo(page, 'intent');
  await goTo(page, 'check');
  const long = await page.evaluate(() => (window as unknown as { long: number[] }).long);
  // Reading takes seconds; a task on the page's own thread that long would mean it was done there.
  expect(Math.max(0, ...long)).toBeLessThan(700);
});

test('every file of the build is kept for use without a network', () => {
  const worker = readFileSync(join(DIST, 'sw.js'), 'utf8');
  const list = readdirSync(DIST, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(DIST.length))
    .filter(
      (name) =>
        !name.startsWith('types/') && name !== 'sw.js' && name !== 'headers.json' && !name.endsWith('.map'),
    );
  for (const name of list) expect(worker, name).toContain(name);
  expect(statSync(join(DIST, 'sw.js')).size).toBeLessThan(20_000);
});
