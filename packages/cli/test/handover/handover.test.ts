import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { PRESETS } from '@halflight/engine';
import { openCodec } from '@halflight/files/node';
import { defineConfig, parse } from '@terrazzo/parser';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { handOver } from '../../src/handover/one.ts';
import type { HandoverCall } from '../../src/handover/run.ts';
import { type Order, readOrder } from '../../src/handover/settings.ts';
import { addVersion, startWork } from '../../src/work/run.ts';
import { halflight, newFolder, paintDusk } from '../commandLine.ts';

const folder = newFolder();
const at = (...names: string[]): string => join(folder, ...names);
const put = async (name: string, value: unknown): Promise<string> => {
  await writeFile(at(name), typeof value === 'string' ? value : JSON.stringify(value));
  return at(name);
};
const call = (change: Partial<HandoverCall> = {}): HandoverCall => ({
  out: at('made'),
  reportFor: 'own',
  limit: 100,
  ...change,
});
const codec = await openCodec();
afterAll(() => codec.close());
beforeAll(async () => {
  await paintDusk(at('dusk.png'));
  await mkdir(at('other'));
  await paintDusk(at('other', 'dusk.jpg'));
});

const STEPS = [
  { kind: 'exposure', values: { stops: 0.3 } },
  {
    kind: 'chroma',
    values: { gain: 0.8 },
    area: { soften: 0, parts: [{ joining: 'add', kind: 'gradient', from: [0, 0], to: [0, 1] }] },
  },
];

test('a picture with its table, palette and what is lost; one that is missing is named and the other done', async () => {
  const recipe = await put('recipe.json', { schema: 'halflight/recipe@1', steps: STEPS });
  const { code, stdout, stderr } = await halflight([
    ...['handover', at('none.png'), at('dusk.png'), '--recipe', recipe, '--out', at('out')],
    ...['--table', '--palette', '--lost', '--process', '--json'],
  ]);
  expect(code).toBe(1);
  expect(stderr).toContain('There is no file');
  const [missing, done] = stdout
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line));
  expect(missing).toMatchObject({ schema: 'halflight/handed-over@1', picture: { name: 'none.png' } });
  expect(missing.error).toContain('none.png');
  expect(done).toMatchObject({
    file: {
      name: 'dusk.jpg',
      width: 120,
      height: 80,
      depth: 8,
      space: 'sRGB',
      checked: 'saved file checked',
    },
    lost: { share: 0, calms: null },
    table: { holds: ['Exposure'], leftOut: ['Chroma'] },
  });
  expect((await readdir(at('out'))).sort()).toEqual([...done.files].sort());
  expect(done.files).toEqual([
    'dusk.jpg',
    'dusk.lost.png',
    'dusk.clf',
    'dusk.icc',
    'dusk.palette.json',
    'dusk.palette.css',
    'dusk.palette.svg',
    'dusk.edit.webp',
    'dusk.edit.png',
    'dusk.edit.svg',
  ]);
  // As painted and after two steps, each as long as the settings say.
  const record = await sharp(at('out', 'dusk.edit.webp'), { animated: true }).metadata();
  expect([record.width, record.pageHeight, record.delay]).toEqual([120, 80, [1200, 1200, 1200]]);
  expect((await sharp(at('out', 'dusk.edit.png')).metadata()).width).toBeGreaterThan(900);
  expect((await sharp(at('out', 'dusk.jpg')).metadata()).icc).toBeDefined();
  const { palette } = JSON.parse(await readFile(at('out', 'dusk.palette.json'), 'utf8'));
  expect(palette.$type).toBe('color');
  // Design Tokens Format Module 2025.10 by a parser and validator from npm, which refuses what is not in it.
  const config = defineConfig({}, { cwd: new URL('file:///') });
  const valid = async (tokens: object): Promise<number> => {
    const inputs = [{ filename: new URL('file:///palette.json'), src: JSON.stringify(tokens) }];
    return Object.keys((await parse(inputs, { config })).tokens).length;
  };
  const names = Object.keys(palette).filter((key) => !key.startsWith('$'));
  expect(await valid({ palette })).toBe(names.length);
  const short = structuredClone(palette);
  short[names[0]].$value.components.pop();
  await expect(valid({ palette: short })).rejects.toThrow('3 components');
  expect(await readFile(at('out', 'dusk.palette.svg'), 'utf8')).toMatch(/^<svg /);
});

test('of a work the newest version leaves, with its own edit and its past', async () => {
  const work = at('landing.halflight');
  expect(await startWork(work, { picture: at('dusk.png'), title: 'Landing', limit: 100 })).toBe(0);
  const order = await readOrder(call({ report: true, reportFor: 'client' }));
  const { files } = await handOver(codec, work, 1, order, [work], new Set());
  expect(files).toEqual([
    'landing.jpg',
    'landing.client.html',
    'landing.client.pdf',
    'landing.client.png',
    'landing.report.json',
  ]);
  expect((await readFile(at('made', 'landing.client.pdf'))).subarray(0, 5).toString()).toBe('%PDF-');
  expect(await readFile(at('made', 'landing.client.html'), 'utf8')).toContain('<h1>Landing</h1>');
});

test('the versions of a work are recorded, and that there is nothing to record is said', async () => {
  const work = at('record.halflight');
  await startWork(work, { picture: at('dusk.png'), title: 'Landing', limit: 100 });
  const painted = { width: 120, height: 80, channels: 3 } as const;
  await sharp({ create: { ...painted, background: '#345' } })
    .png()
    .toFile(at('later.png'));
  const settings = await put('record.json', { process: { side: 64, seconds: 2 } });
  const order = await readOrder(call({ process: true, settings }));
  const alone = await handOver(codec, work, 1, order, [work], new Set());
  expect(alone.notes.join(' ')).toContain('nothing to record');
  expect(await addVersion(work, at('later.png'), { limit: 100 })).toBe(0);
  const { files } = await handOver(codec, work, 1, order, [work], new Set());
  expect(files.slice(1)).toEqual(['record.versions.webp', 'record.versions.png', 'record.versions.svg']);
  const { width, pageHeight, delay } = await sharp(at('made', 'record.versions.webp'), {
    animated: true,
  }).metadata();
  expect([width, pageHeight, delay]).toEqual([64, 43, [2000, 2000]]);
});

test('wrong settings are told before anything is made', async () => {
  const settings = await put('wrong.json', { size: { widht: 3 } });
  const { code, stderr } = await halflight([
    ...['handover', at('dusk.png'), '--settings', settings, '--out', at('never')],
  ]);
  expect(code).toBe(2);
  expect(stderr).toContain('“size.width” may be meant');
  await expect(readdir(at('never'))).rejects.toThrow();
});

describe('what a call can get wrong', () => {
  test.each<[string, () => Promise<Partial<HandoverCall>>, string]>([
    ['an out folder that is a file', async () => ({ out: at('dusk.png') }), 'a file of that name'],
    ['settings that are missing', async () => ({ settings: at('nowhere.json') }), 'no such file'],
    ['settings that are no JSON', async () => ({ settings: await put('text.json', 'x') }), 'no JSON'],
    [
      'a profile that is none',
      async () => ({
        settings: await put('profile.json', { format: 'tiff', space: { profile: 'dusk.png' } }),
      }),
      'not a colour profile',
    ],
    [
      'a profile that is missing',
      async () => ({ settings: await put('lost.json', { format: 'tiff', space: { profile: 'no.icc' } }) }),
      'There is no file',
    ],
    ['a name with a path', async () => ({ settings: await put('name.json', { name: 'a/{name}' }) }), 'disk'],
    [
      'a recipe that is none',
      async () => ({ recipe: await put('none.json', { schema: 'halflight/recipe@1' }) }),
      'recipe',
    ],
  ])('%s', async (_, make, words) => {
    await expect(readOrder(call(await make()))).rejects.toThrow(words);
  });
  test('a preset of the call is what the file differs from', async () => {
    const settings = await put('narrow.json', { size: { width: 100, height: null } });
    const order = await readOrder(call({ preset: 'print', settings }));
    expect(order.settings).toMatchObject({ format: 'tiff', size: { width: 100, height: null, unit: 'mm' } });
  });
});

describe('nothing is lost', () => {
  const order = async (change: Partial<Order>): Promise<Order> => ({
    ...(await readOrder(call())),
    ...change,
  });
  const hand = async (path: string, wish: Order, taken = new Set<string>()) =>
    handOver(codec, path, 1, wish, [path], taken);
  test('originals are never written over', async () => {
    const png = { ...PRESETS.screen, format: 'png' as const };
    await expect(hand(at('dusk.png'), await order({ folder, settings: png }))).rejects.toThrow(
      'never overwritten',
    );
  });
  test('two pictures of one name are told apart or refused', async () => {
    const taken = new Set<string>();
    const wish = await order({});
    await hand(at('dusk.png'), wish, taken);
    await expect(hand(at('other', 'dusk.jpg'), wish, taken)).rejects.toThrow('{number}');
    const numbered = await order({ settings: { ...PRESETS.screen, name: '{name} {number}' } });
    const made = await handOver(codec, at('other', 'dusk.jpg'), 2, { ...numbered, lost: true }, [], taken);
    expect(made.files).toEqual(['dusk 2.jpg', 'dusk 2.lost.png']);
  });
  test('a size beyond limits is refused', async () => {
    const size = { ...PRESETS.screen.size, width: 1e6, height: 1e6, enlarge: true };
    const wish = await order({ settings: { ...PRESETS.screen, size } });
    await expect(hand(at('dusk.png'), wish)).rejects.toThrow('megapixels are made');
  });
  test('without an edit there is no table, and that is said', async () => {
    const made = await hand(at('dusk.png'), await order({ table: true }));
    expect(made.files).toEqual(['dusk.jpg']);
    expect(made.notes.join(' ')).toContain('There is no edit');
  });
});
