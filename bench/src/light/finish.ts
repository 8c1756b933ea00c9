/** How a hand leaves a picture: colour that wavers from touch to touch, strokes instead of pixels. */
import { hash01, type Random, random } from '@halflight/demo/scene';

/** Multiplies every touch (a cell of about `size` pixels, longer than wide) by its own colour: `amount` is the deviation per channel. */
export function jitter(
  rgb: Float32Array,
  width: number,
  height: number,
  amount: number,
  size: number,
  seed: number,
): Float32Array {
  const r = random(seed);
  const angle = r.between(0, Math.PI);
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const out = new Float32Array(rgb.length);
  const gain = (i: number, j: number, ch: number) => 1 + amount * normalOf(i, j, ch, seed);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      // Nearest of a jittered lattice that is turned and stretched.
      const u = (c * x + s * y) / (size * 1.8);
      const v = (-s * x + c * y) / size;
      const iu = Math.floor(u);
      const iv = Math.floor(v);
      let best = Infinity;
      let bi = 0;
      let bj = 0;
      for (let j = iv - 1; j <= iv + 1; j++)
        for (let i = iu - 1; i <= iu + 1; i++) {
          const du = i + hash01(i, j, 1, seed) - u;
          const dv = j + hash01(i, j, 2, seed) - v;
          const d = du * du + dv * dv;
          if (d < best) {
            best = d;
            bi = i;
            bj = j;
          }
        }
      const p = (y * width + x) * 3;
      for (let ch = 0; ch < 3; ch++) out[p + ch] = rgb[p + ch]! * gain(bi, bj, ch);
    }
  return out;
}

function normalOf(i: number, j: number, ch: number, seed: number): number {
  const a = hash01(i, j, 10 + ch, seed);
  const b = hash01(i, j, 20 + ch, seed);
  return Math.sqrt(-2 * Math.log(1 - a)) * Math.cos(2 * Math.PI * b);
}

/** Edge-keeping smoothing to flat dabs: the quietest of four quadrants (Kuwahara et al. 1976), on square-root values. */
export function dabs(rgb: Float32Array, width: number, height: number, radius: number): Float32Array {
  const stride = width + 1;
  const sums = Array.from({ length: 4 }, () => new Float64Array(stride * (height + 1)));
  const root = Float32Array.from(rgb, (v) => Math.sqrt(Math.max(0, v)));
  for (let y = 0; y < height; y++) {
    const row = [0, 0, 0, 0];
    for (let x = 0; x < width; x++) {
      const p = (y * width + x) * 3;
      const luma = root[p]! * 0.3 + root[p + 1]! * 0.6 + root[p + 2]! * 0.1;
      for (let c = 0; c < 4; c++) {
        row[c]! += c < 3 ? root[p + c]! : luma * luma;
        sums[c]![(y + 1) * stride + x + 1] = sums[c]![y * stride + x + 1]! + row[c]!;
      }
    }
  }
  const box = (c: number, x0: number, y0: number, x1: number, y1: number) => {
    const s = sums[c]!;
    return s[y1 * stride + x1]! - s[y0 * stride + x1]! - s[y1 * stride + x0]! + s[y0 * stride + x0]!;
  };
  const out = new Float32Array(rgb.length);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      let best = Infinity;
      const p = (y * width + x) * 3;
      for (let q = 0; q < 4; q++) {
        const x0 = Math.max(0, q & 1 ? x : x - radius);
        const x1 = Math.min(width, (q & 1 ? x + radius : x) + 1);
        const y0 = Math.max(0, q & 2 ? y : y - radius);
        const y1 = Math.min(height, (q & 2 ? y + radius : y) + 1);
        const area = (x1 - x0) * (y1 - y0);
        const r = box(0, x0, y0, x1, y1) / area;
        const g = box(1, x0, y0, x1, y1) / area;
        const b = box(2, x0, y0, x1, y1) / area;
        const luma = r * 0.3 + g * 0.6 + b * 0.1;
        const spread = box(3, x0, y0, x1, y1) / area - luma * luma;
        if (spread < best) {
          best = spread;
          out[p] = r * r;
          out[p + 1] = g * g;
          out[p + 2] = b * b;
        }
      }
    }
  return out;
}

/** Opaque short strokes across the gradient, each of the one colour under its middle, laid in random order. */
export function strokes(rgb: Float32Array, width: number, height: number, seed: number): Float32Array {
  const r = random(seed);
  const out = dabs(rgb, width, height, 3);
  const tone = new Float32Array(width * height);
  for (let i = 0; i < tone.length; i++)
    tone[i] = Math.sqrt(Math.max(0, rgb[i * 3]! * 0.3 + rgb[i * 3 + 1]! * 0.6 + rgb[i * 3 + 2]! * 0.1));
  const spacing = 3.2;
  const places: [number, number][] = [];
  for (let y = 0; y < height; y += spacing)
    for (let x = 0; x < width; x += spacing)
      places.push([x + r.between(0, spacing), y + r.between(0, spacing)]);
  for (const [x, y] of r.shuffle(places)) stroke(rgb, out, tone, width, height, x, y, r);
  return out;
}

function stroke(
  rgb: Float32Array,
  out: Float32Array,
  tone: Float32Array,
  width: number,
  height: number,
  x: number,
  y: number,
  r: Random,
): void {
  const cx = Math.min(width - 1, Math.floor(x));
  const cy = Math.min(height - 1, Math.floor(y));
  const at = (i: number, j: number) =>
    tone[Math.min(height - 1, Math.max(0, j)) * width + Math.min(width - 1, Math.max(0, i))]!;
  // Sobel's gradient at a distance of two pixels.
  const gx =
    at(cx + 2, cy - 2) +
    2 * at(cx + 2, cy) +
    at(cx + 2, cy + 2) -
    at(cx - 2, cy - 2) -
    2 * at(cx - 2, cy) -
    at(cx - 2, cy + 2);
  const gy =
    at(cx - 2, cy + 2) +
    2 * at(cx, cy + 2) +
    at(cx + 2, cy + 2) -
    at(cx - 2, cy - 2) -
    2 * at(cx, cy - 2) -
    at(cx + 2, cy - 2);
  const strong = Math.hypot(gx, gy) > 0.02;
  const angle = (strong ? Math.atan2(gy, gx) + Math.PI / 2 : 0.7) + 0.35 * r.normal();
  const half = strong ? r.between(4, 8) : r.between(6, 12);
  const wide = r.between(1.6, 3);
  const light = 1 + 0.015 * r.normal();
  const [dx, dy] = [Math.cos(angle), Math.sin(angle)];
  const p = (cy * width + cx) * 3;
  const reach = Math.ceil(half + wide + 1);
  for (let j = Math.max(0, cy - reach); j <= Math.min(height - 1, cy + reach); j++)
    for (let i = Math.max(0, cx - reach); i <= Math.min(width - 1, cx + reach); i++) {
      const u = (i - x) * dx + (j - y) * dy;
      const v = -(i - x) * dy + (j - y) * dx;
      const over = Math.max(0, Math.abs(u) - half);
      const cover = Math.min(1, wide - Math.hypot(over, v));
      if (cover <= 0) continue;
      const o = (j * width + i) * 3;
      for (let c = 0; c < 3; c++) out[o + c]! += (rgb[p + c]! * light - out[o + c]!) * cover;
    }
}
