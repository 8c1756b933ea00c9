import { describe, expect, test } from 'vitest';
import { SRGB } from '../../src/colour/rgbSpaces.ts';
import { compositeStack } from '../../src/layers/canvas.ts';
import { largestDifference } from '../../src/layers/compare.ts';
import { flattenPlan, type StageName } from '../../src/layers/plan.ts';
import { readLayers } from '../../src/layers/read.ts';
import type { LayerNode, LayerStack } from '../../src/layers/stack.ts';
import { thinStack } from '../../src/layers/thin.ts';
import { runToEnd } from '../../src/proposal/propose.ts';
import { HEIGHT, layer, noise, plantedStack, WIDTH } from './planted.ts';

const ALL = [0, 0, WIDTH, HEIGHT];
const stackOf = (...nodes: LayerNode[]): LayerStack => ({ width: WIDTH, height: HEIGHT, nodes });
const planOf = (stack: LayerStack) => {
  const stages = runToEnd(flattenPlan(stack, readLayers(stack, 8, SRGB), 8, SRGB));
  return Object.fromEntries(stages.map((stage) => [stage.name, stage])) as Record<
    StageName,
    (typeof stages)[number]
  >;
};

describe('forty layers with planted open decisions', () => {
  const { stack, invisible, options } = plantedStack();
  const plan = planOf(stack);
  const names = Object.keys(plan) as StageName[];

  test('fewer layers from stage to stage, down to one', () => {
    // 40; without the 12 idle; 5 that become one with the layer below, less what modes above do not allow; 3 options.
    const made = plan.runs.merged.reduce((sum, run) => sum + run.length - 1, 0);
    expect([4, 5]).toContain(made);
    expect(names.map((name) => plan[name].layers)).toEqual([
      ...[40, 28, 28 - made, 25 - made],
      ...[plan.effects.layers, 1],
    ]);
    expect(plan.effects.layers).toBeLessThan(plan.decided.layers);
  });

  test('what goes is what was planted', () => {
    expect([...plan.seen.dropped].sort()).toEqual([...invisible].sort());
    expect([...plan.decided.lost.options].sort()).toEqual(options.flatMap((set) => set.slice(1)).sort());
  });

  test.each(names)('%s: the picture stays within one code value of the one without what goes', (name) => {
    const { dropped } = plan[name];
    const kept = thinStack(stack, { dropped, merged: [], through: null }, 8, SRGB);
    const meant = compositeStack(kept, 8, SRGB);
    const after = compositeStack(thinStack(stack, plan[name], 8, SRGB), 8, SRGB);
    expect(largestDifference(meant, after)).toBeLessThanOrEqual(1);
    expect(plan[name].lost.mean).toBeLessThan(0.2);
  });
});

test('of two layers that hide each other only one can go', () => {
  const ground = layer('ground', ALL, (x, y) => [90 + x, 80 + y, 120 + 20 * noise(x, y, 1), 255]);
  const same = (name: string) => layer(name, [20, 10, 30, 30], () => [200, 40, 60, 255]);
  const stack = stackOf(ground, same('first'), same('second'));
  const reading = readLayers(stack, 8, SRGB);
  expect(reading.layers.filter(({ redundant }) => redundant).map(({ path }) => path)).toEqual([
    'first',
    'second',
  ]);
  const plan = planOf(stack);
  expect(plan.seen.dropped.length).toBe(1);
  expect(plan.seen.lost.codes).toBe(0);
});

test('an effect under paint is named as lost, one over it stays', () => {
  const ground = layer('ground', ALL, (x, y) => [90 + x, 80 + y, 120 + 20 * noise(x, y, 1), 255]);
  const fog = (name: string) => layer(name, ALL, (_, y) => [180, 190, 200, 2 * y]);
  const boat = layer('boat', [20, 10, 30, 30], (x, y) => [80 * noise(x, y, 3), 50, 40, 255]);
  const plan = planOf(stackOf(ground, fog('far'), boat, fog('near')));
  expect([plan.effects.layers, plan.effects.through, plan.effects.lost.effects]).toEqual([
    2,
    'boat',
    ['far'],
  ]);
  expect([plan.one.layers, plan.one.lost.effects]).toEqual([1, ['far', 'near']]);
});
