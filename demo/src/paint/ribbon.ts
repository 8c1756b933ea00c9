/** Draws strokes: each a ribbon of quadrilaterals, every pixel of it touched once, with the brush's bristles. */
import { type Bristles, bristlesFor, LENGTH } from './bristles.ts';
import type { Canvas } from './canvas.ts';
import { POINT, STROKE, type Strokes } from './strokes.ts';

/** Draws the strokes from `from` up to, without, `to`. Places are in widths of the canvas. */
export function drawStrokes(canvas: Canvas, list: Strokes, from = 0, to = list.count): void {
  for (let s = from; s < to; s++) drawStroke(canvas, list, s);
}

/** Columns of the bristles' field for a half width: its marks are some twelve widths long. */
const STRETCH = 10;

// The stroke that is being drawn; kept here because the inner loop must not allocate.
const cornerX = new Float64Array(4);
const cornerY = new Float64Array(4);
/** Along (0 first point, 1 second) and across (−1 left, 1 right) at the corners. */
const ALONG = Float64Array.of(0, 1, 1, 0);
const ACROSS = Float64Array.of(-1, -1, 1, 1);
let brush: Bristles;
let opacity = 0;
let dryness = 0;
let streak = 0;
let column = 0;
/** Length of the stroke in half widths, for the ends. */
let total = 0;

function drawStroke(canvas: Canvas, list: Strokes, s: number): void {
  const st = list.strokes;
  const at = s * STROKE;
  const first = st[at]!;
  const count = st[at + 1]!;
  if (count < 2) return;
  const p = list.points;
  const scale = canvas.width;
  let top = Infinity;
  let bottom = -Infinity;
  let widest = 0;
  let length = 0;
  for (let i = 0; i < count; i++) {
    const q = (first + i) * POINT;
    const hw = p[q + 2]!;
    if (hw > widest) widest = hw;
    top = Math.min(top, p[q + 1]! - hw);
    bottom = Math.max(bottom, p[q + 1]! + hw);
    if (i > 0) length += long(p[q]! - p[q - POINT]!, p[q + 1]! - p[q + 1 - POINT]!);
  }
  if (bottom * scale < canvas.firstRow || top * scale > canvas.firstRow + canvas.height) return;
  const half = widest * scale;
  if (half < 0.2) return;
  brush = bristlesFor(st[at + 6]!, 2 * half);
  opacity = st[at + 2]!;
  dryness = st[at + 3]!;
  const softness = st[at + 4]!;
  streak = st[at + 5]!;
  column = st[at + 7]! * LENGTH;
  total = length / widest;

  // A margin beside the ribbon lets its edge fade over a pixel.
  const fade = Math.max(0.75, softness * half);
  const margin = 0.5;
  let u = 0;
  let px = 0;
  let py = 0;
  let lx = 0;
  let ly = 0;
  let rx = 0;
  let ry = 0;
  for (let i = 0; i < count; i++) {
    const q = (first + i) * POINT;
    const x = p[q]! * scale;
    const y = p[q + 1]! * scale - canvas.firstRow;
    const a = i > 0 ? q - POINT : q;
    const b = i < count - 1 ? q + POINT : q;
    let dx = p[b]! - p[a]!;
    let dy = p[b + 1]! - p[a + 1]!;
    const d = long(dx, dy) || 1;
    dx /= d;
    dy /= d;
    const hw = p[q + 2]! * scale + margin;
    const nlx = x - dy * hw;
    const nly = y + dx * hw;
    const nrx = x + dy * hw;
    const nry = y - dx * hw;
    if (i > 0) {
      const nu = u + long(x - px, y - py) / half;
      quad(canvas, lx, ly, nlx, nly, nrx, nry, rx, ry, u, nu, p, q - POINT, q, hw, fade);
      u = nu;
    }
    px = x;
    py = y;
    lx = nlx;
    ly = nly;
    rx = nrx;
    ry = nry;
  }
}

/**
 * One part of the ribbon, u from u0 to u1 along it. Corners: left and right of the first point, of the second.
 *
 * Row by row between the sides that the row's middle crosses (half-open, so that a shared side belongs to one
 * part); along and across are linear on the sides and in between, so parts meet without a step.
 */
function quad(
  canvas: Canvas,
  lx0: number,
  ly0: number,
  lx1: number,
  ly1: number,
  rx1: number,
  ry1: number,
  rx0: number,
  ry0: number,
  u0: number,
  u1: number,
  p: Float32Array,
  q0: number,
  q1: number,
  half: number,
  fade: number,
): void {
  cornerX[0] = lx0;
  cornerX[1] = lx1;
  cornerX[2] = rx1;
  cornerX[3] = rx0;
  cornerY[0] = ly0;
  cornerY[1] = ly1;
  cornerY[2] = ry1;
  cornerY[3] = ry0;
  const { width, height, rgb, relief } = canvas;
  const { rows, load, tone, ragged } = brush;
  const r0 = p[q0 + 3]!;
  const g0 = p[q0 + 4]!;
  const b0 = p[q0 + 5]!;
  const dr = p[q1 + 3]! - r0;
  const dg = p[q1 + 4]! - g0;
  const db = p[q1 + 5]! - b0;
  const du = u1 - u0;
  const sharp = half / fade;
  const gain = Math.min(7, 1.6 + half * 0.12);
  // A fine brush ends clean.
  const rag = Math.min(0.9, 0.25 + half / 16);
  const ragDown = rag * (0.3 + dryness);
  const ragUp = rag * (0.5 + 3 * dryness);
  const first = Math.max(0, Math.ceil(Math.min(ly0, ly1, ry0, ry1) - 0.5));
  const last = Math.min(height - 1, Math.ceil(Math.max(ly0, ly1, ry0, ry1) - 0.5) - 1);
  for (let row = first; row <= last; row++) {
    const py = row + 0.5;
    let from = Infinity;
    let to = -Infinity;
    let t0 = 0;
    let t1 = 0;
    let v0 = 0;
    let v1 = 0;
    for (let a = 0; a < 4; a++) {
      const b = (a + 1) & 3;
      const ya = cornerY[a]!;
      const yb = cornerY[b]!;
      if (ya <= py === yb <= py) continue;
      const s = (py - ya) / (yb - ya);
      const x = cornerX[a]! + s * (cornerX[b]! - cornerX[a]!);
      const t = ALONG[a]! + s * (ALONG[b]! - ALONG[a]!);
      const v = ACROSS[a]! + s * (ACROSS[b]! - ACROSS[a]!);
      if (x < from) {
        from = x;
        t0 = t;
        v0 = v;
      }
      if (x > to) {
        to = x;
        t1 = t;
        v1 = v;
      }
    }
    const start = Math.max(0, Math.ceil(from - 0.5));
    const end = Math.min(width - 1, Math.ceil(to - 0.5) - 1);
    if (end < start) continue;
    const inv = 1 / (to - from);
    const stepT = (t1 - t0) * inv;
    const stepV = (v1 - v0) * inv;
    let t = t0 + stepT * (start + 0.5 - from);
    let across = v0 + stepV * (start + 0.5 - from);
    let i = row * width + start;
    for (let x = start; x <= end; x++, i++, t += stepT, across += stepV) {
      const edge = (1 - Math.abs(across)) * sharp;
      if (edge <= 0) continue;
      let alpha = edge < 1 ? edge * edge * (3 - 2 * edge) : 1;
      const u = u0 + du * t;
      const line = Math.min(rows - 1, (((across + 1) / 2) * rows) | 0);
      const cell = line * LENGTH + ((column + u * STRETCH) & (LENGTH - 1));
      const paint = load[cell]!;
      const a2 = across * across;
      // Rounded corners.
      const corner = 0.45 * a2 * a2;
      // Ends: every bristle sets down and lifts off at its own place.
      const own = ragged[line]!;
      const down = (u - corner - own * ragDown) * half;
      if (down < 1) {
        if (down <= 0) continue;
        alpha *= down;
      }
      const up = total - u - corner - own * ragUp;
      const run = u / total;
      // What is left of the paint, against what the bristle needs to mark.
      const need = 0.12 + dryness * (0.18 + 0.42 * run * run) + 0.14 * a2 * a2;
      let mark = (paint - need) * gain + 0.5;
      if (up < 0) mark += up * 2.5;
      if (mark <= 0) continue;
      if (mark < 1) alpha *= mark;
      alpha *= opacity;
      const f = 1 + streak * (tone[cell]! - 0.5);
      const j = i * 3;
      const r = rgb[j]!;
      const g = rgb[j + 1]!;
      const b = rgb[j + 2]!;
      rgb[j] = r + ((r0 + dr * t) * f - r) * alpha;
      rgb[j + 1] = g + ((g0 + dg * t) * f - g) * alpha;
      rgb[j + 2] = b + ((b0 + db * t) * f - b) * alpha;
      relief[i]! += (paint - relief[i]!) * alpha;
    }
  }
}

/** Length of a vector; Math.hypot is many times slower. */
const long = (x: number, y: number) => Math.sqrt(x * x + y * y);
