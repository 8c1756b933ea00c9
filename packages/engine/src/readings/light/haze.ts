import { luminance } from '../../colour/cielab.ts';
import type { Triple } from '../../colour/matrix.ts';
import { JUDGED, SKY } from './exclusions.ts';
import type { Regions } from './regions.ts';
import type { Haze } from './types.ts';

/** The share of the darkest of what is judged that tells how much air lies over everything. */
const DARKEST_SHARE = 0.1;
/** Less than this is the light of a dark pigment; our default, between clear and hazy scenes of the bench. */
const LEAST_VEIL = 0.075;
/** A sky darker than this in luminance is a wall or a night: nothing that the air could send on. */
const LEAST_SKY = 0.08;
/** Least light of a channel of the air, so that shares of it stay finite. */
const CLOSED = 1e-4;

/**
 * Air between the picture and the eye: its colour is that of the sky where it meets the land, its amount the share of
 * that light which lies even over the darkest tenth of what is judged (in the channel that allows least of it). After
 * the dark channel of He, Sun & Tang 2011, "Single image haze removal", IEEE PAMI 33. Without a sky nothing is said.
 *
 * @param air colour of the air as `airOf` gives it
 */
export function hazeOf(regions: Regions, excluded: Uint8Array, air: Triple | null): Haze {
  if (!air) return { amount: 0, colour: null };
  const veils: number[] = [];
  for (let i = 0; i < regions.count; i++) if (excluded[i] === JUDGED) veils.push(veilAt(regions, i, air));
  veils.sort((a, b) => a - b);
  const amount = veils[Math.floor(DARKEST_SHARE * (veils.length - 1))] ?? 0;
  return amount < LEAST_VEIL ? { amount: 0, colour: null } : { amount: Math.min(1, amount), colour: air };
}

/** Colour of the air, whether or not it lies over everything: that of a bright sky where it meets the land; null without. */
export function airOf(regions: Regions, excluded: Uint8Array): Triple | null {
  const air = skyAtTheLand(regions, excluded);
  return air && luminance(air[0], air[1], air[2]) >= LEAST_SKY ? air : null;
}

/** Most air that can lie over a region, as a share of the air's light: no channel may be left below nothing. */
export function veilAt({ rgb }: Regions, i: number, air: Triple): number {
  return Math.min(rgb[3 * i] / air[0], rgb[3 * i + 1] / air[1], rgb[3 * i + 2] / air[2]);
}

/** Mean colour of the sky along its border to what is not sky; null without. */
function skyAtTheLand(
  { count, first, neighbour, border, rgb }: Regions,
  excluded: Uint8Array,
): Triple | null {
  const sum = [0, 0, 0];
  let total = 0;
  for (let i = 0; i < count; i++) {
    if (excluded[i] !== SKY) continue;
    for (let e = first[i]; e < first[i + 1]; e++) {
      if (excluded[neighbour[e]] === SKY) continue;
      total += border[e];
      for (let c = 0; c < 3; c++) sum[c] += border[e] * rgb[3 * i + c];
    }
  }
  const mean = (c: number) => Math.max(CLOSED, sum[c] / total);
  return total > 0 ? [mean(0), mean(1), mean(2)] : null;
}
