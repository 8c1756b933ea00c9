import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import type { Figure } from '../figure.ts';
import { smallPicture } from '../pictures.ts';
import { inServedApp } from '../servedApp.ts';

const DIST = fileURLToPath(new URL('../../../packages/web/dist/', import.meta.url));

/** How long the app takes to stand, cold and warm, from a paste to the first notes; and what its parts weigh. */
export async function appRows(): Promise<Figure[]> {
  const inBrowser = await inServedApp(async (browser, address) => {
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    const stands = async (come: () => Promise<unknown>): Promise<number> => {
      const started = performance.now();
      await come();
      await page.locator('.empty').waitFor();
      return performance.now() - started;
    };
    const cold = await stands(() => page.goto(address));
    await page.waitForTimeout(3000);
    const warm = await stands(() => page.reload());
    await page.waitForTimeout(1000);
    const bytes = [...readFileSync(await smallPicture())];
    const pasting = performance.now();
    await page.evaluate((content) => {
      const data = new DataTransfer();
      data.items.add(new File([new Uint8Array(content)], 'pasted.png', { type: 'image/png' }));
      document.body.dispatchEvent(
        new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
      );
    }, bytes);
    await page.locator('.notes-part[data-read]').waitFor();
    const pasted = performance.now() - pasting;
    return [
      { what: 'the app stands, new profile', value: cold, unit: 'ms' },
      { what: '  again, from what is kept', value: warm, unit: 'ms' },
      { what: 'from a paste to its notes, 0.1 MP', value: pasted, unit: 'ms', goal: 3000 },
    ];
  });
  return [...inBrowser, ...weights()];
}

/** Parts of the app by their names, after gzip; what is loaded first has its limit in a test. */
function weights(): Figure[] {
  const parts = new Map<string, number>();
  for (const entry of readdirSync(DIST, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile() || entry.name.endsWith('.map') || entry.parentPath.includes('/types')) continue;
    if (!/\.(?:js|css|wasm|woff2)$/.test(entry.name)) continue;
    const content = readFileSync(`${entry.parentPath}/${entry.name}`);
    const size = entry.name.endsWith('.woff2') ? content.length : gzipSync(content).length;
    const name = entry.name.replace(/[-.][\w-]{8}\.(\w+)$/, '.$1');
    parts.set(name, (parts.get(name) ?? 0) + size);
  }
  return [...parts]
    .filter(([, size]) => size > 5000)
    .sort(([, a], [, b]) => b - a)
    .map(([name, size]) => ({ what: `  part “${name}”, gzipped`, value: size / 1000, unit: 'kB' }));
}
