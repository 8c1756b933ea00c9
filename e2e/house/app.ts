import {
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  chromium,
  type Page,
} from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect } from 'vitest';
import { type Host, type HostOptions, host } from './server.ts';

const ARGS = [
  '--headless=new',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** How the browser that is there is started. */
export function launchOptions() {
  return { executablePath: process.env.CHROME_PATH ?? '/usr/bin/chromium', args: ARGS };
}

/** A page with the app, and what happened in it. */
export interface App {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Complaints of the browser's console and errors of scripts. */
  readonly complaints: string[];
}

export interface House {
  readonly address: string;
  browser(): Browser;
  /** Opens the app in a fresh profile; `keep` leaves it open for the tests that follow in the same file. */
  open(options?: BrowserContextOptions & { path?: string; keep?: boolean }): Promise<App>;
}

/** Everything that was asked of any network in a file of tests. */
const requests: string[] = [];

/**
 * Gives a file of tests its host and browser. After every test: no request went beyond the host, and no
 * script failed. Complaints that a test expects are taken off the list by it.
 */
export function house(options: HostOptions = {}): House {
  let server: Host;
  let browser: Browser;
  let apps: App[] = [];
  const kept: App[] = [];

  beforeAll(async () => {
    server = await host(options);
    browser = await chromium.launch(launchOptions());
  });
  afterEach(async () => {
    const complaints = [...apps, ...kept].flatMap((app) => app.complaints.splice(0));
    await Promise.all(apps.map((app) => app.context.close()));
    apps = [];
    expect(complaints).toEqual([]);
    const origin = new URL(server.address).origin;
    expect(requests.splice(0).filter((url) => !inOrigin(url, origin))).toEqual([]);
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });

  return {
    get address() {
      return server.address;
    },
    browser: () => browser,
    open: async ({ path = '', keep = false, ...contextOptions } = {}) => {
      const context = await browser.newContext({
        viewport: { width: 1440, height: 900 },
        // Every fresh profile would store the whole app for use without a network; tests of that ask for it.
        serviceWorkers: 'block',
        ...contextOptions,
      });
      context.on('request', (request) => requests.push(request.url()));
      const page = await context.newPage();
      const app: App = { page, context, complaints: [] };
      listen(app, page);
      (keep ? kept : apps).push(app);
      await page.goto(server.address + path);
      return app;
    },
  };
}

/** Another tab of the same profile. */
export async function secondTab(app: App, address: string): Promise<Page> {
  const page = await app.context.newPage();
  listen(app, page);
  await page.goto(address);
  return page;
}

function listen(app: App, page: Page): void {
  page.on('console', (message) => {
    if (message.type() === 'error') app.complaints.push(message.text());
  });
  page.on('pageerror', (error) => app.complaints.push(String(error)));
}

function inOrigin(url: string, origin: string): boolean {
  return url.startsWith(origin) || url.startsWith(`blob:${origin}`) || url.startsWith('data:');
}
