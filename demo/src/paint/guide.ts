/** What the painter looks at: the scene as colours, regions, directions and importance, at the size of the study. */

/** How a kind of region is painted. */
export interface Hand {
  readonly name: string;
  /** Largest and smallest brush, in widths of the picture. */
  readonly largest: number;
  readonly smallest: number;
  /** Length of a stroke in brush widths. */
  readonly length: number;
  /** Strokes shorter than this (brush widths) are not set at all; default 0, where a dab will do. */
  readonly shortest?: number;
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
  /** By region: index of its hand. */
  readonly hand: Uint8Array;
  /** Place in the order from back (0) to front. */
  readonly order: Float32Array;
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

/** Box blur (three passes come near a Gaussian) of a field of `channels` interleaved numbers; radius in pixels. */
export function blurred(
  field: Float32Array,
  width: number,
  height: number,
  channels: number,
  radius: number,
): Float32Array {
  const out = field.slice();
  const r = Math.round(radius);
  if (r < 1) return out;
  const line = new Float32Array(Math.max(width, 1) * channels);
  const ring = new Float32Array((2 * r + 1) * width * channels);
  for (let pass = 0; pass < 3; pass++) {
    blurRows(out, width, height, channels, r, line);
    blurColumns(out, width * channels, height, r, ring);
  }
  return out;
}

function blurRows(
  f: Float32Array,
  width: number,
  height: number,
  channels: number,
  r: number,
  line: Float32Array,
) {
  const inv = 1 / (2 * r + 1);
  for (let y = 0; y < height; y++) {
    const base = y * width * channels;
    line.set(f.subarray(base, base + width * channels));
    for (let c = 0; c < channels; c++) {
      let sum = line[c]! * (r + 1);
      for (let i = 1; i <= r; i++) sum += line[Math.min(width - 1, i) * channels + c]!;
      for (let x = 0; x < width; x++) {
        f[base + x * channels + c] = sum * inv;
        sum +=
          line[Math.min(width - 1, x + r + 1) * channels + c]! - line[Math.max(0, x - r) * channels + c]!;
      }
    }
  }
}

/** Whole rows at a time; `ring` keeps the rows that are still needed but already overwritten. */
function blurColumns(f: Float32Array, row: number, height: number, r: number, ring: Float32Array) {
  const inv = 1 / (2 * r + 1);
  const size = 2 * r + 1;
  const sum = new Float64Array(row);
  for (let k = -r; k <= r; k++) {
    const from = Math.min(height - 1, Math.max(0, k)) * row;
    for (let i = 0; i < row; i++) sum[i]! += f[from + i]!;
  }
  for (let y = 0; y < height; y++) {
    ring.set(f.subarray(y * row, (y + 1) * row), (y % size) * row);
    const gone = (Math.max(0, y - r) % size) * row;
    const next = Math.min(height - 1, y + r + 1);
    // Past the lower end the last row counts again, which may be overwritten by then only if it is this one.
    const add =
      next > y
        ? f.subarray(next * row, next * row + row)
        : ring.subarray((y % size) * row, (y % size) * row + row);
    const base = y * row;
    for (let i = 0; i < row; i++) {
      f[base + i] = sum[i]! * inv;
      sum[i]! += add[i]! - ring[gone + i]!;
    }
  }
}
