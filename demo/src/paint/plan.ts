/**
 * Which strokes a picture is made of: brush by brush from coarse to fine, where the painting so far differs from
 * the study (after Hertzmann 1998, "Painterly rendering with curved brush strokes of multiple sizes").
 *
 * Different from the paper: strokes keep to regions and follow the surfaces' own directions, become narrower
 * towards kept edges, change colour along their way, and where nothing matters stay coarse.
 */
import { hash01, type Rgb } from '../scene/index.ts';
import { type Canvas, canvasOf } from './canvas.ts';
import { blurred, clearance, type Guide } from './guide.ts';
import { difference, root } from './look.ts';
import { drawStrokes } from './ribbon.ts';
import { type Strokes, strokesOf } from './strokes.ts';
import { type Painter, trace } from './trace.ts';

/** One brush size with the study it looks at. */
export interface Layer {
  /** Width of the brush in widths of the picture. */
  readonly brush: number;
  readonly guide: Guide;
  /** Factor on the tolerance. */
  readonly tolerance: number;
  /** Factors on the deviations between strokes. */
  readonly jitter: number;
}

/** All strokes, and the painting they make at the size of the study. */
export interface Plan {
  readonly strokes: Strokes;
  readonly small: Canvas;
}

/** Plans all layers on a ground; `seed` decides every chance. Throws nothing; deterministic. */
export function planStrokes(layers: readonly Layer[], ground: Rgb, seed: number): Plan {
  const list = strokesOf();
  const head = layers[0]!.guide;
  const canvas = canvasOf(head.width, head.height, ground);
  const rooms = new Map<Guide, Float32Array>();
  layers.forEach((layer, n) => {
    const from = list.count;
    const kept = rooms.get(layer.guide) ?? keptRoom(layer.guide, seed);
    rooms.set(layer.guide, kept);
    planLayer(layer, canvas.rgb, kept, list, n, seed);
    drawStrokes(canvas, list, from);
  });
  return { strokes: list, small: canvas };
}

/** Difference that no hand corrects, whatever the importance. */
const LEAST = 0.008;

/** Room to the edges that are kept: those without contrast get lost, and some others where nothing matters. */
function keptRoom(guide: Guide, seed: number): Float32Array {
  const { width, colour, importance } = guide;
  return clearance(guide, (i, j) => {
    const contrast = difference(colour, i * 3, colour, j * 3);
    const x = i % width;
    const y = (i - x) / width;
    const chance = hash01(Math.floor((x * 40) / width), Math.floor((y * 40) / width), 77, seed);
    return contrast > 0.025 + 0.05 * chance * (1 - importance[i]!);
  });
}

function planLayer(
  layer: Layer,
  canvas: Float32Array,
  kept: Float32Array,
  list: Strokes,
  n: number,
  seed: number,
): void {
  const { guide, brush } = layer;
  const { width, height, region, order, hand, hands, colour, importance } = guide;
  const w = brush * width;
  const step = Math.max(1, 0.55 * w);
  const flow = blurred(guide.direction, width, height, 2, Math.max(1, 0.35 * w));
  const cellsX = Math.ceil(width / step);
  const cellsY = Math.ceil(height / step);
  // Where strokes start (pixel) and when (place from back to front).
  const at = new Int32Array(cellsX * cellsY);
  const place = new Float32Array(cellsX * cellsY);
  let count = 0;
  for (let cy = 0; cy < cellsY; cy++)
    for (let cx = 0; cx < cellsX; cx++) {
      const x0 = Math.floor(cx * step);
      const y0 = Math.floor(cy * step);
      const x1 = Math.min(width, Math.max(x0 + 1, Math.floor((cx + 1) * step)));
      const y1 = Math.min(height, Math.max(y0 + 1, Math.floor((cy + 1) * step)));
      let bestX = x0;
      let bestY = y0;
      let worst = -1;
      let sum = 0;
      let sr = 0;
      let sg = 0;
      let sb = 0;
      const jump = Math.max(1, Math.floor((x1 - x0) / 6));
      let looked = 0;
      for (let yy = y0; yy < y1; yy += jump)
        for (let xx = x0; xx < x1; xx += jump) {
          const i = (yy * width + xx) * 3;
          const dr = root(colour[i]!) - root(canvas[i]!);
          const dg = root(colour[i + 1]!) - root(canvas[i + 1]!);
          const db = root(colour[i + 2]!) - root(canvas[i + 2]!);
          const e = Math.sqrt(dr * dr + dg * dg + db * db);
          sr += dr;
          sg += dg;
          sb += db;
          sum += e;
          looked++;
          if (e > worst) {
            worst = e;
            bestX = xx;
            bestY = yy;
          }
        }
      const signed = Math.sqrt(sr * sr + sg * sg + sb * sb) / looked;
      const mean = sum / looked;
      const error = 0.6 * signed + 0.4 * mean;
      if (error < LEAST) continue;
      // Flat differences start anywhere in the cell, details where they are.
      let px = bestX;
      let py = bestY;
      if (mean <= 1.6 * signed + 0.01) {
        px = Math.min(x1 - 1, x0 + Math.floor(hash01(cx, cy, n * 8 + 1, seed) * (x1 - x0)));
        py = Math.min(y1 - 1, y0 + Math.floor(hash01(cx, cy, n * 8 + 2, seed) * (y1 - y0)));
      }
      const i = py * width + px;
      const r = region[i]!;
      const h = hands[hand[r]!]!;
      if (brush > h.largest * 1.01 || brush < h.smallest * 0.99) {
        // A brush too large for this kind of thing is left out; one too small waits for what matters.
        if (brush > h.largest || importance[i]! < 0.5) continue;
      }
      const limit = (h.tolerance * layer.tolerance) / (0.45 + 1.3 * importance[i]!);
      if (error < limit) continue;
      at[count] = i;
      place[count] = order[i]! + 0.6 * hash01(cx, cy, n * 8 + 4, seed);
      count++;
    }
  const painter: Painter = { guide, layer, w, kept, flow, seed, n };
  for (const k of backToFront(place, count)) trace(painter, at[k]! % width, Math.floor(at[k]! / width), list);
}

/** Indices in rising order of place, equal ones as they came: a counting sort by thousandths. */
function backToFront(place: Float32Array, count: number): Int32Array {
  const key = (k: number) => Math.max(0, Math.round(place[k]! * 1000));
  let most = 0;
  for (let k = 0; k < count; k++) most = Math.max(most, key(k));
  const start = new Int32Array(most + 2);
  for (let k = 0; k < count; k++) start[key(k) + 1]!++;
  for (let b = 1; b < start.length; b++) start[b]! += start[b - 1]!;
  const out = new Int32Array(count);
  for (let k = 0; k < count; k++) out[start[key(k)]!++] = k;
  return out;
}
