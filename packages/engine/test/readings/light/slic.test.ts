import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { srgbToLinear } from '../../../src/colour/transfer.ts';
import { toCielab } from '../../../src/readings/light/regions.ts';
import { slic } from '../../../src/readings/light/slic.ts';

const [W, H] = [240, 180];
/** What scikit-image's SLIC reaches on the same picture; oracle/slic.py makes it. */
const ORACLE: { superpixels: number; recall: number } = JSON.parse(
  readFileSync(new URL('oracle/slic.json', import.meta.url), 'utf8'),
);

const zone = new Int32Array(W * H);
const rgb = new Float32Array(3 * W * H);
for (let y = 0, i = 0; y < H; y++)
  for (let x = 0; x < W; x++, i++) {
    const u = Math.floor((x + 20 * Math.sin(y / 15)) / 48) + 1;
    const v = Math.floor((y + 12 * Math.sin(x / 20)) / 45) + 1;
    zone[i] = 7 * v + u;
    const ramp = Math.round(6 * Math.sin(x / 9 + y / 7));
    [37, 59, 83].forEach((m, c) => {
      rgb[3 * i + c] = srgbToLinear((40 + ((zone[i] * m) % 160) + ramp) / 255);
    });
  }

function edges(labels: ArrayLike<number>): Uint8Array {
  const out = new Uint8Array(W * H);
  for (let y = 0, i = 0; y < H; y++)
    for (let x = 0; x < W; x++, i++)
      if ((x < W - 1 && labels[i] !== labels[i + 1]) || (y < H - 1 && labels[i] !== labels[i + W]))
        out[i] = 1;
  return out;
}

/** Share of the true edges that have a found one within two pixels (Achanta et al. 2012). */
function boundaryRecall(labels: ArrayLike<number>): number {
  const truth = edges(zone);
  const found = edges(labels);
  let hit = 0;
  let of = 0;
  for (let y = 0, i = 0; y < H; y++)
    for (let x = 0; x < W; x++, i++) {
      if (!truth[i]) continue;
      of++;
      let near = 0;
      for (let v = Math.max(0, y - 2); v <= Math.min(H - 1, y + 2); v++)
        for (let u = Math.max(0, x - 2); u <= Math.min(W - 1, x + 2); u++) near |= found[W * v + u];
      hit += near;
    }
  return hit / of;
}

test('at about as many superpixels boundary recall is not below that of scikit-image by more than 0.01', () => {
  const { labels, count } = slic(toCielab(rgb), W, H, { count: 300, compactness: 12 });
  expect(Math.abs(count / ORACLE.superpixels - 1)).toBeLessThan(0.15);
  expect(boundaryRecall(labels)).toBeGreaterThan(ORACLE.recall - 0.01);
});

test('every superpixel is one piece', () => {
  const { labels, count } = slic(toCielab(rgb), W, H, { count: 300, compactness: 12 });
  const seen = new Uint8Array(W * H);
  let pieces = 0;
  for (let s = 0; s < labels.length; s++) {
    if (seen[s]) continue;
    pieces++;
    const stack = [s];
    seen[s] = 1;
    while (stack.length > 0) {
      const i = stack.pop()!;
      const x = i % W;
      for (const j of [x > 0 ? i - 1 : -1, x < W - 1 ? i + 1 : -1, i - W, i + W])
        if (j >= 0 && j < W * H && !seen[j] && labels[j] === labels[s]) {
          seen[j] = 1;
          stack.push(j);
        }
    }
  }
  expect(pieces).toBe(count);
});
