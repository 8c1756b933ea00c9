import { spawn } from 'node:child_process';
import { mkdirSync, rmSync, utimesSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { mergeClass } from '../../src/class/merge.ts';
import { COMMAND, halflight, newFolder, paintDusk } from '../commandLine.ts';
import { contentOf } from './content.ts';

/** Kills of a usual run, to keep it short; docs/class.md tells of a long one. */
const KILLS = Number(process.env.HALFLIGHT_CLASS_KILLS ?? 3);
const WORKS = 4;
/** Kills that a run meets before it comes to its end. */
const IN_A_ROW = KILLS > 3 ? 2 : 3;

/** Starts a run, kills it after so many milliseconds; true when it was still running. */
function killAfter(args: readonly string[], milliseconds: number): Promise<boolean> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [COMMAND, ...args], { stdio: 'ignore' });
    const timer = setTimeout(() => child.kill('SIGKILL'), milliseconds);
    child.once('close', (_, signal) => {
      clearTimeout(timer);
      resolve(signal === 'SIGKILL');
    });
  });
}

test(
  `killed at ${KILLS} moments and taken up again, a class ends with the same bytes; so do its parts`,
  async () => {
    const folder = newFolder();
    const works = join(folder, 'works');
    mkdirSync(works);
    for (let k = 0; k < WORKS; k++) {
      const path = join(works, `work-${k}.png`);
      await paintDusk(path, 220 + 10 * k, 150);
      utimesSync(path, 1.7e9 + k, 1.7e9 + k);
    }
    const run = (out: string, ...more: string[]): string[] => [
      'class',
      works,
      '--out',
      join(folder, out),
      ...more,
    ];
    const start = performance.now();
    expect((await halflight(run('whole'))).code).toBe(0);
    const took = performance.now() - start;
    const whole = contentOf(join(folder, 'whole'));

    let seed = 20260311;
    const random = (): number => {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      return seed / 2 ** 32;
    };
    let killed = 0;
    for (let k = 0; k < KILLS; k++) {
      // Each kill meets a fresh run or one that was killed already.
      if (k % IN_A_ROW === 0) rmSync(join(folder, 'again'), { recursive: true, force: true });
      if (await killAfter(run('again'), took * (0.25 + 0.7 * random()))) killed++;
      if (k % IN_A_ROW === IN_A_ROW - 1 || k === KILLS - 1) {
        expect((await halflight(run('again'))).code).toBe(0);
        const again = contentOf(join(folder, 'again'));
        // What a kill cuts off is left beside as a draft with a name that nobody reads.
        for (const file of Object.keys(again)) if (/\/\.[^/]+\.part$/.test(file)) delete again[file];
        expect(again).toEqual(whole);
      }
    }
    expect(killed).toBeGreaterThan(0);

    const parts = await Promise.all(
      ['1/2', '2/2'].map((part, k) => halflight(run(`part-${k}`, '--part', part))),
    );
    expect(parts.map(({ code }) => code)).toEqual([0, 0]);
    const onlyOne = mergeClass([join(folder, 'part-0')], { out: join(folder, 'merged'), names: 'initials' });
    await expect(onlyOne).rejects.toThrow('Part 2 of 2 is missing: name its folder too.');
    const merged = await halflight([
      'class',
      'merge',
      join(folder, 'part-1'),
      join(folder, 'part-0'),
      '--out',
      join(folder, 'merged'),
    ]);
    expect(merged.code).toBe(0);
    expect(contentOf(join(folder, 'merged'))).toEqual(whole);
  },
  120_000 + 60_000 * KILLS,
);
