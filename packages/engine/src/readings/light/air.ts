import type { Triple } from '../../colour/matrix.ts';
import { SKY } from './exclusions.ts';
import { veilAt } from './haze.ts';
import { logColour } from './logColour.ts';
import type { Regions } from './regions.ts';

/** Air that was taken off the regions: its colour, and its share over each of them. */
export interface Air {
  readonly colour: Triple;
  readonly veil: Float64Array;
}

/** Air is looked for in the darkest this share of what lies around, within so many pixels (half as many up and down). */
const DARKEST_SHARE = 0.03;
const AROUND = 120;
/** So much of what the darkest thing sends may be air, so that something is left of everything; our default. */
const MOST = 0.95;
/** Light that is left at least, so that logarithms stay finite. */
const LEFT = 1e-5;

/**
 * Air that lies over each region, as a share of the light of the air, 0…1. All things send some light of their own, so
 * the darkest around tell the most that the air can send; nearer things stand before less of it, so what is found errs
 * towards too little. After He, Sun & Tang 2011 (IEEE PAMI 33), with superpixels in place of patches.
 *
 * @param air colour of the air, linear light
 */
export function veilOver(regions: Regions, excluded: Uint8Array, air: Triple): Float64Array {
  const { count, area, px, py } = regions;
  const most = Float64Array.from({ length: count }, (_, i) => Math.max(0, veilAt(regions, i, air)));
  const order = Int32Array.from(most, (_, i) => i).sort((a, b) => most[a] - most[b] || a - b);
  const low = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const around = order.filter(
      (j) => excluded[j] !== SKY && Math.hypot(px[i] - px[j], 2 * (py[i] - py[j])) <= AROUND,
    );
    let left = DARKEST_SHARE * around.reduce((sum, j) => sum + area[j], 0);
    for (const j of around) {
      low[i] = most[j];
      left -= area[j];
      if (left <= 0) break;
    }
  }
  return smooth(regions, low).map((v, i) => MOST * Math.min(v, most[i]));
}

/** Means of what lies around, the near counting more: air has no edges. */
function smooth({ count, area, px, py }: Regions, values: Float64Array): Float64Array {
  const out = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    let sum = 0;
    let weight = 0;
    for (let j = 0; j < count; j++) {
      const d = ((px[i] - px[j]) ** 2 + (py[i] - py[j]) ** 2) / AROUND ** 2;
      if (d > 1) continue;
      const w = Math.exp(-8 * d) * area[j];
      sum += w * values[j];
      weight += w;
    }
    out[i] = sum / weight;
  }
  return out;
}

/** The same regions without the air before them: J = (I − v·A)/(1 − v). */
export function withoutAir(regions: Regions, { colour: air, veil }: Air): Regions {
  const { count } = regions;
  const rgb = regions.rgb.slice();
  const x = new Float64Array(count);
  const y = new Float64Array(count);
  const l = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    for (let c = 0; c < 3; c++)
      rgb[3 * i + c] = Math.max(LEFT, (rgb[3 * i + c] - veil[i] * air[c]) / (1 - veil[i]));
    const colour = logColour(rgb[3 * i], rgb[3 * i + 1], rgb[3 * i + 2]);
    x[i] = colour.x;
    y[i] = colour.y;
    l[i] = colour.l;
  }
  return { ...regions, rgb, x, y, l };
}

/** A paint behind air, linear light: I = J·(1 − v) + A·v, with v the air's share. */
export function veiled(paint: Readonly<Triple>, air: Readonly<Triple>, share: number): Triple {
  return [
    paint[0] + share * (air[0] - paint[0]),
    paint[1] + share * (air[1] - paint[1]),
    paint[2] + share * (air[2] - paint[2]),
  ];
}

const HALVINGS = 12;

/** Share of the air, 0…1, behind which the paint has the given ℓ; the nearest that there is. */
export function shareOfAir(paint: Readonly<Triple>, air: Readonly<Triple>, l: number): number {
  const rising = logColour(air[0], air[1], air[2]).l > logColour(paint[0], paint[1], paint[2]).l;
  let [low, high] = [0, 1];
  for (let s = 0; s < HALVINGS; s++) {
    const share = (low + high) / 2;
    if (logColour(...veiled(paint, air, share)).l < l === rising) low = share;
    else high = share;
  }
  return (low + high) / 2;
}
