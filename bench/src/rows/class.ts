import { spawn } from 'node:child_process';
import { rmSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { outcomes } from '@halflight/cli';
import { demoFolder, manyWorks, pictureName } from '@halflight/demo';
import { OPEN_INTENT } from '@halflight/engine';
import { openCodec, readPicture } from '@halflight/files/node';
import type { Figure } from '../figure.ts';
import { watchTree } from '../treePeak.ts';

const CACHE = fileURLToPath(new URL('../../../.cache/bench/', import.meta.url));
const COMMAND = fileURLToPath(new URL('../../../packages/cli/bin/halflight.js', import.meta.url));

/** Works of a run; 300 are a teacher's evening, and take some minutes. */
const WORKS = Number(process.env.HALFLIGHT_BENCH_WORKS ?? 60);
/** A part of them, to see whether memory grows with their number. */
const FEW = Math.ceil(WORKS / 4);

/** A whole class against decoding its works one after the other, divided by the cores; memory of many against few. */
export async function classRows(): Promise<Figure[]> {
  const painted = await demoFolder();
  const make = (count: number): Promise<string[]> =>
    manyWorks({
      sources: [1, 2, 3, 4, 5].map((version) => join(painted, pictureName(version))),
      out: `${CACHE}class-${count}`,
      count,
      megapixels: [2, 12],
      brokenEach: 25,
    });
  const begun = performance.now();
  const works = await make(WORKS);
  const making = performance.now() - begun;
  await make(FEW);
  const cores = availableParallelism();
  const few = await run(FEW);
  const decoding = await decodeAll(works);
  const all = await run(WORKS);
  const checking = await checkAll(works.slice(0, FEW));
  return [
    { what: `making ${WORKS} works of 2 to 12 MP (0 when they were there)`, value: making, unit: 'ms' },
    {
      what: `a class of ${WORKS}: readings and pages`,
      value: all.milliseconds,
      unit: 'ms',
      reference: { what: `decoding each / ${cores} cores`, value: decoding / cores },
      goal: 1.6,
    },
    {
      what: `  of ${FEW}, beside the readings themselves`,
      value: few.milliseconds,
      unit: 'ms',
      reference: { what: `check of each / ${cores} cores`, value: checking / cores },
    },
    {
      what: '  memory peak',
      value: all.megabytes,
      unit: 'MB',
      reference: { what: `of ${FEW} works`, value: few.megabytes },
      goal: 1.25,
    },
  ];
}

async function decodeAll(paths: readonly string[]): Promise<number> {
  const codec = await openCodec();
  const start = performance.now();
  // Those that are cut off are refused.
  for (const path of paths) await readPicture(path, { codec }).catch(() => null);
  const took = performance.now() - start;
  codec.close();
  return took;
}

async function checkAll(paths: readonly string[]): Promise<number> {
  const wish = { intent: OPEN_INTENT, baseline: null, limitMegapixels: 100, maps: null };
  const start = performance.now();
  for (const path of paths) for await (const _ of outcomes([{ path, name: '' }], wish));
  return performance.now() - start;
}

/** The command itself, in processes of its own whose memory is watched. */
function run(count: number): Promise<{ milliseconds: number; megabytes: number }> {
  const out = `${CACHE}class-${count}-out`;
  rmSync(out, { recursive: true, force: true });
  const start = performance.now();
  return new Promise((resolve, reject) => {
    const args = [COMMAND, 'class', `${CACHE}class-${count}`, '--out', out];
    const child = spawn(process.execPath, args, { stdio: ['ignore', 'ignore', 'pipe'] });
    const peak = watchTree(child.pid!);
    let told = '';
    child.stderr.on('data', (piece) => {
      told += piece;
    });
    child.once('close', (code) => {
      // Some of the works are broken.
      if (code !== 0 && code !== 1) reject(new Error(told));
      else resolve({ milliseconds: performance.now() - start, megabytes: peak() / 1024 });
    });
  });
}
