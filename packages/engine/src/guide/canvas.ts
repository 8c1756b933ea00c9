import type { ColourSpace } from '../colour/space.ts';
import type { Raster } from '../views/raster.ts';

/** Code values of one colour, with alpha. */
export type Ink = readonly [number, number, number, number];

/** A transparent 8-bit picture that flat shapes are drawn on: hard edges, no blending, so that pickers read one colour. */
export interface Canvas {
  readonly raster: Raster;
  /** Fills a rectangle of pixels; what lies outside the picture is left out. */
  rect(x: number, y: number, width: number, height: number, ink: Ink): void;
  /** Draws a closed line of a given width in pixels. */
  outline(points: readonly number[], width: number, ink: Ink): void;
  /** Draws a straight line of a given width in pixels. */
  line(x1: number, y1: number, x2: number, y2: number, width: number, ink: Ink): void;
}

/** An empty, transparent canvas. */
export function openCanvas(width: number, height: number, space: ColourSpace): Canvas {
  const data = new Uint8Array(4 * width * height);
  const rect: Canvas['rect'] = (x, y, w, h, ink) => {
    const x0 = Math.max(0, Math.round(x));
    const x1 = Math.min(width, Math.round(x + w));
    for (let row = Math.max(0, Math.round(y)); row < Math.min(height, Math.round(y + h)); row++)
      for (let i = 4 * (row * width + x0); i < 4 * (row * width + x1); i += 4) data.set(ink, i);
  };
  const line: Canvas['line'] = (x1, y1, x2, y2, thick, ink) => {
    const r = thick / 2;
    const dx = x2 - x1;
    const dy = y2 - y1;
    const length2 = dx * dx + dy * dy || 1e-9;
    const left = Math.max(0, Math.floor(Math.min(x1, x2) - r));
    const right = Math.min(width - 1, Math.ceil(Math.max(x1, x2) + r));
    for (
      let y = Math.max(0, Math.floor(Math.min(y1, y2) - r));
      y <= Math.min(height - 1, Math.max(y1, y2) + r);
      y++
    )
      for (let x = left; x <= right; x++) {
        const px = x + 0.5 - x1;
        const py = y + 0.5 - y1;
        const t = Math.min(1, Math.max(0, (px * dx + py * dy) / length2));
        if ((px - t * dx) ** 2 + (py - t * dy) ** 2 <= r * r) data.set(ink, 4 * (y * width + x));
      }
  };
  const outline: Canvas['outline'] = (points, thick, ink) => {
    for (let i = 0; i + 1 < points.length; i += 2) {
      const j = (i + 2) % points.length;
      line(points[i], points[i + 1], points[j], points[j + 1], thick, ink);
    }
  };
  return { raster: { width, height, channels: 4, depth: 8, data, space }, rect, outline, line };
}
