import { converter } from 'culori';
import { expect, it } from 'vitest';
import { canvasOf } from '../../src/paint/canvas.ts';
import { finish } from '../../src/paint/finish.ts';

const rgb = converter('rgb');

// Reference: the sRGB curve of the general colour library culori.
it.each([0.002, 0.02, 0.1, 0.4, 0.9])('codes linear light %f as sRGB on the average', (light) => {
  const canvas = canvasOf(80, 80, [light, light, light]);
  const out = finish(canvas, 0, 80, 0);
  const mean = out.reduce((s, v) => s + v, 0) / out.length;
  expect(mean).toBeCloseTo(255 * rgb({ mode: 'lrgb', r: light, g: light, b: light }).r, 1);
});

it('dithers between two codes and no more', () => {
  const canvas = canvasOf(64, 64, [0.2, 0.2, 0.2]);
  const codes = new Set(finish(canvas, 0, 64, 0));
  expect(codes.size).toBeGreaterThan(1);
  expect(codes.size).toBeLessThanOrEqual(3);
});
