import { lightness, luminance } from '../../colour/cielab.ts';
import { linearToSrgb, srgbToLinear } from '../../colour/transfer.ts';
import { lightnessPlane } from '../../views/lightnessPlane.ts';
import type { View } from '../../views/view.ts';

/** Side of the windows that are fitted with a plane, in places. */
const WINDOW = 24;
/** Grain larger than this part of a code step hides the steps (half a step: they blend). */
const GRAIN = 0.5;
/** A step is seen when it is as wide as this many pixels of the picture or more: our default. */
const WIDE = 6;
/** Largest step in L* that is not seen as an edge: our default. */
const SEEN = 0.5;

/**
 * How much of the picture is a gradient so even that the steps of its code values could show.
 *
 * A window counts when a plane fits its L* with less grain than half a code step and one code step is at least six
 * pixels wide. Where the view is an average of n pixels, grain shows √n times weaker in it: the limit follows. Banding
 * that is there already stays below the limit too, since the fit is to the mean.
 *
 * @param depth bits of the file: 16-bit steps are never seen
 */
export function smoothness(view: View, depth: 8 | 16): { share: number; stretch: number | null } {
  if (depth === 16) return { share: 0, stretch: null };
  const L = lightnessPlane(view);
  const { width, height, rgb, scale } = view;
  let windows = 0;
  let smooth = 0;
  let step = 0;
  for (let y = 0; y + WINDOW <= height; y += WINDOW)
    for (let x = 0; x + WINDOW <= width; x += WINDOW) {
      windows++;
      const middle = 3 * ((y + WINDOW / 2) * width + x + WINDOW / 2);
      const here = stepAt(luminance(rgb[middle], rgb[middle + 1], rgb[middle + 2]));
      const { slope, grain } = fitPlane(L.data, width, x, y);
      // Slope per pixel of the picture: places of the view are 1 / scale pixels wide.
      const perPixel = slope * Math.min(1, scale);
      if (grain > GRAIN * here * Math.min(1, scale) || perPixel * WIDE > here) continue;
      // An even tone has no steps at all.
      if (slope * WINDOW < 0.05) continue;
      smooth++;
      step += here;
    }
  if (smooth === 0) return { share: 0, stretch: null };
  return { share: smooth / windows, stretch: SEEN / (step / smooth) };
}

/** Difference in L* of one 8-bit step of sRGB at a luminance. */
function stepAt(y: number): number {
  const code = Math.min(254 / 255, Math.max(0, linearToSrgb(Math.max(0, y))));
  return lightness(srgbToLinear(code + 1 / 255)) - lightness(srgbToLinear(code));
}

/** Least-squares plane over a window: its slope per place and the root mean square of what it leaves. */
function fitPlane(
  data: Float32Array,
  width: number,
  x0: number,
  y0: number,
): { slope: number; grain: number } {
  const mid = (WINDOW - 1) / 2;
  let mean = 0;
  let sx = 0;
  let sy = 0;
  let square = 0;
  for (let y = 0; y < WINDOW; y++)
    for (let x = 0; x < WINDOW; x++) {
      const v = data[(y0 + y) * width + x0 + x];
      mean += v;
      square += v * v;
      sx += (x - mid) * v;
      sy += (y - mid) * v;
    }
  const n = WINDOW * WINDOW;
  const spread = (n * (WINDOW * WINDOW - 1)) / 12;
  const rest = square - (mean * mean) / n - (sx * sx + sy * sy) / spread;
  return { slope: Math.hypot(sx, sy) / spread, grain: Math.sqrt(Math.max(0, rest) / n) };
}
