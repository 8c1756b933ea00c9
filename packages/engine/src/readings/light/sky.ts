import type { View } from '../../views/view.ts';
import type { Regions } from './regions.ts';

/** Mean slope of ln Y per pixel below which a region is smooth. Our default. */
const SMOOTH = 0.02;
/** A proposal smaller than this share of the regions is no sky. Our default. */
const LEAST_SKY = 0.03;

/** Regions that look like sky: smooth, joined to the upper edge without a step. 1 per region. */
export function proposeSky(view: View, regions: Regions): Uint8Array {
  const { count, first, neighbour, x, y, l, segmentation } = regions;
  const rough = roughness(view, regions);
  const sky = new Uint8Array(count);
  const queue: number[] = [];
  for (let i = 0; i < Math.min(3, view.height) * view.width; i++) {
    const s = segmentation.labels[i];
    if (s >= 0 && sky[s] === 0 && rough[s] < SMOOTH) {
      sky[s] = 1;
      queue.push(s);
    }
  }
  while (queue.length > 0) {
    const s = queue.pop()!;
    for (let e = first[s]; e < first[s + 1]; e++) {
      const t = neighbour[e];
      if (sky[t] || rough[t] >= SMOOTH) continue;
      if (Math.abs(l[s] - l[t]) < 0.25 && Math.hypot(x[s] - x[t], y[s] - y[t]) < 0.08) {
        sky[t] = 1;
        queue.push(t);
      }
    }
  }
  return isSky(sky, l) ? sky : sky.fill(0);
}

/** A sky is large enough, and lighter than most of what stands before it: a smooth dark wall is none. */
function isSky(sky: Uint8Array, l: Float64Array): boolean {
  let sum = 0;
  let found = 0;
  const rest: number[] = [];
  for (let i = 0; i < sky.length; i++) {
    if (sky[i]) {
      found++;
      sum += l[i];
    } else rest.push(l[i]);
  }
  if (found <= LEAST_SKY * sky.length) return false;
  rest.sort((a, b) => a - b);
  return rest.length === 0 || sum / found > rest[Math.floor(rest.length / 2)];
}

/** Mean slope of ln Y per pixel in each region, after a blur of σ ≈ 1.5 px. */
function roughness(view: View, regions: Regions): Float64Array {
  const { width, height, rgb } = view;
  let plane = new Float32Array(width * height);
  for (let i = 0; i < plane.length; i++) {
    const luminance = 0.2126 * rgb[3 * i] + 0.7152 * rgb[3 * i + 1] + 0.0722 * rgb[3 * i + 2];
    plane[i] = Math.log(Math.max(luminance, 1e-4));
  }
  plane = blur(plane, width, height);
  const sums = new Float64Array(regions.count);
  for (let y = 0, i = 0; y < height; y++) {
    for (let x = 0; x < width; x++, i++) {
      const s = regions.segmentation.labels[i];
      if (s < 0) continue;
      const left = x > 0 ? plane[i - 1] : plane[i];
      const right = x < width - 1 ? plane[i + 1] : plane[i];
      const up = y > 0 ? plane[i - width] : plane[i];
      const down = y < height - 1 ? plane[i + width] : plane[i];
      const across = right - left;
      const along = down - up;
      sums[s] += Math.sqrt(across * across + along * along) / 2;
    }
  }
  return sums.map((v, s) => v / regions.area[s]);
}

/** Three passes of a 3-tap box: σ = √2 px. */
function blur(plane: Float32Array, width: number, height: number): Float32Array<ArrayBuffer> {
  let from = Float32Array.from(plane);
  let to = new Float32Array(plane.length);
  for (let pass = 0; pass < 3; pass++) {
    for (let y = 0, i = 0; y < height; y++)
      for (let x = 0; x < width; x++, i++) {
        const before = x > 0 ? from[i - 1] : from[i];
        const after = x < width - 1 ? from[i + 1] : from[i];
        to[i] = (before + from[i] + after) / 3;
      }
    [from, to] = [to, from];
    for (let y = 0, i = 0; y < height; y++) {
      const up = y > 0 ? width : 0;
      const down = y < height - 1 ? width : 0;
      for (let x = 0; x < width; x++, i++) to[i] = (from[i - up] + from[i] + from[i + down]) / 3;
    }
    [from, to] = [to, from];
  }
  return from;
}
