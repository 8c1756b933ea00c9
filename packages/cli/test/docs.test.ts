import { spawnSync } from 'node:child_process';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp, { type Sharp } from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { layeredFile } from '../../../demo/src/layered.ts';
import { halflight, newFolder } from './commandLine.ts';

const ROOT = fileURLToPath(new URL('../../../', import.meta.url));
const PAGES = ['README.md', ...pagesIn('docs/'), ...pagesIn('docs/guide/')];

function pagesIn(folder: string): string[] {
  return readdirSync(ROOT + folder)
    .filter((name) => name.endsWith('.md'))
    .map((name) => folder + name);
}

/** A line that the pages tell their reader to type. */
interface Line {
  readonly page: string;
  readonly text: string;
}

/** Every line of the shell's blocks; what follows a # is for people. */
const LINES: readonly Line[] = PAGES.flatMap((page) =>
  [...readFileSync(ROOT + page, 'utf8').matchAll(/^```sh\n(.*?)^```$/gms)].flatMap(([, block]) =>
    block
      .split('\n')
      .map((text) => text.replace(/(^|\s)#.*/, '').trim())
      .filter((text) => text !== '')
      .map((text) => ({ page, text })),
  ),
);

/** Lines that no test can run, and why; what each of them makes of itself is run in its place. */
const NOT_RUN: Readonly<Record<string, { why: string; instead?: readonly string[] }>> = {
  'npm start': {
    why: 'installs, builds and serves until it is ended: it is what a fresh checkout begins with',
  },
  'npm test': { why: 'runs this test' },
  'npm run package': { why: 'builds everything once more' },
  'npm install -g .cache/package/halflight-0.1.0.tgz': {
    why: 'writes beside the checkout, for all of the machine',
  },
  'npx halflight app': {
    why: 'serves the built app, which is built after these tests; the browser tests open it',
  },
  'parallel --sshloginfile machines.txt halflight class works/ --out part-{}/ --part {}/4 ::: 1 2 3 4': {
    why: 'needs several machines',
    instead: [1, 2, 3, 4].map((k) => `halflight class works/ --out part-${k}/ --part ${k}/4`),
  },
  'halflight class works/ --out "part-$SLURM_ARRAY_TASK_ID/" --part "$SLURM_ARRAY_TASK_ID/8"': {
    why: 'takes its number from a scheduler',
    instead: ['halflight class works/ --out part-1-of-8/ --part 1/8'],
  },
};

/** The form of a call, with its options in brackets and its words in capitals: nothing to be typed. */
const isForm = (text: string): boolean => /[[…|]|(?<![$\w-])[A-Z]{4,}(?!\w)/.test(text);
const isCall = (text: string): boolean => /^(?:npx )?halflight /.test(text);

test('the pages have lines to type, and every one is a call, a form of one, or known not to run here', () => {
  expect(LINES.filter(({ text }) => isCall(text) && !isForm(text)).length).toBeGreaterThan(20);
  const unknown = LINES.filter(({ text }) => !isCall(text) && !isForm(text) && !(text in NOT_RUN));
  expect(unknown).toEqual([]);
  const texts = LINES.map(({ text }) => text);
  expect(Object.keys(NOT_RUN).filter((text) => !texts.includes(text))).toEqual([]);
});

describe('the form of every call', () => {
  const helps = new Map<string, ReturnType<typeof halflight>>();
  /** The help of a command, asked for once however many forms it has. */
  function helpOf(command: string): ReturnType<typeof halflight> {
    const known = helps.get(command) ?? halflight([command, '--help']);
    helps.set(command, known);
    return known;
  }
  const forms = LINES.filter(({ text }) => isCall(text) && isForm(text));

  test.each(forms)('$text', async ({ text }) => {
    const { code, stdout } = await helpOf(/halflight (\w+)/.exec(text)?.[1] ?? '');
    expect(code).toBe(0);
    for (const option of text.match(/--[a-z-]+/g) ?? []) expect(stdout).toContain(option);
  });

  test('the manual has a chapter for every command', async () => {
    const { stdout } = await halflight(['--help']);
    const commands = [...stdout.split(/Commands:|Example:/)[1].matchAll(/^ {2}([a-z]+) /gm)].map(
      (it) => it[1],
    );
    const manual = readFileSync(`${ROOT}docs/cli.md`, 'utf8');
    const chapters = [...manual.matchAll(/^## (\w+)$/gm)].map((it) => it[1]);
    expect(commands).toContain('check');
    expect(commands.filter((command) => !chapters.includes(command))).toEqual([]);
  });
});

describe('every line runs on the demo works, one after the other as its page has them', () => {
  const folder = newFolder();
  const runs = LINES.flatMap(({ page, text }) =>
    (text in NOT_RUN ? (NOT_RUN[text].instead ?? []) : [text]).map((line) => ({ page, line })),
  ).filter(({ line }) => isCall(line) && !isForm(line));
  let results: { code: number; heard: string }[] = [];

  beforeAll(async () => {
    const demo = newestDemo();
    for (const page of new Set(runs.map((run) => run.page))) await lay(demo, folderOf(page));
    const at = (name: string): string => join(folder, name);
    const lines = runs.map(({ page, line }) => ({ folder: folderOf(page), words: wordsOf(line) }));
    writeFileSync(at('lines.json'), JSON.stringify(lines));
    const child = fileURLToPath(new URL('./runLines.mjs', import.meta.url));
    const { status, stderr } = spawnSync(process.execPath, [child, at('lines.json'), at('results.json')], {
      env: { PATH: process.env.PATH },
      encoding: 'utf8',
    });
    expect(status, stderr).toBe(0);
    results = JSON.parse(readFileSync(at('results.json'), 'utf8'));
    // Some thirty commands in a row: on a machine that others use it takes its time.
  }, 900_000);
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  test.each(runs.map((run, number) => ({ ...run, number })))('$page: $line', ({ number }) => {
    const { code, heard } = results[number];
    expect(code, heard).toBe(0);
    expect(heard).not.toBe('');
  });

  test.each(runs.filter(({ line }) => / --(?:out|flatten|maps) /.test(line)))(
    'is there after $page: $line',
    ({ page, line }) => {
      const words = wordsOf(line);
      const out = words[words.findIndex((word) => ['--out', '--flatten', '--maps'].includes(word)) + 1];
      const path = join(folderOf(page), out);
      expect(existsSync(path), out).toBe(true);
      if (statSync(path).isDirectory()) expect(readdirSync(path).length).toBeGreaterThan(0);
    },
  );

  function folderOf(page: string): string {
    return join(folder, page.replaceAll('/', '-'));
  }
});

/** The words of a line as a shell parts them. */
function wordsOf(line: string): string[] {
  return [...line.matchAll(/"([^"]*)"|(\S+)/g)]
    .map(([, quoted, bare]) => quoted ?? bare)
    .slice(line.startsWith('npx ') ? 2 : 1);
}

/** The folder of the newest painting. */
function newestDemo(): string {
  const cache = `${ROOT}.cache/demo/`;
  const folders = (existsSync(cache) ? readdirSync(cache) : [])
    .filter((name) => name.endsWith('-2400x1500'))
    .map((name) => cache + name)
    .sort((a, b) => statSync(b).mtimeMs - statSync(a).mtimeMs);
  const whole = folders.find((name) => existsSync(`${name}/class/index.json`));
  expect(whole, 'paint the demo first: npm start -- --once').toBeDefined();
  return whole as string;
}

const WIDTH = 240;
const HEIGHT = 150;

/** Everything that the pages name, made small from the demo paintings, in a new folder. */
async function lay(demo: string, folder: string): Promise<void> {
  mkdirSync(join(folder, 'works'), { recursive: true });
  const version = (number: number): Sharp =>
    sharp(`${demo}/ferry-landing-${number}.png`).resize(WIDTH, HEIGHT).removeAlpha();
  const at = (name: string): string => join(folder, name);
  await version(4).toFile(at('ferry-landing-4.png'));
  copyFileSync(at('ferry-landing-4.png'), at('ferry.png'));
  writeFileSync(
    at('ferry-landing-4.ora'),
    await layeredFile(await version(4).raw().toBuffer(), WIDTH, HEIGHT),
  );
  copyFileSync(at('ferry-landing-4.ora'), at('ferry.ora'));
  await version(5).toFile(at('ferry-landing-4-no-fog.png'));
  for (const number of [1, 2, 3, 4, 5]) await version(number).toFile(at(`works/landing ${number}.png`));
  await version(5).modulate({ hue: 120 }).toFile(at('works/odd.png'));
  await version(4).toFile(at('ground.png'));
  for (const [name, alpha] of [
    ['sheds', 0.5],
    ['fog', 0.2],
  ] as const)
    await version(1)
      .ensureAlpha(alpha)
      .toFile(at(`${name}.png`));
  const manual = readFileSync(`${ROOT}docs/cli.md`, 'utf8');
  // The intent that the manual shows.
  const [intent] = manual.match(/(?<=```json\n)\{\n {2}"schema": "halflight\/intent@1".*?(?=```)/s) ?? [];
  writeFileSync(at('dusk.json'), intent ?? '');
}
