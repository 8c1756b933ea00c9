import { describe, expect, test } from 'vitest';
import { ciede2000 } from '../../src/colour/ciede2000.ts';
import { linearToCielab } from '../../src/colour/cielab.ts';
import { SRGB } from '../../src/colour/rgbSpaces.ts';
import { compositeStack } from '../../src/layers/canvas.ts';
import { readLayers } from '../../src/layers/read.ts';
import { reduceStack } from '../../src/layers/reduce.ts';
import type { LayerGroup, LayerNode, LayerStack } from '../../src/layers/stack.ts';
import { makeCloseView } from '../../src/views/average.ts';
import { makeWholeView } from '../../src/views/resample.ts';
import { HEIGHT, layer, noise, plantedStack, WIDTH } from './planted.ts';

const planted = plantedStack();
const reading = readLayers(planted.stack, 8, SRGB);
const of = (path: string) => reading.layers.find((one) => one.path === path)!;

describe('forty layers with planted open decisions', () => {
  test('there are forty', () => expect(reading.layers.length).toBe(40));

  test('all twelve that show nothing are found, and no other', () => {
    expect(planted.invisible.length).toBe(12);
    expect(reading.layers.filter(({ redundant }) => redundant).map(({ path }) => path)).toEqual(
      planted.invisible,
    );
  });

  test('why they show nothing', () => {
    const empty = ['empty', 'beside the picture'];
    for (const { path, why, redundant } of reading.layers)
      expect([path, why]).toEqual([path, redundant ? (empty.includes(path) ? 'empty' : 'unseen') : null]);
  });

  test('all five that become one with the layer below are found, and no other', () => {
    const found = reading.layers.filter((one) => one.mergeableWith !== null);
    expect(found.map(({ path, mergeableWith }) => [mergeableWith, path])).toEqual(planted.mergeable);
    expect(found.length).toBe(5);
  });

  test('both sets of options are found, and no other', () => {
    expect(reading.options).toEqual(planted.options);
  });

  test('effects stay effects: every blend mode and the fog', () => {
    for (const { path, kind } of reading.layers)
      if (path.startsWith('light ') || path.startsWith('dusk'))
        expect([path, kind]).toEqual([path, 'effect']);
    expect(of('ground').kind).toBe('paint');
  });
});

/** The worth by its definition: two pictures, one without the layer, each seen whole. */
function byDefinition(
  { width, height, nodes }: LayerStack,
  without: LayerNode,
): { mean: number; p95: number } {
  const drop = (list: readonly LayerNode[]): LayerNode[] =>
    list
      .filter((node) => node !== without)
      .map((node) => (node.kind === 'group' ? { ...node, children: drop(node.children) } : node));
  const [a, b] = [nodes, drop(nodes)].map((list) =>
    makeWholeView(makeCloseView(compositeStack({ width, height, nodes: list }, 16, SRGB))),
  );
  const differences = Array.from({ length: a.width * a.height }, (_, p) =>
    ciede2000(
      linearToCielab([a.rgb[3 * p], a.rgb[3 * p + 1], a.rgb[3 * p + 2]]),
      linearToCielab([b.rgb[3 * p], b.rgb[3 * p + 1], b.rgb[3 * p + 2]]),
    ),
  ).sort((x, y) => x - y);
  const mean = differences.reduce((sum, v) => sum + v, 0) / differences.length;
  return { mean, p95: differences[Math.floor(0.95 * differences.length)] };
}

test('the worth is that of two pictures seen whole, one of them without the layer', () => {
  for (const path of ['light multiply', 'light color', 'dusk one', 'boat', 'glint', 'lamp warm']) {
    const node = planted.stack.nodes.find((one) => one.path === path)!;
    const { mean, p95 } = byDefinition(planted.stack, node);
    expect(Math.abs(of(path).worth.mean - mean), path).toBeLessThan(0.01 + 0.01 * mean);
    expect(Math.abs(of(path).worth.p95 - p95), path).toBeLessThan(0.02 + 0.02 * p95);
  }
});

describe('groups', () => {
  const low = layer('low', [0, 0, WIDTH, HEIGHT], (x, y) => [90 + x, 80 + y, 120 + 20 * noise(x, y, 1), 255]);
  const dark = layer('dark', [10, 10, 50, 40], () => [120, 130, 160, 255], { blend: 'multiply' });
  const spot = layer('spot', [30, 20, 20, 20], () => [220, 160, 60, 200]);
  const group = (isolated: boolean, opacity = 1): LayerGroup => ({
    ...{
      kind: 'group',
      path: 'group',
      name: 'group',
      visible: true,
      blend: 'normal',
      operator: 'source-over',
    },
    ...{ opacity, isolated, children: [dark, spot] },
  });
  const stack = (...nodes: LayerNode[]): LayerStack => ({ width: WIDTH, height: HEIGHT, nodes });
  const pixels = (of: LayerStack) => compositeStack(of, 8, SRGB).data;

  test('one that is not isolated is as if it was not there', () => {
    expect(pixels(stack(low, group(false)))).toEqual(pixels(stack(low, dark, spot)));
  });

  test('in an isolated one a multiply layer has nothing to multiply with (section 3 of the standard)', () => {
    const plain = { ...dark, blend: 'normal' as const };
    expect(pixels(stack(low, group(true)))).toEqual(pixels(stack(low, plain, spot)));
    expect(pixels(stack(low, group(true)))).not.toEqual(pixels(stack(low, group(false))));
  });

  test.each([
    ['isolated, half', group(true, 0.5)],
    ['not isolated', group(false)],
  ])('%s: the group and what is in it are weighed', (_, one) => {
    const weighed = readLayers(stack(low, one), 8, SRGB);
    for (const node of [one, ...one.children]) {
      const { worth } = weighed.layers.find(({ path }) => path === node.path)!;
      const { mean } = byDefinition(stack(low, one), node);
      expect(Math.abs(worth.mean - mean)).toBeLessThan(0.01 + 0.01 * mean);
    }
  });
});

test('a larger picture weighs the same at its close view', () => {
  const small = reduceStack(planted.stack, (WIDTH * HEIGHT) / 2);
  expect(small.width * small.height).toBeLessThanOrEqual((WIDTH * HEIGHT) / 2);
  const again = readLayers(small, 8, SRGB);
  for (const path of ['light multiply', 'dusk one', 'boat']) {
    const { worth } = again.layers.find((one) => one.path === path)!;
    expect(Math.abs(worth.mean - of(path).worth.mean), path).toBeLessThan(0.1 + 0.05 * worth.mean);
  }
});
