import {
  colourName,
  encode,
  lightness,
  linearTables,
  linearToOklab,
  luminance,
  oklabToOklch,
  type Raster,
  type Triple,
  transform,
} from '@halflight/engine';
import type { PlaceReading } from '../../picture/desk.ts';

/** Below this OKLCh chroma a hue has no meaning: the engine's own limit. */
const NEUTRAL = 0.02;

/** Borders of the words are our default, set by eye. */
const LIGHTNESS_WORDS: readonly (readonly [below: number, word: string])[] = [
  [10, 'nearly black'],
  [28, 'dark'],
  [45, 'rather dark'],
  [58, 'of middle lightness'],
  [72, 'rather light'],
  [92, 'light'],
  [Infinity, 'nearly white'],
];
const CHROMA_WORDS: readonly (readonly [below: number, word: string])[] = [
  [0.045, 'greyed'],
  [0.09, 'muted'],
  [0.15, 'clear'],
  [Infinity, 'strong'],
];

/**
 * The mean colour of a disc of the picture, in linear light, weighted by alpha.
 *
 * @param x, y centre, in shares of width and height
 * @param radius in pixels of the picture; at least the pixel under the centre is read
 */
export function readPlace(raster: Raster, x: number, y: number, radius: number): PlaceReading {
  const { width, height, data, channels, depth, space } = raster;
  const [red, green, blue] = linearTables(space, depth);
  const cx = Math.min(width - 1, Math.max(0, Math.floor(x * width)));
  const cy = Math.min(height - 1, Math.max(0, Math.floor(y * height)));
  const reach = Math.floor(Math.max(0, radius));
  const sum = [0, 0, 0];
  let cover = 0;
  for (let j = Math.max(0, cy - reach); j <= Math.min(height - 1, cy + reach); j++) {
    for (let i = Math.max(0, cx - reach); i <= Math.min(width - 1, cx + reach); i++) {
      if ((i - cx) ** 2 + (j - cy) ** 2 > reach * reach) continue;
      const at = channels * (j * width + i);
      const alpha = channels === 4 ? data[at + 3] / (2 ** depth - 1) : 1;
      sum[0] += alpha * red[data[at]];
      sum[1] += alpha * green[data[at + 1]];
      sum[2] += alpha * blue[data[at + 2]];
      cover += alpha;
    }
  }
  const own = sum.map((channel) => (cover > 0 ? channel / cover : 0)) as unknown as Triple;
  const rgb = transform(space.toSrgb, own);
  const lch = oklabToOklch(linearToOklab(rgb));
  const [, chroma, hue] = lch;
  const light = lightness(luminance(...rgb));
  return {
    x: (cx + 0.5) / width,
    y: (cy + 0.5) / height,
    painted: cover > 0,
    rgb,
    hex: `#${own.map((value, channel) => hexPair(encode(space.curves[channel], value))).join('')}`,
    space: space.name,
    lightness: light,
    chroma,
    hue: chroma < NEUTRAL ? null : hue,
    words: placeWords(light, lch),
  };
}

/**
 * "Violet-blue, dark, muted."
 *
 * @param light CIELAB L*
 * @param lch OKLCh
 */
export function placeWords(light: number, [L, chroma, hue]: Triple): string {
  const lightWord = wordFor(LIGHTNESS_WORDS, light);
  if (chroma < NEUTRAL) return `Neutral grey, ${lightWord}.`;
  const name = colourName(L, chroma, hue);
  return `${name[0].toUpperCase()}${name.slice(1)}, ${lightWord}, ${wordFor(CHROMA_WORDS, chroma)}.`;
}

function wordFor(words: readonly (readonly [number, string])[], value: number): string {
  return (words.find(([below]) => value < below) ?? words[words.length - 1])[1];
}

function hexPair(code: number): string {
  return Math.round(255 * Math.min(1, Math.max(0, code)))
    .toString(16)
    .padStart(2, '0');
}
