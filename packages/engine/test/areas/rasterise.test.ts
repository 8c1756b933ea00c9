import { describe, expect, test } from 'vitest';
import type { Area } from '../../src/areas/area.ts';
import { rowsAt } from '../../src/areas/guidedFilter.ts';
import { fillOutlines } from '../../src/areas/outline.ts';
import { coverOf, fitArea, guideOf } from '../../src/areas/rasterise.ts';
import { luminanceOf } from '../../src/colour/cielab.ts';
import type { View } from '../../src/views/view.ts';

/** Left half L* 30, right half L* 70. */
function halves(width = 90, height = 60): View {
  const rgb = new Float32Array(3 * width * height);
  for (let p = 0; p < width * height; p++)
    rgb.fill(luminanceOf(p % width < width / 2 ? 30 : 70), 3 * p, 3 * p + 3);
  return { width, height, rgb, alpha: null, scale: 1 };
}
const square = [0.2, 0.25, 0.7, 0.25, 0.7, 0.75, 0.2, 0.75];
const sum = (data: Float32Array): number => data.reduce((a, b) => a + b, 0);

describe('outlines', () => {
  test.each([
    ['a rectangle between pixels', [0.105, 0.125, 0.305, 0.125, 0.305, 0.375, 0.105, 0.375], 0.2 * 0.25],
    ['a triangle', [0, 0, 1, 0, 0, 1], 0.5],
    ['one that leaves the picture', [-1, -1, 0.5, -1, 0.5, 2, -1, 2], 0.5],
  ])('%s covers its area (shoelace formula)', (_, outline, area) => {
    const { data } = fillOutlines([outline], 200, 100);
    expect(sum(data) / 20000).toBeCloseTo(area, 3);
  });

  test('one outline inside another makes a hole (even–odd)', () => {
    const inner = [0.3, 0.4, 0.5, 0.4, 0.5, 0.6, 0.3, 0.6];
    const { data } = fillOutlines([square, inner], 100, 80);
    expect(sum(data) / 8000).toBeCloseTo(0.25 - 0.04, 3);
  });
});

describe('areas', () => {
  const area = (...parts: Area['parts']): Area => ({ parts, soften: 0 });

  test('no parts is the whole picture', () => expect(coverOf(area(), halves())).toBeNull());

  test('a value group takes its half', () => {
    const { data } = coverOf(area({ joining: 'add', kind: 'values', from: 50, to: 100 }), halves())!;
    expect(sum(data) / data.length).toBe(0.5);
  });

  test('parts are joined in order: group, less a square, kept under a gradient', () => {
    const gradient = { joining: 'keep', kind: 'gradient', from: [0, 0], to: [0, 1] } as const;
    const cut = { joining: 'subtract', kind: 'outline', outlines: [square] } as const;
    const group = { joining: 'add', kind: 'values', from: 50, to: 100 } as const;
    const { width, data } = coverOf(area(group, cut, gradient), halves())!;
    expect(data[30 * width + 10]).toBe(0); // left half
    expect(data[30 * width + 50]).toBe(0); // cut out
    expect(data[30 * width + 80]).toBeCloseTo(30.5 / 60, 6);
  });

  test('softening keeps the mean away from the borders and removes the step', () => {
    const soft: Area = { parts: [{ joining: 'add', kind: 'outline', outlines: [square] }], soften: 0.06 };
    const { width, data } = coverOf(soft, halves())!;
    let steepest = 0;
    for (let x = 1; x < width; x++)
      steepest = Math.max(steepest, Math.abs(data[30 * width + x] - data[30 * width + x - 1]));
    expect(steepest).toBeLessThan(0.35);
    expect(sum(data) / data.length).toBeCloseTo(0.25, 2);
  });

  test('a coarse outline snaps to the edge of the painting', () => {
    const view = halves(900, 60);
    // Drawn four pixels past the edge between the halves.
    const loose = [0.5044, 0.1, 0.95, 0.1, 0.95, 0.9, 0.5044, 0.9];
    const fit = fitArea(area({ joining: 'add', kind: 'outline', outlines: [loose] }), view)!;
    const guide = guideOf(view);
    const out = new Float32Array(view.width);
    rowsAt(fit, view.width, view.height)(guide.subarray(3 * 30 * view.width, 3 * 31 * view.width), 30, out);
    // As drawn, the only step is at 454; now it must stand where the painting's own edge is.
    let at = 0;
    for (let x = 1; x < 600; x++) if (out[x] - out[x - 1] > out[at + 1] - out[at]) at = x - 1;
    expect(at).toBe(449);
    expect(out[450] - out[449]).toBeGreaterThan(0.3);
  });
});
