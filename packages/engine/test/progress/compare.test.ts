import { describe, expect, test } from 'vitest';
import { changeBetween } from '../../src/progress/change.ts';
import { compareVersions } from '../../src/progress/compare.ts';
import { SAME_POSE } from '../../src/progress/pose.ts';
import { viewsOf } from '../../src/views/makeViews.ts';
import type { View, Views } from '../../src/views/view.ts';

const W = 900;
const H = 600;
let seed = 5;
const random = (): number => {
  seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
  return seed / 2 ** 32;
};
const GRAIN = Float32Array.from({ length: W * H }, () => random() - 0.5);

const strokes = (p: number): number => 0.02 * Math.sin((p % W) * 1.1) * Math.sin(Math.floor(p / W) * 0.9);

/** A ground with strokes; `change` alters the light of each place. */
function version(change: (light: number, p: number) => number): Views {
  const rgb = new Float32Array(3 * W * H);
  for (let p = 0; p < W * H; p++) {
    const x = p % W;
    const y = Math.floor(p / W);
    const light = 0.2 + 0.1 * Math.sin(x / 90) + 0.05 * Math.cos(y / 60) + strokes(p);
    rgb.fill(Math.max(0, change(light, p)), 3 * p, 3 * p + 3);
  }
  const close: View = { width: W, height: H, rgb, alpha: null, scale: 1 };
  return viewsOf(close);
}
const plain = version((v) => v);
const corner = (p: number): boolean => p % W < 300 && Math.floor(p / W) < 200;

describe('two versions', () => {
  test('the same: nothing changed', () => {
    const c = compareVersions(plain, plain, SAME_POSE);
    expect([c.impact, c.effort, c.changedShare]).toEqual([0, 0, 0]);
  });

  test('fine noise on one corner is effort without impact, and stands there', () => {
    const c = compareVersions(
      plain,
      version((v, p) => (corner(p) ? v + 0.1 * GRAIN[p] : v)),
      SAME_POSE,
    );
    expect(c.effort).toBeGreaterThan(0.15);
    expect(c.impact).toBeLessThan(0.2);
    expect(c.effortWithoutImpact).toBeGreaterThan(0.95);
    const outside = c.effortMap.data.filter((v, p) => v > 0.5 && !(p % W < 310 && Math.floor(p / W) < 210));
    expect(outside.length).toBe(0);
  });

  test('a veil over the whole is impact without effort', () => {
    const c = compareVersions(
      plain,
      version((v) => 0.8 * v + 0.08),
      SAME_POSE,
    );
    expect(c.impact).toBeGreaterThan(3);
    expect(c.changedShare).toBeGreaterThan(0.9);
    expect(c.effort).toBeLessThan(0.02);
  });

  test('so is a glaze that grows from side to side', () => {
    const c = compareVersions(
      plain,
      version((v, p) => v * (1 - (0.3 * (p % W)) / W)),
      SAME_POSE,
    );
    expect(c.impact).toBeGreaterThan(3);
    expect(c.effort).toBeLessThan(0.02);
  });

  test('strokes painted out are effort, and stand where they were', () => {
    const smooth = version((v, p) => (corner(p) ? v - strokes(p) : v));
    const c = compareVersions(plain, smooth, SAME_POSE);
    expect(c.effort).toBeGreaterThan(0.05);
    expect(c.effort).toBeLessThan(0.2);
    const outside = c.effortMap.data.filter((v, p) => v > 0.5 && !(p % W < 310 && Math.floor(p / W) < 210));
    expect(outside.length).toBe(0);
  });

  test('more change reads as more, on every measure', () => {
    const steps = [0.02, 0.05, 0.1].map((a) =>
      compareVersions(
        plain,
        version((v, p) => v * (1 - a) + a * GRAIN[p] * 0.3),
        SAME_POSE,
      ),
    );
    for (let k = 1; k < steps.length; k++) {
      expect(steps[k].impact).toBeGreaterThan(steps[k - 1].impact);
      expect(steps[k].effort).toBeGreaterThan(steps[k - 1].effort);
    }
  });
});

describe('the same painting, cropped', () => {
  const waves = Array.from({ length: 30 }, () => [20 ** random(), 6.3 * random(), 6.3 * random()] as const);
  /** Hills of many sizes with strokes, under a veil that leaves this much of them. */
  const hilly = (left: number): Views =>
    version((_, p) => {
      const [x, y] = [(p % W) / W, p / W / W];
      let light = 0.3 + strokes(p);
      for (const [f, turn, phase] of waves)
        light +=
          (0.05 / Math.sqrt(f)) * Math.sin(6.3 * f * (x * Math.cos(turn) + y * Math.sin(turn)) + phase);
      return left * light + 0.4 * (1 - left);
    });
  const clear = hilly(1);
  const veiled = hilly(0.8);
  /** The middle of a version, its pixels as they were. */
  const cropped = (whole: View, x: number, y: number, width: number, height: number): View => {
    const rgb = new Float32Array(3 * width * height);
    for (let row = 0; row < height; row++)
      rgb.set(whole.rgb.subarray(3 * ((y + row) * W + x), 3 * ((y + row) * W + x + width)), 3 * row * width);
    return { ...whole, width, height, rgb };
  };

  test('is found to a fraction of a place, and nothing changed', () => {
    const { pose, ...change } = changeBetween(clear, viewsOf(cropped(clear.close, 105, 60, 600, 450)))!;
    for (const [key, truth] of Object.entries({ x: 105 / W, y: 60 / H, width: 600 / W, height: 450 / H }))
      expect(Math.abs(pose[key as 'x'] - truth)).toBeLessThan(0.0003);
    expect(change.impact).toBeLessThan(0.05);
    expect(change.effort).toBeLessThan(0.05);
  });

  test('with a veil over it: the veil is what changed', () => {
    const whole = compareVersions(clear, veiled, SAME_POSE);
    const part = changeBetween(clear, viewsOf(cropped(veiled.close, 105, 60, 600, 450)))!;
    expect(Math.abs(part.impact / whole.impact - 1)).toBeLessThan(0.1);
    expect(part.effort).toBeLessThan(0.05);
  });
});
