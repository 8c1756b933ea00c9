import type { View } from '../../../src/views/view.ts';
import { grain } from '../pictures.ts';

type Rgb = readonly [number, number, number];

/** A light by its two parts, linear. */
export interface Lighting {
  readonly key: Rgb;
  readonly fill: Rgb;
}

export const WARM: Lighting = { key: [0.9, 0.62, 0.36], fill: [0.1, 0.13, 0.22] };
export const COOL: Lighting = { key: [0.4, 0.5, 0.8], fill: [0.16, 0.12, 0.08] };
export const WHITE: Lighting = { key: [0.7, 0.7, 0.7], fill: [0.15, 0.15, 0.15] };

/** Pigments: three greys and nine colours. */
const PIGMENTS: readonly Rgb[] = [
  [0.6, 0.6, 0.6],
  [0.5, 0.2, 0.15],
  [0.2, 0.35, 0.15],
  [0.3, 0.3, 0.3],
  [0.15, 0.2, 0.45],
  [0.6, 0.45, 0.15],
  [0.4, 0.25, 0.4],
  [0.13, 0.13, 0.13],
  [0.7, 0.55, 0.45],
  [0.2, 0.4, 0.4],
  [0.35, 0.2, 0.1],
  [0.5, 0.55, 0.3],
];
const COLUMNS = 4;
const ROWS = 3;

export type Fault = 'neutral' | 'opposite';

export interface Panels {
  readonly view: View;
  /** Panel of every pixel. */
  readonly panel: Uint8Array;
  /** 1 where the key does not arrive. */
  readonly shade: Uint8Array;
  /** What light makes of a pigment in full key or without it. */
  correct(panel: number, lit: boolean): [number, number, number];
}

/**
 * Twelve panels of different pigment, each with a soft-edged shadow across its lower half: ρ·(kK + A) with a little
 * grain. A fault changes the shade of single panels: `neutral` to the lit colour darkened to the right luminance,
 * `opposite` lights the panel by key and fill changed over, K/A = s²/q, at the right luminance.
 */
export function panels(
  { key, fill }: Lighting,
  faults: Readonly<Record<number, Fault>> = {},
  width = 600,
  height = 450,
): Panels {
  const q = key.map((k, c) => k / fill[c]);
  const s2 = (q[0] * q[1] * q[2]) ** (2 / 3);
  const swapped = q.map((v) => s2 / v);
  const Y = (c: readonly number[]): number => 0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2];
  const colour = (id: number, k: number, fault?: Fault): [number, number, number] => {
    const pigment = PIGMENTS[id];
    const right = pigment.map((p, c) => p * fill[c] * (1 + k * q[c]));
    let painted = right;
    if (fault === 'neutral') painted = pigment.map((p, c) => p * fill[c] * (1 + q[c]));
    if (fault === 'opposite') painted = pigment.map((p, c) => p * key[c] * (1 + k * swapped[c]));
    const gain = Y(right) / Y(painted);
    return [gain * painted[0], gain * painted[1], gain * painted[2]];
  };
  const rgb = new Float32Array(3 * width * height);
  const panel = new Uint8Array(width * height);
  const shade = new Uint8Array(width * height);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i++) {
      const u = (x * COLUMNS) / width;
      const v = (y * ROWS) / height;
      const id = Math.floor(v) * COLUMNS + Math.floor(u);
      // A slanted edge of about six pixels.
      const edge = (v % 1) - 0.45 - 0.25 * ((u % 1) - 0.5);
      const k = Math.min(1, Math.max(0, 0.5 - 25 * edge));
      panel[i] = id;
      shade[i] = k === 0 ? 1 : 0;
      const c = colour(id, k, faults[id]);
      const g = 1 + 0.06 * (grain(x, y, 3) - 0.5);
      for (let ch = 0; ch < 3; ch++) rgb[3 * i + ch] = g * c[ch];
    }
  return {
    view: { width, height, rgb, alpha: null, scale: 1 },
    panel,
    shade,
    correct: (id, lit) => colour(id, lit ? 1 : 0),
  };
}
