import { DELIVERY_SPACES, layerSweep, OPEN_INTENT, SRGB, smallStack } from '@halflight/engine';
import sharp from 'sharp';
import { afterAll, describe, expect, test } from 'vitest';
import { choose, flatten, gather, KEEP_ALL, planStages, setLayer, weigh } from '../../src/layers/index.ts';
import { openCodec } from '../../src/node/index.ts';
import {
  bytesSource,
  openOpenRaster,
  type StoredLayer,
  writeOpenRaster,
} from '../../src/openraster/index.ts';
import { codesOf, landing } from './made.ts';

const codec = await openCodec();
afterAll(() => codec.close());
const how = { codec, limitMegapixels: 100 };
const file = await landing();
const gathered = await gather(file, how);
const reading = await weigh(gathered);
const stages = await planStages(gathered, reading);
const again = (bytes: Uint8Array<ArrayBuffer>) => openOpenRaster(bytesSource(bytes, 'again.ora'));
const most = (a: ArrayLike<number>, b: ArrayLike<number>) => {
  let m = 0;
  for (let i = 0; i < a.length; i++) m = Math.max(m, Math.abs(a[i] - b[i]));
  return m;
};

/** Normal layers put together by libvips. */
async function byLibvips(paths: readonly string[]): Promise<Uint8Array> {
  const inputs = [];
  for (const path of paths) {
    const node = file.nodes.find((one) => one.path === path) as StoredLayer;
    const data = await codesOf(await file.layer(node));
    for (let i = 3; i < data.length; i += 4) data[i] = Math.round(data[i] * node.opacity);
    const raw = { width: file.width, height: file.height, channels: 4 } as const;
    inputs.push({
      input: await sharp(data, { raw }).png().toBuffer(),
    });
  }
  const [first, ...rest] = inputs;
  return codesOf(await sharp(first.input).composite(rest).png().toBuffer());
}

describe('every stage of the plan as a file', async () => {
  const reference = await byLibvips(['ground', 'reeds', 'dusk', 'glow']);
  test.each(stages.map((stage) => [stage.name, stage] as const))('%s', async (_, stage) => {
    const written = await flatten(file, gathered, stage, how);
    const back = await again(written.bytes);
    expect([written.layers, written.difference <= 1]).toEqual([stage.layers, true]);
    // Another library's arithmetic: it cuts fractions off where layers meet.
    const merged = await codesOf((await back.merged())!);
    expect(most(merged, reference)).toBeLessThanOrEqual(2);
    const { composite } = await gather(back, how);
    expect(most((await composite()).data, (await gathered.composite()).data)).toBeLessThanOrEqual(1);
  });

  test('from all to one', () => expect(stages.map(({ layers }) => layers)).toEqual([6, 5, 4, 3, 3, 1]));
});

describe('choosing', () => {
  test.each([
    ['drop', 5],
    ['hide', 6],
  ] as const)('the others: %s', async (others, left) => {
    const chosen = choose(file, reading.options, 'dusk, warmer', others);
    const { bytes } = await flatten(chosen, await gather(chosen, how), KEEP_ALL, how);
    const back = await again(bytes);
    expect(back.nodes.length).toBe(left);
    const warmer = back.nodes.find(({ path }) => path === 'dusk, warmer')!;
    expect([warmer.visible, warmer.attributes['own:mark']]).toEqual([true, 'kept']);
    expect(back.nodes.find(({ path }) => path === 'dusk')?.visible ?? false).toBe(false);
    const merged = await codesOf((await back.merged())!);
    expect(most(merged, await byLibvips(['ground', 'reeds', 'dusk, warmer', 'glow']))).toBeLessThanOrEqual(2);
  });

  test('what is no choice', () =>
    expect(() => choose(file, reading.options, 'ground')).toThrow(
      /“ground” is none of the layers .* Choose from: “dusk” or “dusk, warmer”/s,
    ));
});

test('a cell of a sweep is written at full size: the picture is the cell', async () => {
  const small = smallStack(gathered.stack, 60);
  const cell = [...layerSweep(small, SRGB, 'glow', OPEN_INTENT)].find(
    ({ turn, opacity }) => turn === 90 && opacity === 1,
  )!;
  const set = setLayer(file, 'glow', cell, how);
  const { bytes } = await flatten(set, await gather(set, how), KEEP_ALL, how);
  const back = await again(bytes);
  const glow = back.nodes.find(({ path }) => path === 'glow')!;
  expect([glow.opacity, glow.blend]).toEqual([1, 'normal']);
  const merged = await codesOf((await back.merged())!);
  cell.view.rgb.forEach((linear, i) => {
    // IEC 61966-2-1, the transfer function of sRGB.
    const code = 255 * (linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055);
    // The 8-bit layer is dithered when it is turned.
    expect(Math.abs(merged[4 * Math.floor(i / 3) + (i % 3)] - code)).toBeLessThan(2.5);
  });
  expect(() => setLayer(file, 'none', cell, how)).toThrow(/has no layer “none”/);
});

test('16 bit and a profile stay: made one it is the formula within one code of 65 535, in the layers’ own space', async () => {
  const [width, height] = [24, 16];
  const space = DELIVERY_SPACES['display-p3'];
  const painted = async (paint: (x: number, y: number) => readonly number[]) => {
    const data = Uint16Array.from({ length: 4 * width * height }, (_, i) => {
      const p = i >> 2;
      return paint(p % width, Math.floor(p / width))[i % 4];
    });
    const raster = { width, height, channels: 4, depth: 16, data, space } as const;
    return {
      data,
      png: new Uint8Array(await codec.encode(raster, { format: 'png', profile: 'display-p3' })),
    };
  };
  const ground = await painted((x, y) => [60_001 - 901 * x, 20_003 + 1501 * y, 7001 + 97 * x, 65535]);
  const wash = await painted((x, y) => [50_021, 41_003 - 301 * y, 30_011, 2501 * x]);
  const layer = (name: string, { png }: typeof ground, more: Record<string, string> = {}) => ({
    attributes: { name, ...more },
    x: 0,
    y: 0,
    png,
  });
  const bytes = await writeOpenRaster({
    width,
    height,
    root: {
      attributes: {},
      children: [
        layer('ground', ground),
        layer('wash', wash, { 'composite-op': 'svg:multiply', opacity: '0.5' }),
      ],
    },
    merged: ground.png,
    thumbnail: ground.png,
  });
  const deep = await openOpenRaster(bytesSource(bytes, 'deep.ora'));
  const read = await gather(deep, how);
  const made = await flatten(deep, read, { dropped: [], merged: [], through: 'wash' }, how);
  const back = await again(made.bytes);
  expect(back.nodes).toHaveLength(1);
  const one = await codec.decode(await back.layer(back.nodes[0] as StoredLayer), { name: 'one.png' });
  const merged = await codec.decode((await back.merged())!, { name: 'merged.png' });
  for (const { raster, profile } of [one, merged]) {
    expect([raster.depth, raster.space.name]).toEqual([16, space.name]);
    expect(profile).toEqual(read.profile);
    // W3C Compositing and Blending Level 1: multiply over an opaque backdrop.
    let far = 0;
    for (let p = 0; p < width * height; p++)
      for (let c = 0; c < 3; c++) {
        const [b, s, a] = [ground.data[4 * p + c], wash.data[4 * p + c], wash.data[4 * p + 3]];
        const as = (0.5 * a) / 65535;
        far = Math.max(
          far,
          Math.abs((1 - as) * b + (as * b * s) / 65535 - raster.data[raster.channels * p + c]),
        );
      }
    expect(far).toBeLessThanOrEqual(1);
  }
});
