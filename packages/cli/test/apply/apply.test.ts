import { copyFile, mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { bytesSource, openOpenRaster, type StoredLayer } from '@halflight/files/openraster';
import sharp from 'sharp';
import { beforeAll, describe, expect, test } from 'vitest';
import { halflight, newFolder, paintDusk } from '../commandLine.ts';

const folder = newFolder();
const at = (name: string): string => join(folder, name);
const recipe = async (name: string, steps: unknown[]): Promise<string> => {
  await writeFile(at(name), JSON.stringify({ schema: 'halflight/recipe@1', steps }));
  return at(name);
};
const pixels = (path: string): Promise<Buffer> => sharp(path).raw().toBuffer();

beforeAll(async () => {
  await paintDusk(at('dusk.png'));
  await paintDusk(at('dusk.jpg'));
});

describe('apply', () => {
  test('a recipe without steps gives the picture back, a lossy one byte for byte', async () => {
    const none = await recipe('none.json', []);
    for (const name of ['dusk.png', 'dusk.jpg']) {
      const { code } = await halflight(['apply', at(name), '--recipe', none, '--out', at(`same-${name}`)]);
      expect(code).toBe(0);
      expect(await readFile(at(`same-${name}`))).toEqual(await readFile(at(name)));
    }
  });

  test('one stop of exposure doubles linear light (IEC 61966-2-1), within a step of dither', async () => {
    const stop = await recipe('stop.json', [{ kind: 'exposure', values: { stops: 1 } }]);
    const ran = await halflight(['apply', at('dusk.png'), '--recipe', stop, '--out', at('stop.png')]);
    expect([ran.code, ran.stdout]).toEqual([0, `${at('stop.png')}\n`]);
    const [before, after] = [await pixels(at('dusk.png')), await pixels(at('stop.png'))];
    const linear = (v: number): number => (v <= 10.31 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4);
    const code = (l: number): number => 255 * (l <= 0.0031308 ? 12.92 * l : 1.055 * l ** (1 / 2.4) - 0.055);
    for (let p = 0; p < before.length; p += 3) {
      const doubled = [0, 1, 2].map((c) => 2 * linear(before[p + c]));
      if (Math.max(...doubled) > 1) continue;
      for (let c = 0; c < 3; c++) expect(Math.abs(after[p + c] - code(doubled[c]))).toBeLessThanOrEqual(1.01);
    }
  });

  test('as layers: each step one, together the same as the flat edit', async () => {
    const two = await recipe('two.json', [
      { kind: 'exposure', values: { stops: 1 } },
      { kind: 'warmth', values: { mired: 20 } },
    ]);
    const run = (out: string) => halflight(['apply', at('dusk.png'), '--recipe', two, '--out', at(out)]);
    const [flat, layered] = await Promise.all([run('two.png'), run('two.ora')]);
    expect([flat.code, layered.code, layered.stdout]).toEqual([0, 0, `${at('two.ora')}\n`]);
    const file = await openOpenRaster(bytesSource(await readFile(at('two.ora')), 'two.ora'));
    const shown = file.nodes.filter(({ visible }) => visible) as StoredLayer[];
    expect(shown.length).toBe(3);
    const [ground, ...steps] = await Promise.all(
      shown.map(async (one) => Buffer.from(await file.layer(one))),
    );
    expect(await pixels(at('dusk.png'))).toEqual(await sharp(ground).raw().toBuffer());
    // Put together by libvips.
    const together = await sharp(ground)
      .composite(steps.map((input) => ({ input })))
      .removeAlpha()
      .raw()
      .toBuffer();
    expect(together).toEqual(await pixels(at('two.png')));
  });

  test('a folder at once, depth and space as asked', async () => {
    const warm = await recipe('warm.json', [{ kind: 'warmth', values: { mired: 20 } }]);
    const args = ['--recipe', warm, '--out', at('out'), '--depth', '16', '--space', 'display-p3'];
    await mkdir(at('series'));
    for (const name of ['dusk.png', 'dusk.jpg']) await copyFile(at(name), at(`series/${name}`));
    await writeFile(at('series/notes.txt'), 'not a picture: passed over');
    const ran = await halflight(['apply', at('series'), ...args]);
    expect(ran.code).toBe(0);
    const facts = await sharp(at('out/dusk.png')).metadata();
    expect([facts.depth, facts.hasProfile]).toEqual(['ushort', true]);
    expect((await sharp(at('out/dusk.jpg')).metadata()).format).toBe('jpeg');
  });

  test('one picture that can’t be read does not keep the other from being done', async () => {
    await writeFile(at('notes.png'), 'these are words');
    const none = await recipe('none.json', []);
    const ran = await halflight([
      'apply',
      at('notes.png'),
      at('dusk.png'),
      '--recipe',
      none,
      '--out',
      at('some'),
    ]);
    expect(ran.code).toBe(1);
    expect(ran.stderr).toMatch(/notes\.png.*is not a picture/);
    expect(await readFile(at('some/dusk.png'))).toEqual(await readFile(at('dusk.png')));
  });

  test.each([
    ['onto itself', ['dusk.png'], 'dusk.png', 1, /is the picture itself/],
    ['two pictures, one file', ['dusk.png', 'dusk.jpg'], 'one.png', 2, /Name a folder/],
    ['an ending that is not written', ['dusk.png'], 'out.bmp', 2, /not written here/],
  ])('%s is refused in a sentence', async (_, pictures, out, code, words) => {
    const none = await recipe('none.json', []);
    const ran = await halflight(['apply', ...pictures.map(at), '--recipe', none, '--out', at(out)]);
    expect(ran.code).toBe(code);
    expect(ran.stderr).toMatch(words);
    expect(ran.stderr).not.toMatch(/\n\s+at /);
  });

  test('a recipe that does not fit is refused before anything is written', async () => {
    const bad = await recipe('bad.json', [{ kind: 'exposure', values: { stops: 40 } }]);
    const ran = await halflight(['apply', at('dusk.png'), '--recipe', bad, '--out', at('bad.png')]);
    expect([ran.code, ran.stdout]).toEqual([2, '']);
    expect(ran.stderr).toMatch(/goes from -4 to 4/);
  });
});
