import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { carryOutline, type Pose, SAME_POSE, toEarlier, toLater } from '../../src/progress/pose.ts';
import { register } from '../../src/progress/register.ts';
import type { View } from '../../src/views/view.ts';

/** A landscape of soft bands, blobs and one mast, sampled anywhere: u, v in shares. */
function tone(u: number, v: number): number {
  const bands = 0.35 + 0.25 * Math.sin(9 * v + 2 * Math.sin(5 * u)) + 0.15 * Math.sin(23 * u + 11 * v * v);
  const mast = Math.abs(u - 0.31) < 0.012 && v > 0.2 && v < 0.7 ? -0.3 : 0;
  return Math.max(0.01, bands + mast + 0.2 * Math.exp(-((u - 0.7) ** 2 + (v - 0.35) ** 2) / 0.01));
}

/** What a later version shows when it lies on the earlier one in this pose. */
function shown(pose: Pose, width: number, height: number, scale = 1): View {
  const rgb = new Float32Array(3 * width * height);
  for (let p = 0; p < width * height; p++) {
    const [u, v] = toEarlier(pose, ((p % width) + 0.5) / width, (Math.floor(p / width) + 0.5) / height);
    rgb.fill(tone(u, v), 3 * p, 3 * p + 3);
  }
  return { width, height, rgb, alpha: null, scale };
}

const earlier = shown(SAME_POSE, 480, 320);
const pose = (part: Partial<Pose>): Pose => ({ ...SAME_POSE, ...part });

describe('a later version is found on the earlier one', () => {
  test.each<[string, Pose, number, number]>([
    ['the same', SAME_POSE, 480, 320],
    ['half the size', SAME_POSE, 240, 160],
    ['mirrored', pose({ mirrored: true }), 480, 320],
    ['a quarter turn', pose({ turns: 1 }), 320, 480],
    ['half a turn, mirrored', pose({ turns: 2, mirrored: true }), 480, 320],
    ['a crop of the same pixels', pose({ x: 0.25, y: 0.125, width: 0.5, height: 0.75 }), 240, 240],
    ['a larger canvas', pose({ x: -0.25, y: -0.25, width: 1.5, height: 1.5 }), 720, 480],
    ['a crop, enlarged', pose({ x: 0.2, y: 0.3, width: 0.6, height: 0.6 }), 480, 320],
  ])('%s', (_, truth, width, height) => {
    const found = register(earlier, shown(truth, width, height));
    expect(found).not.toBeNull();
    expect([found!.pose.mirrored, found!.pose.turns]).toEqual([truth.mirrored, truth.turns]);
    for (const key of ['x', 'y', 'width', 'height'] as const)
      expect(Math.abs(found!.pose[key] - truth[key])).toBeLessThan(0.008);
  });

  test('another picture with the same soft ground is not, nor a part of it', () => {
    const soft = (light: (u: number, v: number) => number): View => {
      const view = shown(SAME_POSE, 300, 200);
      for (let p = 0; p < 300 * 200; p++)
        view.rgb.fill(light((p % 300) / 300, p / 300 / 200), 3 * p, 3 * p + 3);
      return view;
    };
    const patches = (u: number, v: number): number =>
      v > 0.35 && v < 0.65 ? 0.3 * (Math.floor(6 * u) % 2) : 0;
    const first = soft((u, v) => (v > 0.8 ? 0.01 : 0.1 + 0.05 * v + patches(u, v)));
    const second = soft(
      (u, v) => 0.1 + 0.3 * v + 0.04 * Math.sin(6 * u) + (Math.abs(u - 0.5) < 0.1 && v > 0.5 ? 0.1 : 0),
    );
    expect(register(first, second)).toBeNull();
  });

  test('another picture is not', () => {
    const other = shown(SAME_POSE, 480, 320);
    for (let p = 0; p < 480 * 320; p++) {
      const v = 0.3 + 0.2 * Math.sin(((p % 480) * 0.31 * Math.floor(p / 480)) / 40);
      other.rgb.fill(v, 3 * p, 3 * p + 3);
    }
    expect(register(earlier, other)).toBeNull();
  });
});

test('points travel to the later picture and back', () => {
  const share = fc.double({ min: 0.05, max: 1, noNaN: true });
  fc.assert(
    fc.property(
      fc.boolean(),
      fc.constantFrom(0, 1, 2, 3),
      share,
      share,
      share,
      share,
      (mirrored, turns, x, y, w, h) => {
        const any: Pose = { mirrored, turns: turns as Pose['turns'], x, y, width: w, height: h };
        const [u, v] = toLater(any, ...toEarlier(any, 0.3, 0.6));
        expect(u).toBeCloseTo(0.3, 9);
        expect(v).toBeCloseTo(0.6, 9);
      },
    ),
  );
  expect(carryOutline(pose({ mirrored: true }), [0, 0, 0.25, 1])).toEqual([1, 0, 0.75, 1]);
});
