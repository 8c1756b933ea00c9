import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { launch } from 'puppeteer-core';

/** What the walk asks of a browser: no more than every driver can do. */
export interface Driver {
  /** Name and version as the browser gives them. */
  readonly name: string;
  open(address: string): Promise<void>;
  /** Runs a function in the page, with plain values. */
  run<T>(act: (...values: string[]) => Promise<T> | T, ...values: string[]): Promise<T>;
  /** What the page shows, as PNG. */
  picture(): Promise<Buffer>;
  close(): Promise<void>;
}

function program(names: readonly string[]): string | null {
  const folders = (process.env.PATH ?? '').split(delimiter);
  return names.flatMap((name) => folders.map((folder) => join(folder, name))).find(existsSync) ?? null;
}

/** Debian's Firefox over WebDriver BiDi, which puppeteer speaks without a driver program beside it; null when it is not there. */
export const FIREFOX = process.env.FIREFOX_PATH ?? program(['firefox-esr', 'firefox']);
export const WEBKIT = process.env.WEBKIT_DRIVER ?? program(['WebKitWebDriver']);

export async function firefox(executablePath: string): Promise<Driver> {
  const browser = await launch({
    browser: 'firefox',
    executablePath,
    headless: true,
    defaultViewport: null,
    args: ['--width=1440', '--height=900'],
  });
  const page = await browser.newPage();
  page.setDefaultTimeout(120_000);
  return {
    name: await browser.version(),
    open: async (address) => void (await page.goto(address)),
    run: (act, ...values) => page.evaluate(act, ...values) as ReturnType<typeof act> as never,
    picture: async () => Buffer.from(await page.screenshot()),
    close: () => browser.close(),
  };
}

/** A screen in memory, which WebKitGTK can't do without. */
function virtualScreen(folder: string): { readonly display: Promise<string>; end(): void } {
  const server = spawn('Xvfb', ['-displayfd', '3', '-screen', '0', '1440x900x24', '-nolisten', 'tcp'], {
    cwd: folder,
    stdio: ['ignore', 'ignore', 'ignore', 'pipe'],
  });
  const display = new Promise<string>((resolve, reject) => {
    server.once('error', () => reject(new Error('WebKitGTK needs a screen: install xvfb, or set DISPLAY.')));
    server.stdio[3]?.once('data', (number) => resolve(`:${String(number).trim()}`));
  });
  return { display, end: () => void server.kill() };
}

/**
 * WebKitGTK by the driver that comes with it. No library drives it without a program of its own beside it, and the
 * walk asks for five commands of the W3C's WebDriver (https://www.w3.org/TR/webdriver2/).
 */
export async function webkit(program: string): Promise<Driver> {
  const home = mkdtempSync(join(tmpdir(), 'halflight-webkit-'));
  const screen = process.env.DISPLAY ? null : virtualScreen(home);
  const port = 4800 + (process.pid % 1000);
  // GTK waits long for a bus of its session where there is none.
  const bus = process.env.DBUS_SESSION_BUS_ADDRESS ? [] : ['dbus-run-session', '--'];
  const [command, ...rest] = [...bus, program, `--port=${port}`];
  const driver = spawn(command, rest, {
    stdio: 'ignore',
    // A group of its own, so that all that it starts ends with it.
    detached: true,
    // Root has no sandbox; a machine without a screen draws in memory.
    env: {
      ...process.env,
      HOME: home,
      XDG_DATA_HOME: home,
      ...(screen && { DISPLAY: await screen.display }),
      WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS: '1',
    },
  });
  const ask = async (method: string, path: string, body?: object): Promise<unknown> => {
    const response = await fetch(`http://127.0.0.1:${port}${path}`, {
      method,
      signal: AbortSignal.timeout(130_000),
      ...(body && { body: JSON.stringify(body), headers: { 'content-type': 'application/json' } }),
    });
    const { value } = (await response.json()) as { value: unknown };
    if (!response.ok) throw new Error(JSON.stringify(value).slice(0, 500));
    return value;
  };
  const end = (): void => {
    if (driver.pid) process.kill(-driver.pid);
    screen?.end();
    try {
      rmSync(home, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
    } catch {
      // The desktop's document portal may hold a folder in it a moment longer; it lies in the system's temporary place.
    }
  };
  try {
    for (let tries = 0; !(await ask('GET', '/status').catch(() => null)); tries++) {
      if (tries > 50) throw new Error('The WebKit driver does not answer.');
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
    const options = { binary: process.env.WEBKIT_BROWSER, args: ['--automation'] };
    const asked = process.env.WEBKIT_BROWSER ? { 'webkitgtk:browserOptions': options } : {};
    const { sessionId, capabilities } = (await ask('POST', '/session', {
      capabilities: { alwaysMatch: asked },
    })) as { sessionId: string; capabilities: { browserName: string; browserVersion: string } };
    const session = `/session/${sessionId}`;
    await ask('POST', `${session}/timeouts`, { script: 120_000, pageLoad: 120_000 });
    return {
      name: `${capabilities.browserName} ${capabilities.browserVersion}`,
      open: async (address) => void (await ask('POST', `${session}/url`, { url: address })),
      async run(act, ...values) {
        const script = `const all = [...arguments], done = all.pop();
          Promise.resolve().then(() => (${act})(...all)).then((value) => done({ value }), (error) => done({ error: String(error) }));`;
        const answer = (await ask('POST', `${session}/execute/async`, { script, args: values })) as {
          value?: never;
          error?: string;
        };
        if (answer.error !== undefined) throw new Error(answer.error);
        return answer.value as never;
      },
      picture: async () => Buffer.from((await ask('GET', `${session}/screenshot`)) as string, 'base64'),
      async close() {
        await ask('DELETE', session).catch(() => undefined);
        end();
      },
    };
  } catch (error) {
    end();
    throw error;
  }
}
