import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { fitToGuide, guidedFilter, rowsAt } from '../../src/areas/guidedFilter.ts';

// He, Sun, Tang 2010, "Guided image filtering"; numbers by NumPy, window by window: oracle/guided_filter.py.
const oracle = JSON.parse(readFileSync(new URL('./oracle/guidedFilter.json', import.meta.url), 'utf8'));
const { width, height, radius, epsilon } = oracle;

function picture() {
  const guide = new Float32Array(3 * width * height);
  const data = new Float32Array(width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const p = y * width + x;
      guide[3 * p] = 0.5 + 0.4 * Math.sin(0.7 * x + 0.2 * y);
      guide[3 * p + 1] = 0.5 + 0.3 * Math.cos(0.5 * y - 0.3 * x);
      guide[3 * p + 2] = (x + y) / (height + width);
      data[p] = x + 0.5 * y > 9 ? 1 : 0;
    }
  return { guide, field: { width, height, data } };
}

describe('guided filter', () => {
  test('equals the plain computation of the paper', () => {
    const { guide, field } = picture();
    const out = guidedFilter(guide, field, radius, epsilon);
    for (let p = 0; p < out.data.length; p++)
      expect(Math.abs(out.data[p] - oracle.result[p])).toBeLessThan(2e-4);
  });

  test('coefficients read at the same size give the filter, held to 0…1', () => {
    const { guide, field } = picture();
    const row = rowsAt(fitToGuide(guide, field, radius, epsilon), width, height);
    const line = new Float32Array(width);
    for (let y = 0; y < height; y++) {
      row(guide.subarray(3 * y * width, 3 * (y + 1) * width), y, line);
      for (let x = 0; x < width; x++) {
        const wanted = Math.min(1, Math.max(0, oracle.result[y * width + x]));
        expect(Math.abs(line[x] - wanted)).toBeLessThan(2e-4);
      }
    }
  });

  test('a guide of another size is refused', () => {
    const { field } = picture();
    expect(() => fitToGuide(new Float32Array(3), field, 2, 0.01)).toThrow(RangeError);
  });
});
