import { linearToCielab, luminance } from '../../colour/cielab.ts';
import type { View } from '../../views/view.ts';
import { logColour } from './logColour.ts';
import { type Segmentation, slic } from './slic.ts';

/** Superpixels wanted on a view of 900 px; smaller views get as many as their area allows. */
const SUPERPIXELS = 1800;
/** The paper's m, in CIELAB units. */
const COMPACTNESS = 12;
/** Darker than this in any channel (linear, 0…1) there is no reliable colour; brighter, a channel may be closed. */
const DARKEST = 0.0018;
const BRIGHTEST = 0.97;

/**
 * The superpixels of a view with what the reading needs to know of each; all arrays are `count` long.
 */
export interface Regions {
  readonly segmentation: Segmentation;
  readonly count: number;
  /** Pixels. */
  readonly area: Float64Array;
  /** Mean linear light, `count × 3`. */
  readonly rgb: Float64Array;
  /** Log-chromaticity and logarithmic mean of `rgb`. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly l: Float64Array;
  /** Middle, in pixels of the view. */
  readonly px: Float64Array;
  readonly py: Float64Array;
  /** 1 where the colour is neither closed in the darks nor in the lights. */
  readonly usable: Uint8Array;
  /** Fine texture: mean deviation of ln Y from the mean of its surroundings 2 px away. Light does not change it. */
  readonly grain: Float64Array;
  /** Neighbours: those of region i are `neighbour[first[i] … first[i+1]]`, with the common border in pixels. */
  readonly first: Int32Array;
  readonly neighbour: Int32Array;
  readonly border: Float64Array;
}

/** Superpixels of views that are still in use: an edit is read on those of the picture it was made from. */
const known = new WeakMap<View, Segmentation>();

function segmentationOf(view: View): Segmentation {
  let segmentation = known.get(view);
  if (!segmentation) {
    const { width, height, rgb, alpha } = view;
    const mask = alpha ? Uint8Array.from(alpha, (a) => (a > 0.5 ? 1 : 0)) : null;
    const count = Math.min(SUPERPIXELS, Math.max(16, Math.round((width * height) / 80)));
    segmentation = slic(toCielab(rgb), width, height, { count, compactness: COMPACTNESS, mask });
    known.set(view, segmentation);
  }
  return segmentation;
}

/** Superpixels of a view and their means. */
export function regionsOf(view: View): Regions {
  const segmentation = segmentationOf(view.editOf ?? view);
  const { count } = segmentation;
  const shapes = shapesOf(segmentation);
  const { mean, grain } = colours(view, segmentation, shapes.area);
  const lx = new Float64Array(count);
  const ly = new Float64Array(count);
  const l = new Float64Array(count);
  const usable = new Uint8Array(count);
  for (let s = 0; s < count; s++) {
    const [r, g, b] = [mean[3 * s], mean[3 * s + 1], mean[3 * s + 2]];
    const colour = logColour(r, g, b);
    lx[s] = colour.x;
    ly[s] = colour.y;
    l[s] = colour.l;
    usable[s] = Math.min(r, g, b) > DARKEST && Math.max(r, g, b) < BRIGHTEST ? 1 : 0;
  }
  return {
    segmentation,
    count,
    ...shapes,
    rgb: mean,
    x: lx,
    y: ly,
    l,
    usable,
    grain,
  };
}

/** What superpixels are without their colours. */
type Shapes = Pick<Regions, 'area' | 'px' | 'py' | 'first' | 'neighbour' | 'border'>;

/** Shapes of superpixels that are still in use: an edit has those of the picture it was made from. */
const knownShapes = new WeakMap<Segmentation, Shapes>();

function shapesOf(segmentation: Segmentation): Shapes {
  let shapes = knownShapes.get(segmentation);
  if (!shapes) {
    shapes = { ...middles(segmentation), ...neighbours(segmentation) };
    knownShapes.set(segmentation, shapes);
  }
  return shapes;
}

function middles({ width, height, labels, count }: Segmentation): Pick<Regions, 'area' | 'px' | 'py'> {
  const area = new Float64Array(count);
  const px = new Float64Array(count);
  const py = new Float64Array(count);
  for (let y = 0, i = 0; y < height; y++) {
    for (let x = 0; x < width; x++, i++) {
      const s = labels[i];
      if (s < 0) continue;
      area[s]++;
      px[s] += x;
      py[s] += y;
    }
  }
  for (let s = 0; s < count; s++) {
    px[s] /= area[s];
    py[s] /= area[s];
  }
  return { area, px, py };
}

/** Share of a region's pixels that must be left when its rim is not counted. */
const LEAST_INSIDE = 0.3;
/** Finest light that counts for the texture: one step of an 8-bit file in the darks. */
const TEXTURE_FLOOR = 0.002;

/** Mean light and texture of each region. Pixels at its rim are mixed with the neighbour's and left out where enough remain. */
function colours(
  view: View,
  segmentation: Segmentation,
  area: Float64Array,
): { mean: Float64Array; grain: Float64Array } {
  const { width, height, rgb } = view;
  const { labels, count } = segmentation;
  const inner = new Float64Array(count * 5);
  const all = new Float64Array(count * 3);
  const plane = new Float32Array(width * height);
  for (let i = 0; i < plane.length; i++) {
    const y = luminance(rgb[3 * i], rgb[3 * i + 1], rgb[3 * i + 2]);
    plane[i] = Math.log(Math.max(TEXTURE_FLOOR, y));
  }
  for (let y = 0, i = 0; y < height; y++) {
    for (let x = 0; x < width; x++, i++) {
      const s = labels[i];
      if (s < 0) continue;
      for (let c = 0; c < 3; c++) all[3 * s + c] += rgb[3 * i + c];
      const rim =
        x === 0 ||
        x === width - 1 ||
        y === 0 ||
        y === height - 1 ||
        labels[i - 1] !== s ||
        labels[i + 1] !== s ||
        labels[i - width] !== s ||
        labels[i + width] !== s;
      if (rim) continue;
      for (let c = 0; c < 3; c++) inner[5 * s + c] += rgb[3 * i + c];
      inner[5 * s + 4]++;
      if (x < 2 || y < 2 || x >= width - 2 || y >= height - 2) continue;
      const around = (plane[i - 2] + plane[i + 2] + plane[i - 2 * width] + plane[i + 2 * width]) / 4;
      inner[5 * s + 3] += Math.abs(plane[i] - around);
    }
  }
  const mean = new Float64Array(count * 3);
  const grain = new Float64Array(count);
  for (let s = 0; s < count; s++) {
    const kept = inner[5 * s + 4];
    const enough = kept >= LEAST_INSIDE * area[s] && kept > 0;
    for (let c = 0; c < 3; c++) mean[3 * s + c] = enough ? inner[5 * s + c] / kept : all[3 * s + c] / area[s];
    grain[s] = kept > 0 ? inner[5 * s + 3] / kept : 0;
  }
  return { mean, grain };
}

function neighbours(s: Segmentation): Pick<Regions, 'first' | 'neighbour' | 'border'> {
  const { width, height, labels, count } = s;
  const keys: number[] = [];
  const touch = (a: number, b: number) => {
    if (a !== b && a >= 0 && b >= 0) keys.push(a < b ? a * count + b : b * count + a);
  };
  for (let y = 0, i = 0; y < height; y++) {
    for (let x = 0; x < width; x++, i++) {
      if (x < width - 1) touch(labels[i], labels[i + 1]);
      if (y < height - 1) touch(labels[i], labels[i + width]);
    }
  }
  const sorted = Float64Array.from(keys).sort();
  const links: [number, number, number][] = [];
  for (let i = 0; i < sorted.length; ) {
    let j = i;
    while (j < sorted.length && sorted[j] === sorted[i]) j++;
    links.push([Math.floor(sorted[i] / count), sorted[i] % count, j - i]);
    i = j;
  }
  const first = new Int32Array(count + 1);
  for (const [a, b] of links) {
    first[a + 1]++;
    first[b + 1]++;
  }
  for (let i = 0; i < count; i++) first[i + 1] += first[i];
  const next = first.slice();
  const neighbour = new Int32Array(2 * links.length);
  const border = new Float64Array(2 * links.length);
  for (const [a, b, w] of links) {
    neighbour[next[a]] = b;
    border[next[a]++] = w;
    neighbour[next[b]] = a;
    border[next[b]++] = w;
  }
  return { first, neighbour, border };
}

/** CIELAB of a view's pixels, for the superpixels only: out-of-range values stay finite. */
export function toCielab(rgb: Float32Array): Float32Array {
  const out = new Float32Array(rgb.length);
  for (let i = 0; i < rgb.length; i += 3) {
    const lab = linearToCielab([rgb[i], rgb[i + 1], rgb[i + 2]]);
    out[i] = lab[0];
    out[i + 1] = lab[1];
    out[i + 2] = lab[2];
  }
  return out;
}
