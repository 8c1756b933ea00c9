import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { bytesSource, openOpenRaster, type StoredLayer, writeOpenRaster } from '@halflight/files/openraster';
import sharp from 'sharp';
import { beforeAll, describe, expect, test } from 'vitest';
import { halflight, newFolder } from '../commandLine.ts';

const DUSK = {
  schema: 'halflight/intent@1',
  mood: { words: [], axes: { warmCool: { at: 0.3, tolerance: 0.1 } } },
};
const folder = newFolder();
const at = (name: string): string => join(folder, name);
const [W, H] = [60, 40];
type Paint = (x: number, y: number) => number[];

async function png(width: number, height: number, paint: Paint): Promise<Uint8Array<ArrayBuffer>> {
  const data = Buffer.from(
    Array.from({ length: width * height }, (_, p) => paint(p % width, Math.floor(p / width))).flat(),
  );
  return new Uint8Array(
    await sharp(data, { raw: { width, height, channels: 4 } })
      .png()
      .toBuffer(),
  );
}
const ground: Paint = (x, y) => [80 + x, 90 + ((x * 7 + y * 13) % 9), 140 + y, 255];
const reeds: Paint = (x, y) => [30, 60, (x * 31 + y * 17) % 80, (x + y) % 3 ? 255 : 130];
const fog =
  (red: number): Paint =>
  (_, y) => [red, 180, 190, 3 * y];

beforeAll(async () => {
  const layer = async (
    name: string,
    paint: Paint,
    [x, y, w, h] = [0, 0, W, H],
    more: Record<string, string> = {},
  ) => ({
    attributes: { name, ...more },
    x,
    y,
    png: await png(w, h, paint),
  });
  const merged = await png(W, H, () => [0, 0, 0, 255]);
  const children = [
    await layer('ground', ground),
    await layer('reeds', reeds, [10, 12, 20, 20], { 'own:mark': 'x' }),
    await layer('dusk', fog(150)),
    await layer('dusk, warmer', fog(210), [0, 0, W, H], { visibility: 'hidden', 'own:mark': 'kept' }),
    await layer('forgotten', () => [255, 255, 255, 255], [0, 0, W, H], { 'composite-op': 'svg:multiply' }),
  ];
  const bytes = await writeOpenRaster({
    width: W,
    height: H,
    root: { attributes: {}, children },
    merged,
    thumbnail: merged,
  });
  await writeFile(at('ferry.ora'), bytes);
});

describe('layers', () => {
  test('the contract as JSON', async () => {
    await writeFile(at('dusk.json'), JSON.stringify(DUSK));
    const ran = await halflight(['layers', at('ferry.ora'), '--json', '--plan', '--intent', at('dusk.json')]);
    expect(ran.code).toBe(0);
    const { schema, layers, options, choices, plan } = JSON.parse(ran.stdout);
    expect([schema, layers.length, options]).toEqual(['halflight/layers@1', 5, [['dusk', 'dusk, warmer']]]);
    const by = Object.fromEntries(layers.map((one: { path: string }) => [one.path, one]));
    expect(by.forgotten).toMatchObject({
      name: 'forgotten',
      redundant: true,
      why: 'unseen',
      areaShare: 1,
      worth: { mean: 0, p95: 0 },
    });
    expect(by.reeds).toMatchObject({ redundant: false, mergeableWith: 'ground' });
    expect(by.reeds.areaShare).toBeCloseTo(400 / (W * H), 5);
    expect(by.dusk).toMatchObject({ redundant: false, mergeableWith: null });
    expect(by.dusk.worth.p95).toBeGreaterThan(by.dusk.worth.mean);
    expect(ran.stderr).toMatch(/Its own picture of all layers differs from ours/);
    expect(by.dusk.does).toContainEqual({
      ...{ reading: 'mood', key: 'warmCool' },
      ...{ with: expect.any(Number), without: expect.any(Number) },
    });
    const [[cool, warm]] = choices;
    expect([cool.path, warm.path]).toEqual(['dusk', 'dusk, warmer']);
    expect(warm.distance).toBeLessThan(cool.distance);
    expect(plan.map((one: { stage: string; layers: number }) => [one.stage, one.layers])).toEqual([
      ...[
        ['all', 5],
        ['seen', 4],
        ['runs', 3],
      ],
      ...[
        ['decided', 2],
        ['effects', 2],
        ['one', 1],
      ],
    ]);
  });

  test('chosen and flattened: the chosen one over one layer', async () => {
    const ran = await halflight([
      ...['layers', at('ferry.ora'), '--choose', 'dusk, warmer'],
      ...['--flatten', at('chosen.ora'), '--stage', 'effects'],
    ]);
    expect(ran.stderr).toMatch(/has 2 of the 5 layers and shows the same picture as chosen/);
    const { nodes } = await openOpenRaster(bytesSource(await readFile(at('chosen.ora')), 'chosen.ora'));
    expect(nodes.map(({ name, visible }) => [name, visible])).toEqual([
      ['ground', true],
      ['dusk, warmer', true],
    ]);
  });

  test('a layer is swept and closed; the other option is kept, hidden; the sheets are pictures', async () => {
    const ran = await halflight([
      ...['layers', at('ferry.ora'), '--json', '--intent', at('dusk.json')],
      ...['--choose', 'dusk', '--others', 'hide', '--settle', 'dusk=45,0.5', '--sweep', 'dusk'],
      ...['--sheets', at('sheets'), '--flatten', at('settled.ora'), '--stage', 'runs'],
    ]);
    expect(ran.code, ran.stderr).toBe(0);
    const { options, choices, sweep } = JSON.parse(ran.stdout);
    expect(options).toEqual([['dusk', 'dusk, warmer']]);
    expect(choices[0]).toHaveLength(2);
    expect(sweep.cells).toHaveLength(28);
    const cell = sweep.cells.find(
      (one: { turn: number; opacity: number }) => one.turn === 0 && one.opacity === 1,
    );
    expect(cell).toMatchObject({ distance: expect.any(Number), numbers: expect.any(Array) });
    // Seven across and four down of the picture's own size, twelve pixels between.
    const sheet = await sharp(at('sheets/sweep.png')).metadata();
    expect([sheet.width, sheet.height]).toEqual([7 * (W + 12) + 12, 4 * (H + 12) + 12]);
    expect((await sharp(at('sheets/options-1.png')).metadata()).width).toBe(2 * (W + 12) + 12);
    const { nodes, layer } = await openOpenRaster(
      bytesSource(await readFile(at('settled.ora')), 'settled.ora'),
    );
    const [dusk, warmer] = ['dusk', 'dusk, warmer'].map(
      (name) => nodes.find((node) => node.name === name) as StoredLayer,
    );
    expect([dusk.opacity, dusk.visible, warmer.visible]).toEqual([0.5, true, false]);
    const [before] = await sharp(await png(1, 1, () => [150, 180, 190, 255]))
      .raw()
      .toBuffer();
    const [after] = await sharp(Buffer.from(await layer(dusk)))
      .extract({ left: 0, top: 39, width: 1, height: 1 })
      .raw()
      .toBuffer();
    expect(Math.abs(after - before)).toBeGreaterThan(3);
  });

  test('text that tells what to decide', async () => {
    const { stdout } = await halflight(['layers', at('ferry.ora')]);
    expect(stdout.replace(/\s+/g, ' ')).toMatch(
      /One layer shows nothing, even up close: “forgotten”.*One of “dusk” and “dusk, warmer”.*Choose one.*Can be one layer without a visible change: “ground” and “reeds”/,
    );
  });

  test('flattened: fewer layers, the same picture, hidden and unknown things kept, the original untouched', async () => {
    const before = await readFile(at('ferry.ora'));
    const ran = await halflight(['layers', at('ferry.ora'), '--flatten', at('thin.ora')]);
    expect([ran.code, await readFile(at('ferry.ora'))]).toEqual([0, before]);
    const thin = await openOpenRaster(bytesSource(await readFile(at('thin.ora')), 'thin.ora'));
    expect(thin.nodes.map(({ name, visible }) => [name, visible])).toEqual([
      ['ground', true],
      ['dusk', true],
      ['dusk, warmer', false],
      ['forgotten', true],
    ]);
    expect(thin.nodes[2].attributes['own:mark']).toBe('kept');
    // Put together by libvips: ground, reeds and dusk are normal layers, the last one multiplies by white.
    const source = await openOpenRaster(bytesSource(before, 'ferry.ora'));
    const input = async (i: number) => Buffer.from(await source.layer(source.nodes[i] as StoredLayer));
    const reference = await sharp(await input(0))
      .composite([{ input: await input(1), left: 10, top: 12 }, { input: await input(2) }])
      .raw()
      .toBuffer();
    const merged = await sharp(Buffer.from((await thin.merged())!))
      .ensureAlpha()
      .raw()
      .toBuffer();
    const below = await thin.layer(thin.nodes[0] as StoredLayer);
    const again = await sharp(Buffer.from(below))
      .composite([{ input: Buffer.from(await thin.layer(thin.nodes[1] as StoredLayer)) }])
      .raw()
      .toBuffer();
    const most = (a: Buffer, b: Buffer) => a.reduce((m, v, i) => Math.max(m, Math.abs(v - b[i])), 0);
    expect(most(merged, reference)).toBeLessThanOrEqual(1);
    expect(most(again, reference)).toBeLessThanOrEqual(1);
  });

  test.each([
    ['no such file', 'none.ora', [], 1, /There is no file/],
    ['onto itself', 'ferry.ora', ['--flatten', at('ferry.ora')], 1, /is the picture itself/],
    ['another ending', 'ferry.ora', ['--flatten', at('x.png')], 2, /written as \.ora/],
    ['no such layer to sweep', 'ferry.ora', ['--sweep', 'sea'], 1, /no layer “sea” to sweep/],
    ['no setting', 'ferry.ora', ['--settle', 'dusk=far'], 2, /as fog=20,0\.5/],
    ['no such choice', 'ferry.ora', ['--choose', 'reeds'], 1, /“reeds” is none of the layers/],
    ['words', 'words.ora', [], 1, /not an OpenRaster file/],
  ])('%s is refused in a sentence', async (_, file, more, code, words) => {
    await writeFile(at('words.ora'), 'these are words');
    const ran = await halflight(['layers', at(file), ...more]);
    expect(ran.code).toBe(code);
    expect(ran.stderr).toMatch(words);
    expect(ran.stderr).not.toMatch(/\n\s+at /);
  });
});

describe('layers given as pictures', () => {
  beforeAll(async () => {
    await writeFile(at('ground.png'), await png(W, H, ground));
    await writeFile(at('fog.png'), await png(W, H, fog(150)));
    await sharp(at('ground.png'))
      .composite([{ input: at('fog.png') }])
      .toFile(at('flat.png'));
  });

  test('file order is the stack, and a flat picture tells a mode that was another', async () => {
    const ran = await halflight([
      ...['layers', at('ground.png'), at('fog.png'), '--mode', 'fog=multiply', '--json'],
      ...['--flat', at('flat.png'), '--flatten', at('from-pictures.ora')],
    ]);
    expect([ran.code, JSON.parse(ran.stdout).layers.map((one: { path: string }) => one.path)]).toEqual([
      0,
      ['ground', 'fog'],
    ]);
    expect(ran.stderr).toMatch(/differs from ours by up to \d+ code values of 255, on \d+ % .* a mode or an/);
    const made = await openOpenRaster(bytesSource(await readFile(at('from-pictures.ora')), 'made.ora'));
    expect(made.nodes.map(({ blend }) => blend)).toEqual(['normal', 'multiply']);
  });

  test('two flat pictures tell what one layer is worth', async () => {
    const ran = await halflight(['layers', at('flat.png'), '--without', at('ground.png'), '--json']);
    const { layers } = JSON.parse(ran.stdout);
    expect([ran.code, layers.length, layers[0].path, layers[0].redundant]).toEqual([0, 1, 'flat.png', false]);
    expect(layers[0].worth.p95).toBeGreaterThan(layers[0].worth.mean);
    expect(layers[0].worth.mean).toBeGreaterThan(1);
  });
});

describe('check of a layered picture', () => {
  test('reads it as it is seen, and says what is undecided', async () => {
    const { code, stdout } = await halflight(['check', '--json', at('ferry.ora')]);
    expect(code).toBe(0);
    const { picture, readings, findings } = JSON.parse(stdout);
    expect(picture).toMatchObject({ name: 'ferry.ora', width: W, height: H });
    expect(readings.openDecisions).toMatchObject({
      evidence: 'strong',
      layers: 5,
      idle: ['forgotten'],
      options: [['dusk', 'dusk, warmer']],
    });
    expect(findings.map((finding: { key: string }) => finding.key)).toEqual(
      expect.arrayContaining(['openDecisions.options', 'openDecisions.idle']),
    );
  });
});
