import { createReadStream, existsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Browser, chromium } from 'playwright-core';
import { build } from 'vite';
import { HEADERS } from '../../../web/src/headers.ts';
import { vipsAssets } from '../../src/vite/vipsAssets.ts';
import type { Question } from './worker.ts';

const TYPES: Record<string, string> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.wasm': 'application/wasm',
};

export interface BrowserCodec {
  ask(question: Question): Promise<Record<string, unknown>>;
  /** Everything the browser complained about. */
  readonly complaints: string[];
  close(): Promise<void>;
}

/**
 * Builds the small page of this folder with the app's own plugin, serves it with the app's own headers (with
 * or without the two that allow shared memory) and opens it in a real browser.
 */
export async function openBrowserCodec(executablePath: string, isolated = true): Promise<BrowserCodec> {
  const out = await mkdtemp(join(tmpdir(), 'halflight-files-'));
  await build({
    configFile: false,
    logLevel: 'error',
    root: fileURLToPath(new URL('.', import.meta.url)),
    base: './',
    plugins: [vipsAssets()],
    resolve: { conditions: ['source', 'module', 'browser'] },
    worker: { format: 'es' },
    build: { outDir: out, target: 'es2022', emptyOutDir: true, modulePreload: { polyfill: false } },
  });
  const server = createServer((request, response) => {
    const path = new URL(request.url ?? '/', 'http://localhost').pathname;
    const file = join(out, path === '/' ? 'index.html' : path);
    if (!existsSync(file)) return response.writeHead(404).end();
    for (const [name, value] of Object.entries(HEADERS))
      if (isolated || !name.startsWith('Cross-Origin')) response.setHeader(name, value);
    response.setHeader('Content-Type', TYPES[extname(file)] ?? 'application/octet-stream');
    createReadStream(file).pipe(response);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const browser: Browser = await chromium.launch({ executablePath, args: ['--no-sandbox'] });
  const page = await browser.newPage();
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(String(error)));
  await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
  return {
    ask: (question) =>
      page.evaluate((q) => (globalThis as unknown as { ask(q: Question): Promise<never> }).ask(q), question),
    complaints,
    async close() {
      await browser.close();
      server.close();
      await rm(out, { recursive: true, force: true });
    },
  };
}
