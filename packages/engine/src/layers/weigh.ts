import type { ColourSpace } from '../colour/space.ts';
import { percentiles } from '../numbers/percentiles.ts';
import { makeWholeView, reduceView } from '../views/resample.ts';
import { spans } from '../views/spans.ts';
import type { Field, View } from '../views/view.ts';
import { lineRunner } from './lines.ts';
import { READ_LONG_SIDE } from './measures.ts';
import type { Program } from './program.ts';
import { isFaint, lightOfCodes, openEye, seenDifference } from './seen.ts';

/** What the picture loses when a layer or group is hidden. */
export interface Worth {
  /** CIEDE2000 on the whole view: mean over the picture and 95th percentile. */
  readonly mean: number;
  readonly p95: number;
  /** CIEDE2000 on the whole view, place by place. */
  readonly map: Field;
}

export interface Weighed {
  readonly worth: Worth;
  /** Share of its own places at which hiding it is seen, at the size it was weighed at; exact up to `SURELY` times `FEW`. */
  readonly seenShare: number;
  /** Share of its paint that lies over something else. */
  readonly backed: number;
  /** The picture without it, reduced; null where it is the same. */
  readonly without: View | null;
}

/** CIEDE2000 below which nobody sees a difference, even beside each other ("our default"). */
export const UNSEEN = 0.5;
/** Share of a layer's own places that may exceed it: the 99.9th percentile. */
export const FEW = 0.001;
/** How many times as often as allowed a part is to be seen at a coarser size to be surely seen up close. Our default. */
export const SURELY = 4;
/** Long side of the grid that differences are gathered on; the whole view is made from it. */
const BASE = 320;

/**
 * Weighs every visible part of a picture. At each place the picture is put together once; what stands there without a
 * part is then told from what stands below it and the line of what stands above (`PlaceRunner`).
 *
 * The whole view is a linear filter of premultiplied light, so that what a part adds can be filtered by itself.
 * Yields the share done after each row.
 */
export function* weighParts(
  { width, height }: { width: number; height: number },
  program: Program,
  space: ColourSpace,
): Generator<number, { weighed: Weighed[]; whole: View }> {
  const { parts } = program;
  const runner = lineRunner(program);
  const light = lightOfCodes(space);
  const eye = openEye(UNSEEN);
  const grid = gridOf(width, height);
  const base = new Float64Array(4 * grid.width * grid.height);
  const losses: (Float32Array | null)[] = parts.map(() => null);
  const covered = new Float64Array(parts.length);
  const backed = new Float64Array(parts.length);
  const seen = new Float64Array(parts.length);
  // A part that is seen at so many places is surely seen, and not counted any further.
  const surely = SURELY * FEW * width * height;
  const codes = new Float64Array(4);
  const full = new Float64Array(4);
  const less = new Float64Array(4);
  const { result, parts: present } = runner;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      runner.at(x, y);
      if (present.count === 0) continue;
      light(result, full);
      eye.at(full);
      grid.add(base, x, y, full);
      for (let i = 0; i < present.count; i++) {
        const k = present.list[i];
        if (runner.painted(k)) {
          covered[k]++;
          if (runner.backed(k)) backed[k]++;
        }
        if (!runner.without(k, codes)) continue;
        light(codes, less);
        if (seen[k] <= surely && !isFaint(result, codes) && eye.tells(less)) seen[k]++;
        for (let c = 0; c < 4; c++) less[c] -= full[c];
        losses[k] ??= new Float32Array(base.length);
        grid.add(losses[k]!, x, y, less);
      }
    }
    yield (y + 1) / height;
  }
  const picture = viewOf(base, null, grid);
  const whole = seenWhole(picture);
  const weighed = parts.map((_, k): Weighed => {
    const map = new Float32Array(whole.width * whole.height);
    const loss = losses[k];
    let without: View | null = null;
    if (loss) {
      const view = viewOf(base, loss, grid);
      const hidden = seenWhole(view);
      without = reduceView(view, READ_LONG_SIDE);
      for (let p = 0; p < map.length; p++)
        map[p] = seenDifference(
          whole.data.subarray(4 * p, 4 * p + 4),
          hidden.data.subarray(4 * p, 4 * p + 4),
        );
    }
    return {
      worth: {
        mean: map.reduce((sum, v) => sum + v, 0) / map.length,
        p95: percentiles(map, null, [0.95])[0],
        map: { width: whole.width, height: whole.height, data: map },
      },
      seenShare: covered[k] === 0 ? 0 : seen[k] / covered[k],
      backed: covered[k] === 0 ? 0 : backed[k] / covered[k],
      without,
    };
  });
  return { weighed, whole: reduceView(picture, READ_LONG_SIDE) };
}

interface Grid {
  readonly width: number;
  readonly height: number;
  /** Cells in a place. */
  readonly scale: number;
  /** Adds a place's share to the cells that it lies in. */
  add(to: Float32Array | Float64Array, x: number, y: number, value: Float64Array): void;
}

function gridOf(width: number, height: number): Grid {
  const scale = Math.min(1, BASE / Math.max(width, height));
  const w = Math.max(1, Math.round(width * scale));
  const h = Math.max(1, Math.round(height * scale));
  const columns = sharesOf(width, w);
  const rows = sharesOf(height, h);
  return {
    width: w,
    height: h,
    scale: w / width,
    add(to, x, y, value) {
      const last = columns.first[x + 1];
      for (let j = rows.first[y]; j < rows.first[y + 1]; j++)
        for (let i = columns.first[x]; i < last; i++) {
          const at = 4 * (rows.cell[j] * w + columns.cell[i]);
          const weight = rows.weight[j] * columns.weight[i];
          to[at] += weight * value[0];
          to[at + 1] += weight * value[1];
          to[at + 2] += weight * value[2];
          to[at + 3] += weight * value[3];
        }
    },
  };
}

/** For each source place, from `first` on, the cells that it counts for, with its weight in them. */
function sharesOf(source: number, size: number) {
  const shares: [number, number][][] = Array.from({ length: source }, () => []);
  spans(source, size).forEach(({ from, weights }, i) => {
    weights.forEach((weight, k) => {
      if (weight > 0) shares[from + k].push([i, weight]);
    });
  });
  const first = new Int32Array(source + 1);
  shares.forEach((list, i) => {
    first[i + 1] = first[i] + list.length;
  });
  const all = shares.flat();
  return {
    first,
    cell: Int32Array.from(all, ([cell]) => cell),
    weight: Float64Array.from(all, ([, weight]) => weight),
  };
}

/** The picture on the grid of premultiplied light, less what a part adds. */
function viewOf(base: Float64Array, loss: Float32Array | null, { width, height, scale }: Grid): View {
  const rgb = new Float32Array(3 * width * height);
  const alpha = new Float32Array(width * height);
  for (let p = 0; p < alpha.length; p++) {
    const a = Math.max(0, base[4 * p + 3] + (loss?.[4 * p + 3] ?? 0));
    alpha[p] = a < 1e-6 ? 0 : a;
    if (alpha[p] > 0)
      for (let c = 0; c < 3; c++) rgb[3 * p + c] = (base[4 * p + c] + (loss?.[4 * p + c] ?? 0)) / a;
  }
  return { width, height, rgb, alpha, scale };
}

/** The whole view, premultiplied, four numbers a place. */
function seenWhole(picture: View) {
  const view = makeWholeView(picture);
  const data = new Float64Array(4 * view.width * view.height);
  for (let p = 0; p < view.width * view.height; p++) {
    const a = view.alpha![p];
    for (let c = 0; c < 3; c++) data[4 * p + c] = a * view.rgb[3 * p + c];
    data[4 * p + 3] = a;
  }
  return { width: view.width, height: view.height, data };
}
