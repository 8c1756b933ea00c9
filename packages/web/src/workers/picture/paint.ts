import {
  DISPLAY_P3,
  invert,
  linearTables,
  linearToSrgb,
  multiply,
  type Raster,
  type View,
} from '@halflight/engine';
import type { PictureWindow, ScreenSpace } from '../../picture/desk.ts';

/** Code values of linear light in steps of 1/65536: a twentieth of a code value in the darks. */
const STEPS = 65536;
const CODES = Uint8ClampedArray.from({ length: STEPS + 1 }, (_, i) => 255 * linearToSrgb(i / STEPS));

const FROM_SRGB: Record<ScreenSpace, readonly number[]> = {
  srgb: [1, 0, 0, 0, 1, 0, 0, 0, 1],
  'display-p3': invert(DISPLAY_P3.toSrgb),
};

/** Pixels for the screen: straight alpha, code values of the screen's space, clipped to it. */
export type ScreenPixels = Uint8ClampedArray<ArrayBuffer>;

/** A view as screen pixels. */
export function paintView(view: View, screen: ScreenSpace): ScreenPixels {
  const pixels = new Uint8ClampedArray(4 * view.width * view.height);
  const { rgb, alpha } = view;
  for (let p = 0; p < view.width * view.height; p++) {
    const cover = alpha ? alpha[p] : 1;
    put(pixels, 4 * p, FROM_SRGB[screen], rgb[3 * p], rgb[3 * p + 1], rgb[3 * p + 2], cover);
  }
  return pixels;
}

/**
 * A part of the full-size picture at the size it is wanted: averaged by area in linear light when that is
 * smaller, in plain squares when it is larger.
 */
export function paintWindow(raster: Raster, part: PictureWindow, screen: ScreenSpace): ScreenPixels {
  const { outWidth, outHeight } = part;
  const columns = spans(part.x, part.width, outWidth, raster.width);
  const rows = spans(part.y, part.height, outHeight, raster.height);
  const tables = linearTables(raster.space, raster.depth);
  const matrix = multiply(FROM_SRGB[screen], raster.space.toSrgb);
  const pixels = new Uint8ClampedArray(4 * outWidth * outHeight);
  const sums = new Float32Array(4 * outWidth);
  const line = new Float32Array(4 * outWidth);
  let lineOf = -1;
  for (let j = 0; j < outHeight; j++) {
    sums.fill(0);
    const { from, to, first, last } = rows[j];
    for (let y = from; y < to; y++) {
      if (y !== lineOf) averageLine(raster, y, columns, tables, line);
      lineOf = y;
      const weight = y === from ? first : y === to - 1 ? last : 1;
      for (let i = 0; i < sums.length; i++) sums[i] += weight * line[i];
    }
    const height = first + Math.max(0, to - from - 2) + (to - from > 1 ? last : 0);
    for (let i = 0; i < outWidth; i++) {
      const cover = sums[4 * i + 3];
      if (cover <= 0) continue;
      const at = 4 * (j * outWidth + i);
      put(
        pixels,
        at,
        matrix,
        sums[4 * i] / cover,
        sums[4 * i + 1] / cover,
        sums[4 * i + 2] / cover,
        cover / height,
      );
    }
  }
  return pixels;
}

/** The source pixels `from…to` under one place of the result; the outer two count in part. */
interface Span {
  readonly from: number;
  readonly to: number;
  readonly first: number;
  readonly last: number;
}

function spans(start: number, length: number, size: number, limit: number): Span[] {
  const step = length / size;
  return Array.from({ length: size }, (_, i) => {
    const a = start + i * step;
    if (step <= 1) {
      const from = Math.min(limit - 1, Math.max(0, Math.floor(a + step / 2)));
      return { from, to: from + 1, first: 1, last: 1 };
    }
    const b = Math.min(limit, a + step);
    const from = Math.max(0, Math.floor(a + 1e-6));
    const to = Math.min(limit, Math.max(from + 1, Math.ceil(b - 1e-6)));
    return { from, to, first: Math.min(b, from + 1) - Math.max(a, from), last: b - (to - 1) };
  });
}

/** One row of the picture, averaged over each span: premultiplied linear light of its own space, then cover. */
function averageLine(
  raster: Raster,
  y: number,
  columns: readonly Span[],
  [red, green, blue]: readonly Float64Array[],
  line: Float32Array,
): void {
  const { data, channels, width } = raster;
  const opaque = channels === 3;
  const top = 2 ** raster.depth - 1;
  for (let i = 0; i < columns.length; i++) {
    const { from, to, first, last } = columns[i];
    let r = 0;
    let g = 0;
    let b = 0;
    let cover = 0;
    let whole = 0;
    for (let x = from; x < to; x++) {
      const at = channels * (y * width + x);
      const weight = x === from ? first : x === to - 1 ? last : 1;
      const w = opaque ? weight : (weight * data[at + 3]) / top;
      r += w * red[data[at]];
      g += w * green[data[at + 1]];
      b += w * blue[data[at + 2]];
      cover += w;
      whole += weight;
    }
    line[4 * i] = r / whole;
    line[4 * i + 1] = g / whole;
    line[4 * i + 2] = b / whole;
    line[4 * i + 3] = cover / whole;
  }
}

function put(
  out: ScreenPixels,
  at: number,
  m: readonly number[],
  r: number,
  g: number,
  b: number,
  cover: number,
): void {
  out[at] = code(m[0] * r + m[1] * g + m[2] * b);
  out[at + 1] = code(m[3] * r + m[4] * g + m[5] * b);
  out[at + 2] = code(m[6] * r + m[7] * g + m[8] * b);
  out[at + 3] = 255 * cover;
}

function code(linear: number): number {
  return CODES[linear <= 0 ? 0 : linear >= 1 ? STEPS : (linear * STEPS + 0.5) | 0];
}
