import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import { type Browser, chromium } from 'playwright-core';
import type { Figure } from './figure.ts';

const COMMAND = fileURLToPath(new URL('../../packages/cli/bin/halflight.js', import.meta.url));

/** Serves the built app, opens a browser, measures, and puts both away; no figures where no browser is named. */
export async function inServedApp(
  measure: (browser: Browser, address: string) => Promise<Figure[]>,
): Promise<Figure[]> {
  const executablePath = process.env.CHROME_PATH;
  if (!executablePath) {
    console.error('No browser is named in CHROME_PATH: its rows are left out.');
    return [];
  }
  const host = spawn(process.execPath, [COMMAND, 'app', '--port', '0'], {
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox'] });
  try {
    const [line] = await once(host.stdout, 'data');
    return await measure(browser, /http\S+/.exec(String(line))![0]);
  } finally {
    await browser.close();
    host.kill();
  }
}
