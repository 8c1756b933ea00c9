import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { beforeAll, describe, expect, test } from 'vitest';
import { halflight, newFolder, paintDusk, type Ran } from '../commandLine.ts';

const folder = newFolder();
const at = (name: string): string => join(folder, name);
let made: Ran;

beforeAll(async () => {
  mkdirSync(at('finished'));
  await paintDusk(at('dusk.png'), 96, 64);
  for (const [k, gain] of [0.6, 0.7, 0.8, 0.9, 1, 1.1].entries())
    await sharp(at('dusk.png'))
      .linear(gain, 0)
      .toFile(at(`finished/work-${k}.png`));
  writeFileSync(at('finished/notes.txt'), 'no picture');
  writeFileSync(at('finished/.hidden.png'), 'no picture');
  made = await halflight(['baseline', at('finished'), '--out', at('mine.json')]);
});

describe('baseline', () => {
  test('writes ranges of every reading, and no name', () => {
    expect(made.code).toBe(0);
    expect(made.stdout).toMatch(/^6 finished works\./);
    const text = readFileSync(at('mine.json'), 'utf8');
    const { schema, works, measures } = JSON.parse(text);
    expect([schema, works]).toEqual(['halflight/baseline@1', 6]);
    const { p10, p50, p90 } = measures['value.key'];
    expect(p10 < p50 && p50 < p90).toBe(true);
    expect(text).not.toMatch(/work-\d/);
  });

  test('is taken by check, which then calls a picture unusual for them', async () => {
    await sharp(at('dusk.png')).linear(0.6, 140).toFile(at('pale.png'));
    const general = JSON.parse((await halflight(['check', '--json', at('pale.png')])).stdout);
    const own = JSON.parse(
      (await halflight(['check', '--json', '--baseline', at('mine.json'), at('pale.png')])).stdout,
    );
    const unusual = (findings: { key: string }[]): number =>
      findings.filter(({ key }) => key.startsWith('value.unusual')).length;
    expect(unusual(general.findings)).toBe(0);
    expect(unusual(own.findings)).toBeGreaterThan(0);
  });

  test('names what can’t be read, and is made of the rest', async () => {
    writeFileSync(at('finished/broken.png'), 'no picture');
    const { code, stderr, stdout } = await halflight([
      'baseline',
      at('finished'),
      '--out',
      at('rest.json'),
      '--json',
    ]);
    expect([code, stderr]).toEqual([1, expect.stringMatching(/broken\.png/)]);
    expect(JSON.parse(stdout).works).toBe(6);
  });

  test('is not made of too few works', async () => {
    const { code, stderr } = await halflight(['baseline', at('dusk.png'), '--out', at('few.json')]);
    expect([code, stderr]).toEqual([1, expect.stringMatching(/from 5 on.*Nothing was written/)]);
    expect(existsSync(at('few.json'))).toBe(false);
  });

  test('of nothing is wrong use', async () => {
    expect((await halflight(['baseline', at('gone'), '--out', at('x.json')])).code).toBe(2);
  });
});
