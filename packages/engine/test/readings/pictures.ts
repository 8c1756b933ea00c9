import sharp, { type Sharp } from 'sharp';
import { takeCensus } from '../../src/census/take.ts';
import { mapToGamut } from '../../src/colour/gamut.ts';
import { invert, type Triple, transform } from '../../src/colour/matrix.ts';
import { oklabToLinear, oklchToOklab } from '../../src/colour/oklab.ts';
import { DISPLAY_P3, SRGB } from '../../src/colour/rgbSpaces.ts';
import { linearToSrgb } from '../../src/colour/transfer.ts';
import { type Intent, OPEN_INTENT } from '../../src/intent/intent.ts';
import type { ReadingInput } from '../../src/readings/reading.ts';
import { makeViews } from '../../src/views/makeViews.ts';
import type { Raster } from '../../src/views/raster.ts';

/** OKLCh (L 0…1, chroma, hue in degrees) of a place given in shares of width and height. */
export type Painter = (x: number, y: number) => Triple;

/** An 8-bit sRGB picture; colours outside the gamut are mapped into it. */
export function paint(width: number, height: number, at: Painter): Raster {
  const data = new Uint8Array(3 * width * height);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i += 3) {
      const rgb = mapToGamut(oklabToLinear(oklchToOklab(at((x + 0.5) / width, (y + 0.5) / height))), SRGB);
      for (let c = 0; c < 3; c++) data[i + c] = Math.round(255 * clamp(linearToSrgb(rgb[c])));
    }
  return { width, height, channels: 3, depth: 8, data, space: SRGB };
}

/** What a reading is given for a picture. */
export function inputOf(raster: Raster, intent: Partial<Intent> = {}): ReadingInput {
  return {
    picture: {
      name: 'test',
      width: raster.width,
      height: raster.height,
      depth: raster.depth,
      profile: raster.space.name,
      tagged: true,
    },
    census: takeCensus(raster),
    views: makeViews(raster),
    intent: { ...OPEN_INTENT, ...intent },
    baseline: null,
    leftOut: null,
    layers: null,
    photographed: false,
  };
}

/** A fixed pseudo-random number 0…1 for three integers. */
export function grain(x: number, y: number, seed: number): number {
  let h = Math.imul(x, 374761393) ^ Math.imul(y, 668265263) ^ Math.imul(seed, 2246822519);
  h = Math.imul(h ^ (h >>> 13), 1274126177);
  return ((h ^ (h >>> 16)) >>> 0) / 2 ** 32;
}

/** Smooth noise −1…1 with about `cells` hills across. */
export function hills(x: number, y: number, cells: number, seed: number): number {
  const u = x * cells;
  const v = y * cells;
  const i = Math.floor(u);
  const j = Math.floor(v);
  const fade = (t: number): number => t * t * (3 - 2 * t);
  const s = fade(u - i);
  const t = fade(v - j);
  const top = grain(i, j, seed) * (1 - s) + grain(i + 1, j, seed) * s;
  const low = grain(i, j + 1, seed) * (1 - s) + grain(i + 1, j + 1, seed) * s;
  return 2 * (top * (1 - t) + low * t) - 1;
}

/** A landing at dusk: sky from violet-blue to orange, its reflection, dark sheds, a few lamps, strokes. */
export const dusk: Painter = (x, y) => {
  const stroke = hills(x, 2.5 * y, 24, 1);
  const shed = y > 0.34 && y < 0.62 && (x < 0.28 || (x > 0.7 && y > 0.42));
  const lamp = (cx: number, cy: number): boolean => (x - cx) ** 2 + (y - cy) ** 2 < 0.012 ** 2;
  if (lamp(0.3, 0.5) || lamp(0.66, 0.48) || lamp(0.72, 0.56)) return [0.86, 0.15, 70];
  if (shed) return [0.24 + 0.04 * stroke, 0.035, 285 + 12 * stroke];
  const depth = y < 0.6 ? y / 0.6 : (1.2 - y) / 0.6;
  const warm = Math.max(0, depth - 0.55) / 0.45;
  return [
    0.38 + 0.34 * depth + 0.02 * stroke - (y > 0.6 ? 0.05 : 0),
    0.07 - 0.09 * warm * (1 - warm),
    warm > 0.5 ? 55 + 8 * stroke : 275 + 10 * stroke,
  ];
};

/** A meadow under a light sky with a path. */
export const meadow: Painter = (x, y) => {
  const stroke = hills(x, y, 40, 2) + 0.5 * hills(x, y, 90, 3);
  const ridge = 0.42 + 0.05 * hills(x, 0, 4, 4);
  if (y < ridge) return [0.88 - 0.2 * (ridge - y) + 0.01 * stroke, 0.05, 235 + 5 * stroke];
  const path = Math.abs(x - 0.5 - 0.3 * (y - 0.7)) < 0.02 + 0.1 * (y - ridge);
  if (path) return [0.66 + 0.04 * stroke, 0.05, 70 + 6 * stroke];
  return [0.5 + 0.08 * stroke - 0.1 * (y - ridge), 0.11, 128 + 14 * stroke];
};

/** Fog over water: next to no contrast, one cool hue. */
export const fog: Painter = (x, y) => {
  const mist = hills(x, 3 * y, 6, 5);
  const pier = y > 0.6 && Math.abs(x - 0.4) < 0.02 + 0.3 * (y - 0.6);
  return [pier ? 0.55 : 0.78 + 0.03 * mist, 0.045, 230 + 10 * mist];
};

/** Awnings at noon: saturated flat patches of every hue. */
export const market: Painter = (x, y) => {
  const i = Math.floor(9 * x + 0.5 * hills(x, y, 5, 6));
  const j = Math.floor(6 * y);
  const stroke = hills(x, y, 60, 7);
  return [
    0.45 + 0.4 * grain(i, j, 8) + 0.03 * stroke,
    0.08 + 0.1 * grain(i, j, 9),
    360 * grain(i, j, 10) + 6 * stroke,
  ];
};

export const PICTURES: Readonly<Record<string, Painter>> = { dusk, meadow, fog, market };

/** Copies of a picture that show the same to the eye. */
export const COPIES: Readonly<Record<string, (raster: Raster) => Promise<Raster>>> = {
  'half the size': (r) => resized(r, 0.5),
  'twice the size': (r) => resized(r, 2),
  'JPEG at quality 90': async (r) => decoded(await image(r).jpeg({ quality: 90 }).toBuffer()),
  'tagged Display P3': async (r) => inP3(r),
  'one per cent of noise': async (r) => noisy(r),
  mirrored: async (r) => mirrored(r),
};

function image({ data, width, height }: Raster): Sharp {
  return sharp(data, { raw: { width, height, channels: 3 } });
}

async function decoded(file: Buffer): Promise<Raster> {
  const { data, info } = await sharp(file).raw().toBuffer({ resolveWithObject: true });
  return { width: info.width, height: info.height, channels: 3, depth: 8, data, space: SRGB };
}

async function resized(raster: Raster, scale: number): Promise<Raster> {
  const width = Math.round(raster.width * scale);
  return decoded(await image(raster).resize({ width }).png().toBuffer());
}

function inP3(raster: Raster): Raster {
  const into = invert(DISPLAY_P3.toSrgb);
  const decode = (v: number): number => (v <= 10 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4);
  const data = new Uint8Array(raster.data.length);
  for (let i = 0; i < data.length; i += 3) {
    const p3 = transform(into, [
      decode(raster.data[i]),
      decode(raster.data[i + 1]),
      decode(raster.data[i + 2]),
    ]);
    for (let c = 0; c < 3; c++) data[i + c] = Math.round(255 * clamp(linearToSrgb(p3[c])));
  }
  return { ...raster, data, space: DISPLAY_P3 };
}

/** Gaussian-like noise (sum of four uniform numbers) with a standard deviation of 1 % of the code range. */
function noisy(raster: Raster): Raster {
  const data = raster.data.map((v, i) => {
    let n = -2;
    for (let k = 0; k < 4; k++) n += grain(i, k, 77);
    return Math.min(255, Math.max(0, Math.round(v + (2.55 * n) / Math.sqrt(4 / 12))));
  });
  return { ...raster, data };
}

function mirrored(raster: Raster): Raster {
  const { width, height } = raster;
  const data = new Uint8Array(raster.data.length);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      for (let c = 0; c < 3; c++)
        data[3 * (y * width + x) + c] = raster.data[3 * (y * width + width - 1 - x) + c];
  return { ...raster, data };
}

function clamp(v: number): number {
  return Math.min(1, Math.max(0, v));
}
