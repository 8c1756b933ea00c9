import { VALUE_GROUPS } from '../../findings/thresholds/value.ts';
import type { FocusIntent } from '../../intent/intent.ts';
import { type Clustering, clusterExactly } from '../../numbers/clusters.ts';
import { sortedPercentiles } from '../../numbers/percentiles.ts';
import { structuralSimilarity } from '../../numbers/ssim.ts';
import type { Field, View } from '../../views/view.ts';
import { focusContrast } from './focus.ts';
import { shapesOf } from './shapes.ts';
import { groupOf, lightnessOf, type TonalView, type Tones, tonesOf, weightsOf } from './tones.ts';
import type { SeenValues } from './types.ts';

/** Key and range of a picture as one sees it from a step back, L*. */
export interface Tonality {
  /** Area mean. */
  readonly key: number;
  /** 5th and 95th percentile. */
  readonly low: number;
  readonly high: number;
}

/** Looks at the whole view by lightness. */
export function tonalView(whole: View, leftOut: Field | null): TonalView {
  const L = lightnessOf(whole);
  const weights = weightsOf(whole, leftOut);
  return { L, weights, tones: tonesOf(L, weights) };
}

/** Null for a picture without any paint. */
export function tonalityOf({ tones }: TonalView): Tonality | null {
  if (tones.L.length === 0) return null;
  let sum = 0;
  let key = 0;
  for (let i = 0; i < tones.L.length; i++) {
    sum += tones.weight[i];
    key += tones.weight[i] * tones.L[i];
  }
  const [low, high] = sortedPercentiles(tones.L, tones.weight, [0.05, 0.95]);
  return { key: key / sum, low, high };
}

/** The best splits into 1 … 5 groups; `chosen` is the number that suits the picture. */
export interface Grouping {
  readonly splits: readonly Clustering[];
  readonly chosen: Clustering;
  /** The split into three, or into as many as there are. */
  readonly three: Clustering;
}

/**
 * Value groups: three, or four or five when these come much nearer to the picture than three do.
 *
 * Each number of groups is held against an even grey ramp, of which k groups explain 1 − 1/k²: what is left
 * unexplained times k² is 1 for the ramp, and small when the picture is made of k tones.
 */
export function groupTones(tones: Tones, range: number): Grouping | null {
  const splits = clusterExactly(tones.L, tones.weight, 5);
  if (splits.length === 0) return null;
  const three = splits[Math.min(3, splits.length) - 1];
  if (range < VALUE_GROUPS.oneTone) return { splits, chosen: splits[0], three };
  const left = (k: number): number => (1 - splits[k - 1].explained) * k * k;
  let chosen = Math.min(3, splits.length);
  for (let k = 4; k <= splits.length; k++) {
    const gain = splits[k - 1].explained - three.explained;
    if (gain >= VALUE_GROUPS.gain * (k - 3) && left(k) < VALUE_GROUPS.nearer * left(chosen)) chosen = k;
  }
  return { splits, chosen: splits[chosen - 1], three };
}

/** All numbers of the value reading, and the groups they stand on. Null for a picture without any paint. */
export function measureValues(
  view: TonalView,
  focus: FocusIntent | undefined,
): { value: SeenValues; grouping: Grouping } | null {
  const tonality = tonalityOf(view);
  if (!tonality) return null;
  const range = tonality.high - tonality.low;
  const grouping = groupTones(view.tones, range);
  if (!grouping) return null;
  const { splits, chosen, three } = grouping;
  const { L, weights } = view;
  const tones = inTones(L, three);
  return {
    grouping,
    value: {
      key: tonality.key,
      range,
      low: tonality.low,
      high: tonality.high,
      groups: [...chosen.means].map((mean, g) => ({ L: mean, share: chosen.shares[g] })),
      tones: [...three.means],
      explained: splits
        .map((split, i) => ({ groups: i + 1, share: split.explained, evenRamp: 1 - 1 / (i + 1) ** 2 }))
        .filter(({ groups }) => groups >= 3),
      thumbnail: structuralSimilarity(L, tones, 100, weights),
      shapes: shapesOf(view, three.borders),
      focus: focus ? focusContrast(view, focus.outlines) : null,
      distribution: distributionOf(view.tones),
    },
  };
}

/** The picture in its tones: each place at the mean L* of its group. */
export function inTones({ width, height, data }: Field, { means, borders }: Clustering): Field {
  const out = new Float32Array(data.length);
  for (let p = 0; p < out.length; p++) out[p] = means[groupOf(data[p], borders)];
  return { width, height, data: out };
}

function distributionOf({ L, weight }: Tones): number[] {
  const out = new Array<number>(20).fill(0);
  let sum = 0;
  for (let i = 0; i < L.length; i++) {
    out[Math.min(19, Math.floor(L[i] / 5))] += weight[i];
    sum += weight[i];
  }
  return out.map((v) => v / sum);
}
