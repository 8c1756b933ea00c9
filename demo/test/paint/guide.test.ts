import { describe, expect, it } from 'vitest';
import { blurred, clearance, type Guide } from '../../src/paint/guide.ts';
import { hash01 } from '../../src/scene/index.ts';

const field = (n: number, seed: number) => Float32Array.from({ length: n }, (_, i) => hash01(i, seed));

describe('blurred', () => {
  it.each([
    [17, 11, 1, 1],
    [17, 11, 2, 3],
    [9, 23, 3, 4],
    [5, 4, 1, 7],
  ])('is three box means with repeated ends: %i × %i, %i channels, radius %i', (w, h, c, r) => {
    const f = field(w * h * c, 3);
    // The same by definition, without running sums.
    let slow = Array.from(f);
    const at = (a: number[], x: number, y: number, k: number) =>
      a[(Math.min(h - 1, Math.max(0, y)) * w + Math.min(w - 1, Math.max(0, x))) * c + k]!;
    for (let pass = 0; pass < 3; pass++)
      for (const [dx, dy] of [
        [1, 0],
        [0, 1],
      ] as const) {
        const next = slow.slice();
        for (let y = 0; y < h; y++)
          for (let x = 0; x < w; x++)
            for (let k = 0; k < c; k++) {
              let sum = 0;
              for (let d = -r; d <= r; d++) sum += at(slow, x + d * dx, y + d * dy, k);
              next[(y * w + x) * c + k] = sum / (2 * r + 1);
            }
        slow = next;
      }
    const fast = blurred(f, w, h, c, r);
    for (let i = 0; i < slow.length; i++) expect(fast[i]).toBeCloseTo(slow[i]!, 4);
  });
});

describe('clearance', () => {
  it('is the distance to the border within 5 % (chamfer 3-4, Borgefors 1986: at most 8 %)', () => {
    const width = 60;
    const height = 40;
    const region = new Int32Array(width * height);
    for (let y = 0; y < height; y++)
      for (let x = 0; x < width; x++) region[y * width + x] = x + 2 * y > 70 ? 1 : 0;
    const d = clearance({ width, height, region } as Guide, () => true);
    const edges: [number, number][] = [];
    for (let y = 0; y < height; y++)
      for (let x = 0; x < width; x++) if (d[y * width + x] === 0.5) edges.push([x, y]);
    for (let y = 0; y < height; y += 3)
      for (let x = 0; x < width; x += 3) {
        const true_ = 0.5 + Math.min(...edges.map(([ex, ey]) => Math.hypot(ex - x, ey - y)));
        expect(Math.abs(d[y * width + x]! - true_) / true_).toBeLessThan(0.08);
      }
  });

  it('leaves out borders that are lost', () => {
    const region = Int32Array.from({ length: 100 }, (_, i) => (i % 10 < 5 ? 0 : 1));
    const d = clearance({ width: 10, height: 10, region } as Guide, () => false);
    expect(Math.min(...d)).toBeGreaterThan(1000);
  });
});
