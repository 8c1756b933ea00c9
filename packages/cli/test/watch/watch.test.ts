import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync, readFileSync, renameSync, unlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterEach, beforeAll, expect, test } from 'vitest';
import { COMMAND, halflight, newFolder, paintDusk } from '../commandLine.ts';

const folder = newFolder();
const at = (name: string): string => join(folder, name);
const children: ChildProcess[] = [];

beforeAll(async () => {
  await paintDusk(at('first.png'), 240, 160);
  await sharp(at('first.png')).linear(0.8, 30).toFile(at('veiled.png'));
});
afterEach(() => {
  for (const child of children.splice(0)) child.kill('SIGKILL');
});

interface Watching {
  /** Waits until so many lines were printed, and gives them. */
  lines(count: number): Promise<string[]>;
  /** Waits until stderr holds this. */
  told(text: RegExp): Promise<void>;
  /** Ends it as Ctrl+C does, and gives exit code and signal. */
  end(): Promise<[number | null, string | null]>;
}

function watching(...args: string[]): Watching {
  const child = spawn(process.execPath, [COMMAND, 'watch', ...args], { env: { PATH: process.env.PATH } });
  children.push(child);
  let stdout = '';
  let stderr = '';
  let wake = (): void => {};
  const hear = (chunk: unknown, error: boolean): void => {
    if (error) stderr += chunk;
    else stdout += chunk;
    wake();
  };
  child.stdout.on('data', (chunk) => hear(chunk, false));
  child.stderr.on('data', (chunk) => hear(chunk, true));
  const ended = new Promise<[number | null, string | null]>((resolve) => {
    child.once('close', (code, signal) => {
      wake();
      resolve([code, signal]);
    });
  });
  const until = async (there: () => boolean): Promise<void> => {
    while (!there()) {
      if (child.exitCode !== null) throw new Error(`It ended early.\n${stdout}\n${stderr}`);
      await new Promise<void>((resolve) => {
        wake = resolve;
      });
    }
  };
  const all = (): string[] => stdout.split('\n').slice(0, -1);
  return {
    async lines(count) {
      await until(() => all().length >= count);
      return all();
    },
    told: (text) => until(() => text.test(stderr)),
    end() {
      child.kill('SIGINT');
      return ended;
    },
  };
}

const pause = (milliseconds: number): Promise<void> =>
  new Promise((resolve) => setTimeout(resolve, milliseconds));

test('a file is read at the start and at every save; a half-written one is waited for', async () => {
  const picture = at('ferry.png');
  writeFileSync(picture, readFileSync(at('first.png')));
  const watch = watching(picture, '--json');
  const [first] = await watch.lines(1);
  expect(JSON.parse(first)).toMatchObject({
    schema: 'halflight/watch@1',
    picture: { name: 'ferry.png' },
    change: null,
  });
  await watch.told(/read at every save/);

  // Half a file that stands still for longer than a writer usually pauses.
  const bytes = readFileSync(at('veiled.png'));
  writeFileSync(picture, bytes.subarray(0, bytes.length >> 1));
  await pause(900);
  writeFileSync(picture, bytes);
  const [, second] = (await watch.lines(2)).map((line) => JSON.parse(line));
  expect(second.change.impact).toBeGreaterThan(2);
  expect(
    second.findings.every((f: { course: string }) =>
      ['new', 'smaller', 'larger', 'still'].includes(f.course),
    ),
  ).toBe(true);

  // The same bytes again are no news; another save is.
  writeFileSync(picture, bytes);
  await pause(900);
  writeFileSync(picture, readFileSync(at('first.png')));
  const lines = await watch.lines(3);
  expect(lines.length).toBe(3);
  expect(await watch.end()).toEqual([0, null]);
});

test('in a folder every picture that is saved is read, also one that is put in place by renaming', async () => {
  const exports = at('exports');
  mkdirSync(exports);
  writeFileSync(join(exports, 'old.png'), readFileSync(at('first.png')));
  const watch = watching(exports);
  await watch.told(/Every picture that is saved/);
  writeFileSync(join(exports, 'notes.txt'), 'no picture');
  writeFileSync(join(exports, '.ferry.png'), 'hidden');
  writeFileSync(join(exports, 'ferry.part'), readFileSync(at('first.png')));
  renameSync(join(exports, 'ferry.part'), join(exports, 'ferry.png'));
  const text = (await watch.lines(2)).join('\n');
  expect(text).toMatch(/^\d\d:\d\d:\d\d {2}ferry\.png\n/);
  expect(text).not.toMatch(/old|notes/);
  unlinkSync(join(exports, 'ferry.png'));
  await watch.told(/“ferry\.png” is gone/);
  expect(await watch.end()).toEqual([0, null]);
});

test('nothing at the path: a sentence', async () => {
  const { code, stderr } = await halflight(['watch', at('gone.png')]);
  expect([code, stderr]).toEqual([1, expect.stringMatching(/can’t be watched: there is no such file/)]);
});
