/** The sky of the ferry landing: a violet-blue dome after sunset, a band of light low down, soft clouds. */
import { cloud2, type SkyColour } from '../scene/index.ts';
import { smooth } from './numbers.ts';

/** What may differ from one evening to the next. */
export interface Evening {
  readonly seed: number;
  /** Azimuth of the brightest place of the band, degrees right of straight ahead. */
  readonly glowAt: number;
  /** 0 clear … 1 heavily clouded. */
  readonly clouds: number;
}

// Linear light. The warm ones have the colour of the key, the cool ones that of the fill, so that the sky
// explains the light on the ground.
const ZENITH = [0.041, 0.05, 0.131] as const;
const HIGH = [0.0975, 0.107, 0.23] as const;
const LOW = [0.414, 0.351, 0.472] as const;
const BAND = [1.06, 0.6, 0.3] as const;
const CLOUD = [0.056, 0.06, 0.126] as const;
const EMBER = [0.68, 0.325, 0.21] as const;

/** The sky as a function of the direction (unit vector; straight ahead is −z). */
export function skyOf(evening: Evening): SkyColour {
  const { seed, glowAt, clouds } = evening;
  return (dx, dy, dz, out) => {
    const up = Math.max(0, dy);
    const azimuth = (Math.atan2(dx, -dz) * 180) / Math.PI;
    const elevation = (Math.asin(Math.min(1, up)) * 180) / Math.PI;
    const off = azimuth - glowAt;
    const near = Math.exp(-((off / 26) ** 2));
    const wide = Math.exp(-((off / 70) ** 2));

    // Dome: the band's light thins upwards, faster away from where the sun went down.
    const toHigh = smooth(-1, 10, elevation + 3 * (1 - near));
    const toZenith = smooth(5, 24, elevation + 2 * (1 - near));
    const band = (0.16 + 0.84 * near) * Math.exp(-((elevation / (1.8 + 2.9 * near)) ** 1.4));
    const blush = wide * Math.exp(-(((elevation - 5) / 4.5) ** 2));
    for (let c = 0; c < 3; c++) {
      let v = LOW[c]! * (0.66 + 0.34 * wide);
      v += (HIGH[c]! - v) * toHigh;
      v += (ZENITH[c]! - v) * toZenith;
      v += (EMBER[c]! * 0.7 - v) * blush * 0.2;
      v += (BAND[c]! - v) * band;
      out[c] = v;
    }

    // Clouds on a ceiling, seen ever flatter towards the horizon.
    const flat = 1 / (up + 0.12);
    const u = dx * flat;
    const v = -dz * flat;
    const warp = 1.5 * (cloud2(u * 0.45 + 3, v * 0.4, seed + 11, 2) - 0.5);
    const shape = (shift: number) =>
      cloud2(u * 0.3 + warp + 0.12 * v, (v + shift) * 0.62 + 0.8 * warp - 0.2 * u, seed + 13, 5);
    const body = shape(0);
    const torn = cloud2(u * 0.85 + 1.5 * warp, v * 2.6 + warp + 0.5 * u, seed + 14, 4) - 0.5;
    // The great bank comes down from the upper right to the left, and opens over the landing.
    const rise = elevation - (8.5 + 0.23 * azimuth);
    const bank = Math.exp(-((rise / (rise > 0 ? 7.5 : 3.6)) ** 2));
    const bars = Math.exp(-(((elevation - 3.2) / 1.5) ** 2));
    const density = body + 0.28 * torn + clouds * (0.2 * bank + 0.1 * bars) - 0.06 * near * (1 - bars);
    const thick = smooth(0.56, 0.76, density);
    // Lit from below by the band: where there is less cloud towards the light.
    const under = smooth(0.0, 0.13, body - shape(0.5) + 0.1 * torn);
    const lit = under * (0.2 + 0.8 * near) * Math.exp(-((elevation / 11) ** 2));
    const rim = thick * (1 - thick) * 4 * (0.15 + 0.85 * near) * Math.exp(-elevation / 8);
    const lift = 0.72 + 0.9 * (torn + 0.5) * (1 - 0.5 * thick) + 0.7 * wide * Math.exp(-elevation / 5);
    const alpha = thick * (0.9 - 0.25 * smooth(9, 20, elevation));
    for (let c = 0; c < 3; c++) {
      let cloud = CLOUD[c]! * lift;
      cloud += (EMBER[c]! - cloud) * Math.min(1, 0.62 * lit + 0.42 * rim);
      out[c]! += (cloud - out[c]!) * alpha;
    }
    // Thin high veil that still has some light.
    const veil = 0.22 * smooth(0.05, 0.3, torn) * smooth(5, 12, elevation) * (1 - thick);
    for (let c = 0; c < 3; c++) out[c]! += (LOW[c]! * 0.8 - out[c]!) * veil;
  };
}
