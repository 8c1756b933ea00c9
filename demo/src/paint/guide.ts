/** What the painter looks at: the scene as colours, regions, directions and importance, at the size of the study. */

/** How a kind of region is painted. */
export interface Hand {
  readonly name: string;
  /** Largest and smallest brush, in widths of the picture. */
  readonly largest: number;
  readonly smallest: number;
  /** Length of a stroke in brush widths. */
  readonly length: number;
  readonly opacity: number;
  readonly dryness: number;
  readonly softness: number;
  readonly streak: number;
  /** Deviations between strokes: lightness (OKLab), hue (degrees), chroma (factor). */
  readonly value: number;
  readonly hue: number;
  readonly chroma: number;
  /** Difference from the study that is left standing (about 0.02 exact to 0.1 loose). */
  readonly tolerance: number;
  /** Brushes narrower than this (widths of the picture) are laid across: ripples over drawn-down reflections. */
  readonly crossBelow?: number;
}

/** All fields row-major over width × height. */
export interface Guide {
  readonly width: number;
  readonly height: number;
  /** Interleaved linear RGB. */
  readonly colour: Float32Array;
  /** Which region; strokes keep to one. */
  readonly region: Int32Array;
  /** By region: place in the order from back to front, and hand. */
  readonly rank: Int32Array;
  readonly hand: Uint8Array;
  readonly hands: readonly Hand[];
  /** Direction of strokes as cos 2θ, sin 2θ times its weight, interleaved (an orientation has no sign). */
  readonly direction: Float32Array;
  /** 0 quiet … 1 the focus. */
  readonly importance: Float32Array;
}

/**
 * Distance in pixels to the nearest pixel of another region (chamfer distance 3-4, Borgefors 1986).
 *
 * `keep(i, j)` says whether the border between neighbours i and j counts; lost edges don't.
 */
export function clearance(guide: Guide, keep: (i: number, j: number) => boolean): Float32Array {
  const { width, height, region } = guide;
  const d = new Float32Array(width * height).fill(1e6);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      if (x + 1 < width && region[i] !== region[i + 1] && keep(i, i + 1)) {
        d[i] = 0.5;
        d[i + 1] = 0.5;
      }
      if (y + 1 < height && region[i] !== region[i + width] && keep(i, i + width)) {
        d[i] = 0.5;
        d[i + width] = 0.5;
      }
    }
  const diagonal = 4 / 3;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      let m = d[i]!;
      if (x > 0) m = Math.min(m, d[i - 1]! + 1);
      if (y > 0) {
        m = Math.min(m, d[i - width]! + 1);
        if (x > 0) m = Math.min(m, d[i - width - 1]! + diagonal);
        if (x + 1 < width) m = Math.min(m, d[i - width + 1]! + diagonal);
      }
      d[i] = m;
    }
  for (let y = height - 1; y >= 0; y--)
    for (let x = width - 1; x >= 0; x--) {
      const i = y * width + x;
      let m = d[i]!;
      if (x + 1 < width) m = Math.min(m, d[i + 1]! + 1);
      if (y + 1 < height) {
        m = Math.min(m, d[i + width]! + 1);
        if (x > 0) m = Math.min(m, d[i + width - 1]! + diagonal);
        if (x + 1 < width) m = Math.min(m, d[i + width + 1]! + diagonal);
      }
      d[i] = m;
    }
  return d;
}

/** Box blur (three passes come near a Gaussian) of a field of `channels` interleaved numbers. */
export function blurred(
  field: Float32Array,
  width: number,
  height: number,
  channels: number,
  radius: number,
) {
  let a = field.slice();
  if (radius < 1) return a;
  let b = new Float32Array(a.length);
  const r = Math.round(radius);
  for (let pass = 0; pass < 3; pass++) {
    sweep(a, b, width, height, channels, r, channels, width * channels);
    sweep(b, a, height, width, channels, r, width * channels, channels);
  }
  [a, b] = [a, b];
  return a;
}

/** Running mean along lines of `count` steps of `step` numbers; lines are `line` numbers apart. */
function sweep(
  from: Float32Array,
  to: Float32Array,
  count: number,
  lines: number,
  channels: number,
  r: number,
  step: number,
  line: number,
): void {
  const inv = 1 / (2 * r + 1);
  for (let l = 0; l < lines; l++)
    for (let c = 0; c < channels; c++) {
      const base = l * line + c;
      const get = (i: number) => from[base + (i < 0 ? 0 : i >= count ? count - 1 : i) * step]!;
      let sum = 0;
      for (let i = -r; i <= r; i++) sum += get(i);
      for (let i = 0; i < count; i++) {
        to[base + i * step] = sum * inv;
        sum += get(i + r + 1) - get(i - r);
      }
    }
}
