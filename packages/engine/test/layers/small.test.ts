import { describe, expect, test } from 'vitest';
import { linearToOklab, oklabToOklch } from '../../src/colour/oklab.ts';
import { SRGB } from '../../src/colour/rgbSpaces.ts';
import { type Intent, OPEN_INTENT } from '../../src/intent/intent.ts';
import { MOOD_AXES } from '../../src/intent/moodAxes.ts';
import { doesSentence, whatLayersDo } from '../../src/layers/does.ts';
import { readLayers } from '../../src/layers/read.ts';
import { optionPictures, smallStack } from '../../src/layers/small.ts';
import type { LayerStack } from '../../src/layers/stack.ts';
import { layerSweep, turnHues } from '../../src/layers/sweep.ts';
import { runToEnd } from '../../src/proposal/propose.ts';
import { HEIGHT, layer, noise, WIDTH } from './planted.ts';

const ALL = [0, 0, WIDTH, HEIGHT];
const ground = layer('ground', ALL, (x, y) => [
  90 + 40 * noise(x, y, 2),
  100,
  120 + 40 * noise(x, y, 1),
  255,
]);
const glow = (name: string, rgb: readonly number[], visible: boolean) =>
  layer(name, ALL, (_, y) => [rgb[0], rgb[1], rgb[2], 30 + 2 * y], { visible });
const stack: LayerStack = {
  width: WIDTH,
  height: HEIGHT,
  nodes: [ground, glow('warm', [230, 130, 60], true), glow('cool', [60, 110, 230], false)],
};
const reading = readLayers(stack, 8, SRGB);
const warm: Intent = { ...OPEN_INTENT, mood: { words: [], axes: { warmCool: { at: 0.2, tolerance: 0.1 } } } };

test('hiding a warm glow makes the picture cooler, and it is said so', () => {
  const does = runToEnd(whatLayersDo(reading));
  expect([...does.keys()]).toEqual(['warm']);
  const warmth = does.get('warm')!.find(({ key }) => key === 'warmCool')!;
  expect(warmth.with! - warmth.without!).toBeGreaterThan(MOOD_AXES.warmCool.step);
  expect(doesSentence(does.get('warm')!)).toMatch(/^It .*makes the picture warmer \(-0\.\d\d\s→\s/);
  expect(doesSentence([])).toBeNull();
});

test('of two options the one that suits the mood is nearer to it', () => {
  const small = smallStack(stack, 48);
  expect(Math.max(small.width, small.height)).toBeLessThanOrEqual(48);
  const pictures = [...optionPictures(small, SRGB, ['warm', 'cool'], warm)];
  expect(pictures.map(({ path }) => path)).toEqual(['warm', 'cool']);
  expect(pictures[0].distance!).toBeLessThan(pictures[1].distance!);
  // Only the one is shown: a red that is more than the blue, and the other way round.
  const mean = (c: number, k: number) =>
    pictures[k].view.rgb.reduce((sum, v, i) => (i % 3 === c ? sum + v : sum), 0);
  expect([mean(0, 0) > mean(2, 0), mean(0, 1) > mean(2, 1)]).toEqual([true, false]);
});

describe('sweep', () => {
  test('hues across, strength down; the middle of the row at its own strength is the picture as it is', () => {
    const cells = [...layerSweep(smallStack(stack, 48), SRGB, 'warm', warm)];
    expect(cells.length).toBeGreaterThanOrEqual(12);
    expect(cells.length).toBeLessThanOrEqual(30);
    const [as] = [...optionPictures(smallStack(stack, 48), SRGB, ['warm', 'cool'])];
    const own = cells.find(({ turn, opacity }) => turn === 0 && opacity === 1)!;
    own.view.rgb.forEach((v, i) => {
      expect(Math.abs(v - as.view.rgb[i])).toBeLessThan(2e-4);
    });
    const cool = cells.find(({ turn, opacity }) => turn === 90 && opacity === 1)!;
    expect(cool.distance!).toBeGreaterThan(own.distance!);
  });

  test('grey has no hue to turn, only strength', () => {
    const fog = layer('fog', ALL, (_, y) => [180, 180, 180, 2 * y]);
    const cells = [...layerSweep({ ...stack, nodes: [ground, fog] }, SRGB, 'fog')];
    expect(new Set(cells.map(({ turn }) => turn))).toEqual(new Set([0]));
  });

  test('a layer that is not there', () =>
    expect(() => [...layerSweep(stack, SRGB, 'none')]).toThrow(/no layer “none”/));
});

test.each([8, 16] as const)('turning hues keeps lightness, chroma and alpha in OKLCh, %i bit', (depth) => {
  const k = depth === 8 ? 1 : 257;
  const data = (depth === 8 ? Uint8Array : Uint16Array).from([150 * k, 110 * k, 120 * k, 77 * k]);
  const raster = { width: 1, height: 1, channels: 4 as const, depth, data, space: SRGB };
  const lch = (of: ArrayLike<number>) => {
    // IEC 61966-2-1, the transfer function of sRGB.
    const linear = [0, 1, 2].map((c) => ((of[c] / (255 * k) + 0.055) / 1.055) ** 2.4);
    return oklabToOklch(linearToOklab(linear as [number, number, number]));
  };
  const turned = turnHues(raster, 40);
  const [L, c, h] = lch(data);
  const [L2, c2, h2] = lch(turned.data);
  const loose = depth === 8 ? 0.006 : 1e-4;
  expect(Math.abs(L - L2)).toBeLessThan(loose);
  expect(Math.abs(c - c2)).toBeLessThan(loose);
  expect(Math.abs(((h2 - h + 360) % 360) - 40)).toBeLessThan(depth === 8 ? 6 : 0.1);
  expect(turned.data[3]).toBe(77 * k);
});
