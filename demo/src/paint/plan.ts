/**
 * Which strokes a picture is made of: brush by brush from coarse to fine, where the painting so far differs from
 * the study (after Hertzmann 1998, "Painterly rendering with curved brush strokes of multiple sizes").
 *
 * Different from the paper: strokes keep to regions and follow the surfaces' own directions, become narrower
 * towards kept edges, change colour along their way, and where nothing matters stay coarse.
 */
import { linearInto, oklabInto } from '@halflight/engine';
import { hash01, type Rgb } from '../scene/index.ts';
import { type Canvas, canvasOf } from './canvas.ts';
import { blurred, clearance, type Guide } from './guide.ts';
import { drawStrokes } from './ribbon.ts';
import { addStroke, POINT, type Strokes, strokesOf } from './strokes.ts';

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
  layers.forEach((layer, n) => {
    const from = list.count;
    planLayer(layer, canvas.rgb, list, n, seed);
    drawStrokes(canvas, list, from);
  });
  return { strokes: list, small: canvas };
}

interface Seed {
  x: number;
  y: number;
  order: number;
}

function planLayer(layer: Layer, canvas: Float32Array, list: Strokes, n: number, seed: number): void {
  const { guide, brush } = layer;
  const { width, height, region, order, hand, hands, colour, importance } = guide;
  const w = brush * width;
  const step = Math.max(1, 0.55 * w);
  const kept = clearance(guide, (i, j) => {
    // Edges without contrast get lost, and some others where nothing matters.
    const contrast = difference(colour, i * 3, colour, j * 3);
    const x = i % width;
    const y = (i - x) / width;
    const chance = hash01(Math.floor((x * 40) / width), Math.floor((y * 40) / width), 77, seed);
    return contrast > 0.025 + 0.05 * chance * (1 - importance[i]!);
  });
  const flow = blurred(guide.direction, width, height, 2, Math.max(1, 0.35 * w));
  const seeds: Seed[] = [];
  const cellsX = Math.ceil(width / step);
  const cellsY = Math.ceil(height / step);
  for (let cy = 0; cy < cellsY; cy++)
    for (let cx = 0; cx < cellsX; cx++) {
      const x0 = Math.floor(cx * step);
      const y0 = Math.floor(cy * step);
      const x1 = Math.min(width, Math.max(x0 + 1, Math.floor((cx + 1) * step)));
      const y1 = Math.min(height, Math.max(y0 + 1, Math.floor((cy + 1) * step)));
      const x = Math.min(x1 - 1, x0 + Math.floor(hash01(cx, cy, n * 8 + 1, seed) * (x1 - x0)));
      const y = Math.min(y1 - 1, y0 + Math.floor(hash01(cx, cy, n * 8 + 2, seed) * (y1 - y0)));
      let bestX = x;
      let bestY = y;
      let worst = -1;
      let sum = 0;
      let sr = 0;
      let sg = 0;
      let sb = 0;
      const jump = Math.max(1, Math.floor((x1 - x0) / 6));
      let count = 0;
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
          count++;
          const here = e * (0.6 + 0.8 * hash01(xx, yy, n * 8 + 3, seed));
          if (here > worst) {
            worst = here;
            bestX = xx;
            bestY = yy;
          }
        }
      const signed = Math.hypot(sr, sg, sb) / count;
      const mean = sum / count;
      const error = 0.6 * signed + 0.4 * mean;
      // Flat differences start anywhere in the cell, details where they are.
      const detail = mean > 1.6 * signed + 0.01;
      const px = detail ? bestX : x;
      const py = detail ? bestY : y;
      const i = py * width + px;
      const r = region[i]!;
      const h = hands[hand[r]!]!;
      if (brush > h.largest * 1.01 || brush < h.smallest * 0.99) {
        // A brush too large for this kind of thing is left out; one too small waits for what matters.
        if (brush > h.largest || importance[i]! < 0.5) continue;
      }
      const limit = (h.tolerance * layer.tolerance) / (0.45 + 1.3 * importance[i]!);
      if (error < limit) continue;
      seeds.push({ x: px, y: py, order: order[i]! + 0.6 * hash01(cx, cy, n * 8 + 4, seed) });
    }
  seeds.sort((a, b) => a.order - b.order);
  const painter = { guide, layer, w, kept, flow, seed, n };
  for (const s of seeds) trace(painter, s, list);
}

interface Painter {
  readonly guide: Guide;
  readonly layer: Layer;
  /** Brush in pixels of the study. */
  readonly w: number;
  readonly kept: Float32Array;
  readonly flow: Float32Array;
  readonly seed: number;
  readonly n: number;
}

const MOST = 64;
const way = new Float32Array(MOST * 2);
const points = new Float32Array(MOST * POINT);
const rooms = new Float32Array(MOST);
const lab = new Float64Array(3);
const rgb = new Float64Array(3);

/** Follows the flow both ways from the seed and adds the stroke. */
function trace(painter: Painter, s: Seed, list: Strokes): void {
  const { guide, layer, w, kept, seed, n } = painter;
  const { width, height, region, hand, hands } = guide;
  const i0 = s.y * width + s.x;
  const r = region[i0]!;
  const h = hands[hand[r]!]!;
  const chance = (k: number) => hash01(s.x, s.y, n * 16 + k, seed + 9);
  const clear = kept[i0]!;
  // No room for this brush here: a thinner one comes later.
  if (clear < 0.22 * w && w > 3) return;
  const longest = h.length * w * (0.55 + 0.9 * chance(1));
  const step = Math.max(1, 0.5 * w);
  const reach = Math.min(MOST / 2 - 1, Math.max(1, Math.round(longest / step / 2)));
  const across = h.crossBelow !== undefined && layer.brush < h.crossBelow;
  let heading = orientation(painter, s.x, s.y, across);
  heading += (chance(2) - 0.5) * 0.22;
  const before = walk(painter, s.x, s.y, heading + Math.PI, reach, step, r, across, way, 0);
  // Back part is stored from the seed outwards: turn it round.
  let count = 0;
  for (let k = before - 1; k >= 0; k--) {
    points[count * POINT] = way[k * 2]!;
    points[count * POINT + 1] = way[k * 2 + 1]!;
    count++;
  }
  points[count * POINT] = s.x + 0.5;
  points[count * POINT + 1] = s.y + 0.5;
  count++;
  const after = walk(painter, s.x, s.y, heading, reach, step, r, across, way, 0);
  for (let k = 0; k < after; k++) {
    points[count * POINT] = way[k * 2]!;
    points[count * POINT + 1] = way[k * 2 + 1]!;
    count++;
  }
  if (h.shortest !== undefined && (count - 1) * step < h.shortest * w) return;
  if (count < 2) {
    // A dab.
    const dx = Math.cos(heading) * 0.5 * w;
    const dy = Math.sin(heading) * 0.5 * w;
    points[0] = s.x + 0.5 - dx;
    points[1] = s.y + 0.5 - dy;
    points[POINT] = s.x + 0.5 + dx;
    points[POINT + 1] = s.y + 0.5 + dy;
    count = 2;
  }

  // Colours along the way, each the mean around the point within the region.
  let mr = 0;
  let mg = 0;
  let mb = 0;
  let weight = 0;
  const spread = Math.max(0, Math.round(0.22 * w));
  for (let k = 0; k < count; k++) {
    const q = k * POINT;
    around(guide, points[q]!, points[q + 1]!, spread, r, i0);
    points[q + 3] = rgb[0]!;
    points[q + 4] = rgb[1]!;
    points[q + 5] = rgb[2]!;
    mr += rgb[0]!;
    mg += rgb[1]!;
    mb += rgb[2]!;
    weight++;
  }
  mr /= weight;
  mg /= weight;
  mb /= weight;
  const j = layer.jitter;
  const dv = 1 + j * h.value * normalish(chance(3), chance(4)) * 3;
  const dh = ((j * h.hue * Math.PI) / 180) * normalish(chance(5), chance(6));
  const dc = 1 + j * h.chroma * normalish(chance(7), chance(8));
  const keep = 0.55;
  for (let k = 0; k < count; k++) {
    const q = k * POINT;
    oklabInto(
      lab,
      0,
      mr + (points[q + 3]! - mr) * keep,
      mg + (points[q + 4]! - mg) * keep,
      mb + (points[q + 5]! - mb) * keep,
    );
    const a = (lab[1]! * Math.cos(dh) - lab[2]! * Math.sin(dh)) * dc;
    const b = (lab[1]! * Math.sin(dh) + lab[2]! * Math.cos(dh)) * dc;
    linearInto(rgb, 0, lab[0]!, a, b);
    // Value as a factor on light: it leaves the colour of the light as it is.
    points[q + 3] = Math.max(0, rgb[0]! * dv);
    points[q + 4] = Math.max(0, rgb[1]! * dv);
    points[q + 5] = Math.max(0, rgb[2]! * dv);
  }

  // Widths: towards kept edges the brush is turned on its narrow side.
  const own = (w / 2) * (0.78 + 0.44 * chance(9));
  const over = 0.1 * w + 0.3;
  for (let k = 0; k < count; k++) {
    const q = k * POINT;
    const x = Math.min(width - 1, Math.max(0, Math.floor(points[q]!)));
    const y = Math.min(height - 1, Math.max(0, Math.floor(points[q + 1]!)));
    const at = y * width + x;
    rooms[k] = region[at] === r ? kept[at]! + over : Math.min(own, 0.5 * w);
  }
  // An edge that the stroke runs into doesn't narrow it, only one beside it does.
  const look = Math.max(1, Math.round(own / step));
  for (let k = 0; k < count; k++) {
    let room = 0;
    for (let o = Math.max(0, k - look); o <= Math.min(count - 1, k + look); o++)
      room = Math.max(room, rooms[o]!);
    points[k * POINT + 2] = Math.min(own, Math.max(0.3 * own, room));
  }
  for (let pass = 0; pass < 2; pass++) {
    let last = points[2]!;
    for (let k = 1; k < count - 1; k++) {
      const q = k * POINT + 2;
      const here = points[q]!;
      points[q] = 0.25 * last + 0.5 * here + 0.25 * points[q + POINT]!;
      last = here;
    }
  }
  const inv = 1 / width;
  for (let k = 0; k < count; k++) {
    const q = k * POINT;
    points[q] = points[q]! * inv;
    points[q + 1] = points[q + 1]! * inv;
    points[q + 2] = points[q + 2]! * inv;
  }
  addStroke(
    list,
    points,
    count,
    {
      opacity: h.opacity * (0.9 + 0.2 * chance(10)),
      dryness: h.dryness * (0.5 + chance(11)),
      softness: h.softness,
      streak: h.streak,
    },
    chance(12),
    chance(13),
  );
}

/** Walks with the flow; writes x, y from the first step on; returns the number of points. */
function walk(
  painter: Painter,
  x0: number,
  y0: number,
  heading0: number,
  reach: number,
  step: number,
  r: number,
  across: boolean,
  out: Float32Array,
  from: number,
): number {
  const { guide, w } = painter;
  const { width, height, region, colour } = guide;
  let x = x0 + 0.5;
  let y = y0 + 0.5;
  let heading = heading0;
  let count = 0;
  let outside = 0;
  let lastInside = 0;
  let endX = 0;
  let endY = 0;
  let endAt = -1;
  const first = (y0 * width + x0) * 3;
  const gap = Math.max(1, Math.round(w / step));
  for (let k = 0; k < reach; k++) {
    const want = orientation(painter, x, y, across);
    // Nearest of the two senses, turned at most so far that the ribbon doesn't fold.
    let turn = want - heading;
    turn -= Math.PI * Math.round(turn / Math.PI);
    const most = 0.55 * (step / w) + 0.04;
    heading += Math.max(-most, Math.min(most, turn));
    x += Math.cos(heading) * step;
    y += Math.sin(heading) * step;
    const ix = Math.floor(x);
    const iy = Math.floor(y);
    const margin = 0.6 * w;
    if (ix < -margin || iy < -margin || ix >= width + margin || iy >= height + margin) break;
    const cx = Math.min(width - 1, Math.max(0, ix));
    const cy = Math.min(height - 1, Math.max(0, iy));
    const at = cy * width + cx;
    out[from + count * 2] = x;
    out[from + count * 2 + 1] = y;
    count++;
    if (region[at] !== r) {
      if (outside++ === 0) {
        // How far the region goes on within this step: the stroke ends at the edge, not a step before it.
        let part = 0;
        for (let f = 0.25; f < 1; f += 0.25) {
          const fx = Math.floor(x - Math.cos(heading) * step * (1 - f));
          const fy = Math.floor(y - Math.sin(heading) * step * (1 - f));
          if (fx < 0 || fy < 0 || fx >= width || fy >= height || region[fy * width + fx] !== r) break;
          part = f;
        }
        endX = x - Math.cos(heading) * step * (1 - part);
        endY = y - Math.sin(heading) * step * (1 - part);
        endAt = count - 1;
      }
      if (outside > gap) break;
      continue;
    }
    outside = 0;
    if (k > 1 && difference(colour, at * 3, colour, first) > 0.16) break;
    lastInside = count;
  }
  if (endAt === lastInside && outside > 0) {
    out[from + endAt * 2] = endX;
    out[from + endAt * 2 + 1] = endY;
    return endAt + 1;
  }
  return lastInside;
}

/** Direction of the flow (radians) at a place; `across` lays it level. */
function orientation(painter: Painter, x: number, y: number, across: boolean): number {
  if (across) return 0;
  const { guide, flow } = painter;
  const cx = Math.min(guide.width - 1, Math.max(0, Math.floor(x)));
  const cy = Math.min(guide.height - 1, Math.max(0, Math.floor(y)));
  const i = (cy * guide.width + cx) * 2;
  return 0.5 * Math.atan2(flow[i + 1]!, flow[i]!);
}

/** Mean colour of the region within a square; of the fallback pixel where the region isn't there. */
function around(guide: Guide, x: number, y: number, spread: number, r: number, fallback: number): void {
  const { width, height, region, colour } = guide;
  const cx = Math.floor(x);
  const cy = Math.floor(y);
  const jump = Math.max(1, Math.floor(spread / 2));
  let n = 0;
  rgb[0] = 0;
  rgb[1] = 0;
  rgb[2] = 0;
  for (let dy = -spread; dy <= spread; dy += jump) {
    const yy = cy + dy;
    if (yy < 0 || yy >= height) continue;
    for (let dx = -spread; dx <= spread; dx += jump) {
      const xx = cx + dx;
      if (xx < 0 || xx >= width) continue;
      const i = yy * width + xx;
      if (region[i] !== r) continue;
      rgb[0] += colour[i * 3]!;
      rgb[1] += colour[i * 3 + 1]!;
      rgb[2] += colour[i * 3 + 2]!;
      n++;
    }
  }
  if (n === 0) {
    rgb[0] = colour[fallback * 3]!;
    rgb[1] = colour[fallback * 3 + 1]!;
    rgb[2] = colour[fallback * 3 + 2]!;
    return;
  }
  rgb[0] /= n;
  rgb[1] /= n;
  rgb[2] /= n;
}

const root = (v: number) => Math.sqrt(Math.max(0, v));

/** Difference of two colours after a square root, which is near enough to what the eye sees. */
function difference(a: Float32Array, i: number, b: Float32Array, j: number): number {
  const dr = root(a[i]!) - root(b[j]!);
  const dg = root(a[i + 1]!) - root(b[j + 1]!);
  const db = root(a[i + 2]!) - root(b[j + 2]!);
  return Math.sqrt(dr * dr + dg * dg + db * db);
}

/** Sum of two chances: near zero mostly, within ±1. */
const normalish = (a: number, b: number) => a + b - 1;
