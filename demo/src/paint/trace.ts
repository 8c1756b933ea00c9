/** One stroke: where it goes, what colours it has on its way, how wide it is. */
import { linearInto, oklabInto } from '@halflight/engine';
import { hash01 } from '../scene/index.ts';
import type { Guide } from './guide.ts';
import { around, difference } from './look.ts';
import type { Layer } from './plan.ts';
import { addStroke, POINT, type Strokes } from './strokes.ts';

/** What is the same for all strokes of a layer. */
export interface Painter {
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
export function trace(painter: Painter, x0: number, y0: number, list: Strokes): void {
  const { guide, layer, w, kept, seed, n } = painter;
  const { width, height, region, hand, hands } = guide;
  const i0 = y0 * width + x0;
  const r = region[i0]!;
  const h = hands[hand[r]!]!;
  const chance = (k: number) => hash01(x0, y0, n * 16 + k, seed + 9);
  const clear = kept[i0]!;
  // No room for this brush here: a thinner one comes later.
  if (clear < 0.22 * w && w > 3) return;
  const longest = h.length * w * (0.55 + 0.9 * chance(1));
  const step = Math.max(1, 0.7 * w);
  const reach = Math.min(MOST / 2 - 1, Math.max(1, Math.round(longest / step / 2)));
  const across = h.crossBelow !== undefined && layer.brush < h.crossBelow;
  let heading = orientation(painter, x0, y0, across);
  heading += (chance(2) - 0.5) * 0.22;
  const before = walk(painter, x0, y0, heading + Math.PI, reach, step, r, across, way, 0);
  // Back part is stored from the seed outwards: turn it round.
  let count = 0;
  for (let k = before - 1; k >= 0; k--) {
    points[count * POINT] = way[k * 2]!;
    points[count * POINT + 1] = way[k * 2 + 1]!;
    count++;
  }
  points[count * POINT] = x0 + 0.5;
  points[count * POINT + 1] = y0 + 0.5;
  count++;
  const after = walk(painter, x0, y0, heading, reach, step, r, across, way, 0);
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
    points[0] = x0 + 0.5 - dx;
    points[1] = y0 + 0.5 - dy;
    points[POINT] = x0 + 0.5 + dx;
    points[POINT + 1] = y0 + 0.5 + dy;
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
    around(guide, points[q]!, points[q + 1]!, spread, r, i0, rgb);
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

/** Sum of two chances: near zero mostly, within ±1. */
const normalish = (a: number, b: number) => a + b - 1;
