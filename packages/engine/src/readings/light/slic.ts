/**
 * Superpixels: SLIC of Achanta, Shaji, Smith, Lucchi, Fua & Süsstrunk 2012 ("SLIC superpixels compared to
 * state-of-the-art superpixel methods", IEEE PAMI 34), k-means in colour and place within a window.
 *
 * Everything that could prefer one side of the picture is even-handed: seeds lie on a centred grid, ties go to
 * the seed nearer to the middle, stray pieces join the neighbour they share most border with. So a mirrored
 * picture gives mirrored superpixels.
 */
export interface Segmentation {
  readonly width: number;
  readonly height: number;
  /** Number of superpixels. */
  readonly count: number;
  /** Superpixel of every pixel, row-major, 0…count−1, or −1 where the picture is transparent. */
  readonly labels: Int32Array;
}

export interface SlicOptions {
  /** Wanted number of superpixels. */
  readonly count: number;
  /** Weight of place against colour, in units of the colour space (the paper's m). */
  readonly compactness: number;
  /** Rounds of k-means; the paper uses 10. */
  readonly rounds?: number;
  /** 1 where a pixel takes part; all when absent. */
  readonly mask?: Uint8Array | null;
}

/** `colour` holds three interleaved coordinates per pixel in which plain distance is meaningful (CIELAB). */
export function slic(
  colour: Float32Array,
  width: number,
  height: number,
  options: SlicOptions,
): Segmentation {
  const mask = options.mask ?? null;
  const step = Math.sqrt((width * height) / options.count);
  const columns = Math.max(1, Math.round(width / step));
  const rows = Math.max(1, Math.round(height / step));
  const n = columns * rows;
  const centres = new Float64Array(n * 5); // L, a, b, x, y
  const order = seeds(centres, colour, width, height, columns, rows);

  const labels = new Int32Array(width * height).fill(-1);
  const distance = new Float32Array(width * height);
  const sums = new Float64Array(n * 6);
  const spatial = (options.compactness / step) ** 2;
  for (let round = 0; round < (options.rounds ?? 10); round++) {
    assign(colour, width, height, centres, order, step, spatial, mask, labels, distance);
    sums.fill(0);
    for (let y = 0, i = 0; y < height; y++) {
      for (let x = 0; x < width; x++, i++) {
        const k = labels[i] * 6;
        if (k < 0) continue;
        sums[k] += colour[3 * i];
        sums[k + 1] += colour[3 * i + 1];
        sums[k + 2] += colour[3 * i + 2];
        sums[k + 3] += x;
        sums[k + 4] += y;
        sums[k + 5]++;
      }
    }
    for (let k = 0; k < n; k++) {
      const c = sums[6 * k + 5];
      if (c > 0) for (let d = 0; d < 5; d++) centres[5 * k + d] = sums[6 * k + d] / c;
    }
  }
  return connect(labels, width, height, n, (step * step) / 4);
}

/** Seeds on a centred grid; returns the order of visit, nearest to the middle first, so that ties are even. */
function seeds(
  centres: Float64Array,
  colour: Float32Array,
  width: number,
  height: number,
  columns: number,
  rows: number,
): Int32Array {
  const off = new Float64Array(columns * rows);
  for (let r = 0, k = 0; r < rows; r++) {
    for (let c = 0; c < columns; c++, k++) {
      const x = ((c + 0.5) * width) / columns - 0.5;
      const y = ((r + 0.5) * height) / rows - 0.5;
      // A seed between two pixels takes the mean of both: rounding would prefer one side.
      const x0 = Math.floor(x);
      const x1 = Math.min(width - 1, Math.ceil(x));
      const y0 = Math.floor(y);
      const y1 = Math.min(height - 1, Math.ceil(y));
      for (let d = 0; d < 3; d++) {
        centres[5 * k + d] =
          (colour[3 * (y0 * width + x0) + d] +
            colour[3 * (y0 * width + x1) + d] +
            colour[3 * (y1 * width + x0) + d] +
            colour[3 * (y1 * width + x1) + d]) /
          4;
      }
      centres[5 * k + 3] = x;
      centres[5 * k + 4] = y;
      off[k] = Math.abs(c - (columns - 1) / 2) + Math.abs(r - (rows - 1) / 2);
    }
  }
  return Int32Array.from(off.keys()).sort((a, b) => off[a] - off[b] || a - b);
}

function assign(
  colour: Float32Array,
  width: number,
  height: number,
  centres: Float64Array,
  order: Int32Array,
  step: number,
  spatial: number,
  mask: Uint8Array | null,
  labels: Int32Array,
  distance: Float32Array,
): void {
  distance.fill(Number.POSITIVE_INFINITY);
  const reach = Math.ceil(step * 1.2) + 1;
  for (const k of order) {
    const cl = centres[5 * k];
    const ca = centres[5 * k + 1];
    const cb = centres[5 * k + 2];
    const cx = centres[5 * k + 3];
    const cy = centres[5 * k + 4];
    const x0 = Math.max(0, Math.ceil(cx - reach));
    const x1 = Math.min(width - 1, Math.floor(cx + reach));
    const y0 = Math.max(0, Math.ceil(cy - reach));
    const y1 = Math.min(height - 1, Math.floor(cy + reach));
    for (let y = y0; y <= y1; y++) {
      const dy = spatial * (y - cy) * (y - cy);
      for (let x = x0, i = y * width + x0; x <= x1; x++, i++) {
        const l = colour[3 * i] - cl;
        const a = colour[3 * i + 1] - ca;
        const b = colour[3 * i + 2] - cb;
        const d = l * l + a * a + b * b + dy + spatial * (x - cx) * (x - cx);
        if (d < distance[i] && (mask === null || mask[i] === 1)) {
          distance[i] = d;
          labels[i] = k;
        }
      }
    }
  }
}

/** Every superpixel in one piece: small or cut-off pieces join the neighbour with the longest common border. */
function connect(labels: Int32Array, width: number, height: number, n: number, least: number): Segmentation {
  const size = width * height;
  const piece = new Int32Array(size).fill(-1);
  const stack = new Int32Array(size);
  const owner: number[] = [];
  const areas: number[] = [];
  let id = 0;
  let label = 0;
  let top = 0;
  const visit = (i: number) => {
    if (piece[i] >= 0 || labels[i] !== label) return;
    piece[i] = id;
    stack[top++] = i;
  };
  for (let s = 0; s < size; s++) {
    if (piece[s] >= 0 || labels[s] < 0) continue;
    id = owner.length;
    label = labels[s];
    let area = 0;
    visit(s);
    while (top > 0) {
      const i = stack[--top];
      area++;
      const x = i % width;
      if (x > 0) visit(i - 1);
      if (x < width - 1) visit(i + 1);
      if (i >= width) visit(i - width);
      if (i < size - width) visit(i + width);
    }
    owner.push(label);
    areas.push(area);
  }

  const largest = new Int32Array(n).fill(-1);
  owner.forEach((k, id) => {
    if (largest[k] < 0 || areas[id] > areas[largest[k]]) largest[k] = id;
  });
  const kept = owner.map((k, id) => largest[k] === id && areas[id] >= least);
  const borders = pieceBorders(piece, width, height, owner.length);
  const parent = owner.map((_, id) => id);
  const root = (id: number): number => {
    let r = id;
    while (parent[r] !== r) r = parent[r];
    return r;
  };
  // Smallest first, so that specks inside stray pieces go with them.
  const strays = owner.map((_, id) => id).filter((id) => !kept[id]);
  strays.sort((a, b) => areas[a] - areas[b]);
  for (const id of strays) {
    let best = -1;
    let most = -1;
    for (const [other, length] of borders[id]) {
      const rank = length + (kept[other] ? size : 0);
      if (root(other) !== id && (rank > most || (rank === most && areas[other] > areas[best]))) {
        best = other;
        most = rank;
      }
    }
    if (best >= 0) parent[id] = root(best);
  }

  const number = new Int32Array(owner.length).fill(-1);
  const out = new Int32Array(size).fill(-1);
  let count = 0;
  for (let i = 0; i < size; i++) {
    if (piece[i] < 0) continue;
    const r = root(piece[i]);
    if (number[r] < 0) number[r] = count++;
    out[i] = number[r];
  }
  return { width, height, count, labels: out };
}

function pieceBorders(piece: Int32Array, width: number, height: number, n: number): Map<number, number>[] {
  const borders = Array.from({ length: n }, () => new Map<number, number>());
  const touch = (a: number, b: number) => {
    if (a === b || a < 0 || b < 0) return;
    borders[a].set(b, (borders[a].get(b) ?? 0) + 1);
    borders[b].set(a, (borders[b].get(a) ?? 0) + 1);
  };
  for (let y = 0, i = 0; y < height; y++) {
    for (let x = 0; x < width; x++, i++) {
      if (x < width - 1) touch(piece[i], piece[i + 1]);
      if (y < height - 1) touch(piece[i], piece[i + width]);
    }
  }
  return borders;
}
