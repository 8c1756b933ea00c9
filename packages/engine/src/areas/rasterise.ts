import { lightness, luminance } from '../colour/cielab.ts';
import { linearToOklab, oklabToOklch } from '../colour/oklab.ts';
import type { Field, View } from '../views/view.ts';
import type { Area, AreaShape, Joining } from './area.ts';
import { boxMean } from './boxFilter.ts';
import { fitToGuide, type GuideFit, guidedFilter } from './guidedFilter.ts';
import { fillOutlines } from './outline.ts';

// Borders of value groups and hue families fade over these distances, so that a group has no hard rim: our default.
const VALUE_FADE = 3;
const HUE_FADE = 12;

// Window and smoothing of the guided filter, our default: a window of 1/90 of the long side follows a stroke, not a
// plane; ε = 0.02² keeps edges of two hundredths in OKLab.
const EDGE_WINDOW = 1 / 90;
const EDGE_EPSILON = 0.0004;

/** Outlines that are softened by at most this share of the long side have an edge: our default. */
const HARD = 0.01;
/** Cover between these is undecided after the first pass: our default. */
const UNDECIDED = [0.2, 0.8] as const;

/**
 * An area as a map of cover 0…1 over a view, before its edges follow the painting.
 *
 * @returns null for the whole picture
 */
export function coverOf(area: Area, view: View): Field | null {
  if (area.parts.length === 0) return null;
  const { width, height } = view;
  // A list that begins by taking away begins with the whole.
  const data = new Float32Array(width * height).fill(area.parts[0].joining === 'add' ? 0 : 1);
  for (const part of area.parts) join(data, coverOfShape(part, view), part.joining);
  const r = Math.round((area.soften * Math.max(width, height)) / 2);
  // Three means in a row come close to a Gaussian.
  if (r > 0) for (let k = 0; k < 3; k++) boxMean(data, width, height, r, data);
  return { width, height, data };
}

/** The area tied to the painting's own edges; apply it to any size with `rowsAt`. Null for the whole picture. */
export function fitArea(area: Area, view: View): GuideFit | null {
  const cover = coverOf(area, view);
  if (!cover) return null;
  const radius = Math.max(2, Math.round(EDGE_WINDOW * Math.max(view.width, view.height)));
  const guide = guideOf(view);
  if (!isDrawnHard(area)) return fitToGuide(guide, cover, radius, EDGE_EPSILON);
  // A drawn line misses the painting's edge by a little. What the first pass leaves beyond it is decided one way or the
  // other before the second: of a halo beside a roof that leaves six tenths.
  const { data } = guidedFilter(guide, cover, radius, EDGE_EPSILON);
  const decided = data.map((v) => {
    const t = Math.min(1, Math.max(0, (v - UNDECIDED[0]) / (UNDECIDED[1] - UNDECIDED[0])));
    return t * t * (3 - 2 * t);
  });
  return fitToGuide(guide, { ...cover, data: decided }, radius, EDGE_EPSILON);
}

/** True for outlines that are to have an edge: softer ones, gradients and groups of colours are meant to fade. */
function isDrawnHard({ parts, soften }: Area): boolean {
  return soften <= HARD && parts.every((part) => part.kind === 'outline');
}

/** OKLab of a view, the guide that areas follow: interleaved, `width × height × 3`. */
export function guideOf(view: View): Float32Array {
  const out = new Float32Array(view.rgb.length);
  for (let i = 0; i < out.length; i += 3)
    out.set(linearToOklab([view.rgb[i], view.rgb[i + 1], view.rgb[i + 2]]), i);
  return out;
}

function join(into: Float32Array, cover: Float32Array, joining: Joining): void {
  for (let p = 0; p < into.length; p++) {
    if (joining === 'add') into[p] = Math.max(into[p], cover[p]);
    else if (joining === 'subtract') into[p] = Math.min(into[p], 1 - cover[p]);
    else into[p] = Math.min(into[p], cover[p]);
  }
}

function coverOfShape(shape: AreaShape, view: View): Float32Array {
  const { width, height, rgb } = view;
  if (shape.kind === 'outline') return fillOutlines(shape.outlines, width, height).data;
  const out = new Float32Array(width * height);
  if (shape.kind === 'gradient') {
    const [x0, y0] = shape.from;
    const dx = (shape.to[0] - x0) * width;
    const dy = (shape.to[1] - y0) * height;
    const length = dx * dx + dy * dy || 1;
    for (let y = 0; y < height; y++)
      for (let x = 0; x < width; x++)
        out[y * width + x] = clamp(((x + 0.5 - x0 * width) * dx + (y + 0.5 - y0 * height) * dy) / length);
    return out;
  }
  for (let p = 0; p < out.length; p++) {
    const r = rgb[3 * p];
    const g = rgb[3 * p + 1];
    const b = rgb[3 * p + 2];
    if (shape.kind === 'values') {
      const L = lightness(luminance(r, g, b));
      out[p] = clamp((L - shape.from) / VALUE_FADE + 0.5) * clamp((shape.to - L) / VALUE_FADE + 0.5);
    } else {
      const [, chroma, hue] = oklabToOklch(linearToOklab([r, g, b]));
      const away = Math.abs(((hue - shape.hue + 540) % 360) - 180);
      out[p] = clamp((shape.width / 2 - away) / HUE_FADE + 0.5) * clamp((chroma - 0.02) / 0.02);
    }
  }
  return out;
}

const clamp = (v: number): number => Math.min(1, Math.max(0, v));
