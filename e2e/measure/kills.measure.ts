import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type BrowserContext, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launchOptions } from '../house/app.ts';
import { folder, paint } from '../house/pictures.ts';
import { type Host, host } from '../house/server.ts';
import { notesOf } from '../house/steps.ts';

/** How often the tab is killed, and the seed of the moments. */
const KILLS = Number(process.env.HALFLIGHT_KILLS ?? 50);
let seed = Number(process.env.HALFLIGHT_SEED ?? 20261126);
const random = (): number => {
  seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
  return seed / 2 ** 32;
};
const COMMAND = fileURLToPath(new URL('../../packages/cli/bin/halflight.js', import.meta.url));

const files = folder();
let server: Host;
let context: BrowserContext;

/** When each title was given, by this clock. */
const given = new Map<number, number>();
let last = 0;
let killedAt = 0;
let taken = 0;

beforeAll(async () => {
  server = await host();
  const browser = await chromium.launch(launchOptions());
  context = await browser.newContext({ viewport: { width: 1440, height: 900 }, serviceWorkers: 'block' });
  await context.exposeBinding('given', (_, number: number) => void given.set(number, Date.now()));
});
afterAll(async () => {
  await context.browser()?.close();
  await server.close();
});

/** Strokes by chance on a ground: every round another picture of the same work. */
function strokes(round: number): ReturnType<typeof paint> {
  let state = 77;
  const chance = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  return paint(900, 600, (x, y) => {
    const grain = 60 * chance();
    const done = x < 0.01 * (round + 1) ? 40 : 0;
    return [60 + 80 * x + grain + done, 70 + 60 * y + grain, 120 - 40 * y + grain];
  });
}

/** Gives the open work one title after the other, as fast as its field allows, until the page ends. */
const rename = (page: Page, from: number): Promise<void> =>
  page.evaluate(async (start) => {
    const write = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')?.set;
    const frame = () => new Promise((done) => setTimeout(done, 10));
    for (let number = start; ; number++) {
      document.querySelector<HTMLElement>('h1 button')?.click();
      let field: HTMLInputElement | null = null;
      while (field === null) {
        await frame();
        field = document.querySelector('.title-field');
      }
      write?.call(field, `Ferry ${number}`);
      field.dispatchEvent(new Event('input', { bubbles: true }));
      await frame();
      field.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true }));
      (window as unknown as { given(number: number): void }).given(number);
      while (document.querySelector('.title-field')) await frame();
    }
  }, from);

/** Ends the tab's process as a fault of its own does, without a goodbye. */
async function kill(page: Page): Promise<number> {
  const session = await context.newCDPSession(page);
  const gone = new Promise<void>((done) => page.once('crash', () => done()));
  const at = Date.now();
  void session.send('Page.crash').catch(() => undefined);
  await gone;
  await page.close();
  return at;
}

test(`the tab is killed ${KILLS} times while it writes`, async () => {
  const lost: number[] = [];
  const kinds = { titles: 0, version: 0, work: 0 };
  let versions = 1;
  let works = 1;
  for (let round = 0; round <= KILLS; round++) {
    const page = await context.newPage();
    await page.goto(server.address);
    const input = page.locator('input[type=file]').first();
    if (round === 0) {
      const began = Date.now();
      await input.setInputFiles(await files.picture('ferry.png', strokes(0)));
      await notesOf(page);
      // How long a picture takes on this machine: kills fall into all of that time, and a little after.
      taken = Date.now() - began;
    } else {
      // The shelf and the work open, and what is missing was done in the last two seconds.
      await page.locator('.row').first().waitFor();
      const rows = await page.locator('.row').count();
      expect([works, works + 1]).toContain(rows);
      works = rows;
      await page.locator('.row-open', { hasText: 'Ferry' }).click();
      await notesOf(page);
    }
    const [, title, version] = /^Ferry ?(\d*) · version (\d+)$/.exec(
      (await page.locator('h1').textContent()) ?? '',
    ) as RegExpExecArray;
    expect([versions, versions + 1]).toContain(Number(version));
    versions = Number(version);
    const kept = Number(title);
    const missing = [...given].filter(([number]) => number > kept);
    lost.push(missing.length === 0 ? 0 : killedAt - Math.min(...missing.map(([, at]) => at)));
    given.clear();
    last = Math.max(last, kept);
    if (round === KILLS) break;

    const kind = (['titles', 'titles', 'version', 'work'] as const)[round % 4];
    kinds[kind]++;
    if (kind === 'titles') {
      void rename(page, last + 1).catch(() => undefined);
      await page.waitForTimeout(200 + 2500 * random());
    } else {
      const name = `${kind === 'work' ? 'barn' : 'ferry'}-${round}.png`;
      const picture =
        kind === 'work' ? paint(700 + round, 500, (x, y) => [200 * x, 90, 250 * y]) : strokes(round);
      const path = await files.picture(name, picture);
      if (kind === 'work') {
        await page.evaluate(() => {
          location.hash = '#/';
        });
        await page.locator('.row').first().waitFor();
      }
      await input.setInputFiles(path);
      await page.waitForTimeout((kind === 'work' ? 1.1 : 1.6) * taken * random());
    }
    killedAt = await kill(page);
    console.log(`${round + 1} ${kind}: ${given.size} titles given, ${versions} versions, ${works} works`);
  }
  console.log(`lost, in ms: ${lost.slice(1).join(' ')}`, kinds);
  expect(Math.max(...lost)).toBeLessThanOrEqual(2000);

  // All that is there is whole: every picture of every version, read by the command line.
  const page = await context.newPage();
  await page.addInitScript(() => Reflect.deleteProperty(window, 'showSaveFilePicker'));
  await page.goto(server.address);
  const row = page.locator('.row', { hasText: 'Ferry' });
  const coming = page.waitForEvent('download');
  await row.getByRole('button', { name: /save its dossier/ }).click();
  const path = join(files.path, 'ferry.halflight');
  await (await coming).saveAs(path);
  const verified = spawnSync(process.execPath, [COMMAND, 'work', 'verify', path], { encoding: 'utf8' });
  console.log(verified.stdout.trim(), verified.stderr.trim());
  expect(verified.status).toBe(0);
  expect(verified.stdout).toContain(`${versions} version`);
});
