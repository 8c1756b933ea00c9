import { spawn } from 'node:child_process';
import { copyFileSync, linkSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { demoFolder, pictureName } from '@halflight/demo';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import type { Figure } from '../figure.ts';
import { type Course, plot } from '../plot.ts';
import { inServedApp } from '../servedApp.ts';
import { watchTree } from '../treePeak.ts';
import { fillShelf, reloadShelf, scrollShelf } from './shelf.ts';

const CACHE = fileURLToPath(new URL('../../../.cache/bench/', import.meta.url));
const COMMAND = fileURLToPath(new URL('../../../packages/cli/bin/halflight.js', import.meta.url));
const COUNTS = [10, 100, 1000] as const;

type Points = Course['points'][number][];

/** How the shelf, and putting a class together, grow with the number of works; draws `growth-works.svg`. */
export async function worksRows(): Promise<Figure[]> {
  const courses: Record<'stands' | 'search' | 'merge' | 'memory', Points> = {
    stands: [],
    search: [],
    merge: [],
    memory: [],
  };
  const figures: Figure[] = [];
  const source = await readOnce();
  for (const count of COUNTS) {
    const merged = await merge(source, count);
    courses.merge.push([count, merged.milliseconds]);
    courses.memory.push([count, merged.megabytes]);
    figures.push(
      { what: `a class of ${count}: merge, overview and pages`, value: merged.milliseconds, unit: 'ms' },
      { what: '  memory peak', value: merged.megabytes, unit: 'MB' },
    );
  }
  figures.push(
    ...(await inServedApp(async (browser, address) => {
      const shelf: Figure[] = [];
      for (const count of COUNTS) {
        // A profile of its own: an empty shelf before each.
        const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
        const page = await context.newPage();
        await page.goto(address);
        await page.locator('.empty').waitFor();
        await fillShelf(page, count);
        await reloadShelf(page, count);
        const stands = await reloadShelf(page, count);
        const longest = await scrollShelf(page);
        const search = await find(page, count);
        courses.stands.push([count, stands]);
        courses.search.push([count, search]);
        shelf.push(
          { what: `a shelf of ${count} works stands, from a reload`, value: stands, unit: 'ms' },
          { what: '  longest task while it is scrolled (0: under 50)', value: longest, unit: 'ms', goal: 50 },
          { what: '  from a word to the works that have it', value: search, unit: 'ms' },
          { what: '  memory of its scripts', value: await heap(page), unit: 'MB' },
        );
        await context.close();
      }
      return shelf;
    })),
  );
  const file = `${CACHE}growth-works.svg`;
  writeFileSync(
    file,
    plot('More works', 'works', [
      { name: 'class, merge, ms', points: courses.merge },
      { name: 'class, peak, MB', points: courses.memory },
      ...(courses.stands.length > 0
        ? [
            { name: 'shelf stands, ms', points: courses.stands },
            { name: 'search, ms', points: courses.search },
          ]
        : []),
    ]),
  );
  console.error(`  drawn: ${file}`);
  return figures;
}

/** Types a word that one work has, and gives the milliseconds until only that one stands and is painted. */
async function find(page: Page, works: number): Promise<number> {
  await page.getByLabel('Find').focus();
  return page.evaluate(async (word) => {
    const field = document.activeElement as HTMLInputElement;
    const started = performance.now();
    Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')!.set!.call(field, word);
    field.dispatchEvent(new Event('input', { bubbles: true }));
    while (document.querySelectorAll('.row').length !== 1) await new Promise(requestAnimationFrame);
    await new Promise(requestAnimationFrame);
    return performance.now() - started;
  }, `study ${works}`);
}

/** Megabytes that the page's scripts hold after a collection. */
async function heap(page: Page): Promise<number> {
  const session = await page.context().newCDPSession(page);
  await session.send('HeapProfiler.collectGarbage');
  const { usedSize } = await session.send('Runtime.getHeapUsage');
  return usedSize / 2 ** 20;
}

/** The journal of a class of the five demo pictures, read once: what grows here is not the reading. */
async function readOnce(): Promise<string> {
  const painted = await demoFolder();
  const works = `${CACHE}works-5`;
  const out = `${CACHE}works-5-out`;
  rmSync(works, { recursive: true, force: true });
  rmSync(out, { recursive: true, force: true });
  mkdirSync(works, { recursive: true });
  for (const version of [1, 2, 3, 4, 5])
    await sharp(`${painted}/${pictureName(version)}`)
      .resize(960)
      .toFile(`${works}/${pictureName(version)}`);
  await run(['class', works, '--out', out, '--part', '1/1', '--title', 'Bench']);
  return `${out}/journal/`;
}

/** Puts a part of `count` works together, each the copy of one that was read. */
async function merge(journal: string, count: number): Promise<{ milliseconds: number; megabytes: number }> {
  const part = `${CACHE}works-part-${count}`;
  const out = `${CACHE}works-merged-${count}`;
  for (const folder of [part, out]) rmSync(folder, { recursive: true, force: true });
  mkdirSync(`${part}/journal`, { recursive: true });
  const [head, ...lines] = readFileSync(`${journal}entries.jsonl`, 'utf8').trim().split('\n');
  const entries = Array.from({ length: count }, (_, k) => {
    const from = JSON.parse(lines[k % lines.length]);
    const number = String(k + 1).padStart(4, '0');
    const name = `Painter ${number} - Landing.png`;
    const id = `${from.id.slice(0, -4)}${number}`;
    const line = JSON.parse(from.line);
    line.picture.name = name;
    for (const kind of ['page', 'small']) {
      const to = `${part}/journal/${id}.${kind}.jpg`;
      try {
        linkSync(`${journal}${from.id}.${kind}.jpg`, to);
      } catch {
        copyFileSync(`${journal}${from.id}.${kind}.jpg`, to);
      }
    }
    return JSON.stringify({
      ...from,
      name,
      id,
      sha256: `${from.sha256.slice(0, -4)}${number}`,
      line: JSON.stringify(line),
    });
  });
  writeFileSync(`${part}/journal/entries.jsonl`, `${[head, ...entries].join('\n')}\n`);
  return run(['class', 'merge', part, '--out', out]);
}

/** Runs the command in a process of its own. */
function run(args: readonly string[]): Promise<{ milliseconds: number; megabytes: number }> {
  const start = performance.now();
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [COMMAND, ...args], { stdio: ['ignore', 'ignore', 'pipe'] });
    const peak = watchTree(child.pid!);
    let told = '';
    child.stderr.on('data', (piece) => {
      told += piece;
    });
    child.once('close', (code) => {
      if (code === 0) resolve({ milliseconds: performance.now() - start, megabytes: peak() / 1024 });
      else reject(new Error(told));
    });
  });
}
