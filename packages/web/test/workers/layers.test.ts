import { type LayerGroup, type PaintedLayer, SRGB } from '@halflight/engine';
import { expect, test } from 'vitest';
import { NO_CHOICES } from '../../src/document/layers.ts';
import { decidedNodes } from '../../src/workers/layers/choices.ts';
import { differenceOf, openLooker } from '../../src/workers/layers/look.ts';

const SIZE = { width: 4, height: 2 };

/** A layer of one colour. */
function layer(path: string, colour: readonly number[], visible = true): PaintedLayer {
  const data = Uint8Array.from({ length: 4 * SIZE.width * SIZE.height }, (_, i) => colour[i % 4]);
  return {
    kind: 'layer',
    path,
    name: path,
    visible,
    blend: 'normal',
    operator: 'source-over',
    opacity: 1,
    x: 0,
    y: 0,
    raster: { ...SIZE, channels: 4, depth: 8, data, space: SRGB },
  };
}

const ground = layer('ground', [100, 110, 120, 255]);
const warm = layer('lamps/warm', [250, 180, 60, 255]);
const cool = layer('lamps/cool', [60, 180, 250, 255], false);
const lamps: LayerGroup = {
  kind: 'group',
  path: 'lamps',
  name: 'lamps',
  visible: true,
  isolated: false,
  blend: 'normal',
  operator: 'source-over',
  opacity: 1,
  children: [warm, cool],
};
const nodes = [ground, lamps];

test('what nothing was decided about stays the same object', () => {
  expect(decidedNodes(nodes, NO_CHOICES)).toEqual(nodes);
  const settled = { ...NO_CHOICES, settled: [{ path: 'ground', turn: 0, opacity: 0.5 }] };
  const [below, group] = decidedNodes(nodes, settled);
  expect(below).toMatchObject({ opacity: 0.5 });
  expect(group).toBe(lamps);
});

test('of a set one is visible, and the others are gone or hidden', () => {
  const chosen = (others: 'drop' | 'hide') => ({
    ...NO_CHOICES,
    chosen: [{ set: ['lamps/warm', 'lamps/cool'], kept: 'lamps/cool', others }],
  });
  const paths = (others: 'drop' | 'hide') =>
    (decidedNodes(nodes, chosen(others))[1] as LayerGroup).children.map(({ path, visible }) => [
      path,
      visible,
    ]);
  expect(paths('drop')).toEqual([['lamps/cool', true]]);
  expect(paths('hide')).toEqual([
    ['lamps/warm', false],
    ['lamps/cool', true],
  ]);
});

test('a look turns what is visible about, and only that', () => {
  const [below, group] = decidedNodes(nodes, NO_CHOICES, ['lamps/warm']);
  expect(below).toBe(ground);
  expect((group as LayerGroup).children.map(({ visible }) => visible)).toEqual([false, false]);
});

test('a group that is thinned is put together on its own', () => {
  const settled = { ...NO_CHOICES, settled: [{ path: 'lamps', turn: 0, opacity: 0.5 }] };
  expect(decidedNodes(nodes, settled)[1]).toMatchObject({ opacity: 0.5, isolated: true });
});

test('a look that keeps what lies below is the same as one from the ground up', () => {
  const size = { ...SIZE, nodes };
  const kept = openLooker(size, SRGB);
  for (const turned of [[], ['lamps/warm'], [], ['lamps/cool'], ['ground'], []]) {
    const now = decidedNodes(nodes, NO_CHOICES, turned);
    expect(kept.composite(now).data).toEqual(openLooker(size, SRGB).composite(now).data);
  }
});

test.each([
  ['the same', [100, 110, 120, 255], 0, 0],
  ['one code value is not told as a place', [101, 110, 120, 255], 1, 0],
  ['four code values are', [100, 114, 120, 255], 4, 1],
  ['a hole is', [100, 110, 120, 0], 255, 1],
])('difference: %s', (_, colour, most, share) => {
  const found = differenceOf(ground.raster, layer('other', colour as number[]).raster);
  expect(found.most).toBeCloseTo(most as number, 3);
  expect(found.share).toBe(share);
});
