import { describe, expect, test } from 'vitest';
import { SRGB } from '../../src/colour/rgbSpaces.ts';
import { type BlendMode, NON_SEPARABLE, SEPARABLE } from '../../src/layers/blend.ts';
import { compositeStack } from '../../src/layers/canvas.ts';
import { lineRunner } from '../../src/layers/lines.ts';
import { OPERATORS, type Operator } from '../../src/layers/meet.ts';
import { placeRunner } from '../../src/layers/place.ts';
import { programOf } from '../../src/layers/program.ts';
import type { LayerNode } from '../../src/layers/stack.ts';
import { layer, noise } from './planted.ts';

const SIZE = { width: 6, height: 4 };
const BLENDS = [...Object.keys(SEPARABLE), ...Object.keys(NON_SEPARABLE)] as BlendMode[];
/** Modes that are straight lines in the backdrop. */
const LINES: readonly BlendMode[] = ['normal', 'multiply', 'screen', 'exclusion', 'hard-light'];
const OPERATIONS = Object.keys(OPERATORS) as Operator[];

/** A tree of layers and groups with any mode, that is the same every time. */
function treeOf(seed: number, modes?: readonly BlendMode[]): LayerNode[] {
  let draws = seed * 977;
  const chance = (): number => noise(draws++, 3, seed);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(chance() * list.length)];
  let count = 0;
  const nodes = (depth: number, most: number): LayerNode[] =>
    Array.from({ length: 1 + Math.floor(chance() * most) }, (): LayerNode => {
      const name = `${count++}`;
      const blend = chance() < 0.5 ? 'normal' : pick(modes ?? BLENDS);
      const any = blend === 'normal' && chance() < 0.3 && !modes;
      const operator = any ? pick(OPERATIONS) : 'source-over';
      const how = { blend, operator, opacity: pick([1, 0.6, 0.2]), visible: chance() < 0.9 } as const;
      if (depth > 0 && chance() < 0.35) {
        const isolated = how.blend !== 'normal' || how.operator !== 'source-over' || how.opacity < 1;
        // Lines alone: groups that are none of their own.
        const group = modes ? ({ ...how, blend: 'normal', opacity: 1 } as const) : how;
        return {
          ...group,
          ...{ kind: 'group', path: name, name, isolated: !modes && (isolated || chance() < 0.5) },
          children: nodes(depth - 1, 4),
        };
      }
      const [x, y] = [Math.floor(5 * chance()) - 1, Math.floor(4 * chance()) - 1];
      const grain = Math.floor(1000 * chance());
      return layer(
        name,
        [x, y, 4, 3],
        (u, v) => [
          255 * noise(u, v, grain),
          255 * noise(u, v, grain + 1),
          255 * noise(u, v, grain + 2),
          pick([0, 90, 255]),
        ],
        how,
      );
    });
  return nodes(3, 6);
}

const dropped = (nodes: readonly LayerNode[], gone: LayerNode): LayerNode[] =>
  nodes
    .filter((node) => node !== gone)
    .map((node) => (node.kind === 'group' ? { ...node, children: dropped(node.children, gone) } : node));

/** The largest difference of a pixel of colour times alpha to one of a picture that was put together layer by layer. */
function difference(pixel: Float64Array, data: ArrayLike<number>, at: number): number {
  const a = data[at + 3] / 65535;
  let most = Math.abs(pixel[3] - a);
  for (let c = 0; c < 3; c++) most = Math.max(most, Math.abs(pixel[c] - (a * data[at + c]) / 65535));
  return most;
}

describe('a picture without a part is the picture that is put together without it', () => {
  // The canvas puts layers together by the standard's formulas one after the other (meet.test.ts): no lines there.
  const seeds = Array.from({ length: 60 }, (_, seed) => seed);
  test.each([
    ...seeds.map((seed) => [seed, 'any mode', placeRunner] as const),
    ...seeds.map((seed) => [seed, 'lines where there are', lineRunner] as const),
    ...seeds.map((seed) => [seed, 'lines alone', lineRunner] as const),
  ])('tree %i, %s', (seed, what, open) => {
    const nodes = treeOf(seed, what === 'lines alone' ? LINES : undefined);
    const program = programOf(nodes);
    const runner = open(program);
    const whole = compositeStack({ ...SIZE, nodes }, 16, SRGB).data;
    const others = program.parts.map(
      ({ node }) => compositeStack({ ...SIZE, nodes: dropped(nodes, node) }, 16, SRGB).data,
    );
    const out = new Float64Array(4);
    for (let y = 0; y < SIZE.height; y++)
      for (let x = 0; x < SIZE.width; x++) {
        const at = 4 * (y * SIZE.width + x);
        runner.at(x, y);
        expect(difference(runner.result, whole, at)).toBeLessThan(3e-5);
        const present = new Set(runner.parts.list.subarray(0, runner.parts.count));
        program.parts.forEach((_, k) => {
          const changed = present.has(k) && runner.without(k, out);
          expect(difference(changed ? out : runner.result, others[k], at), `part ${k}`).toBeLessThan(3e-5);
        });
      }
  });
});
