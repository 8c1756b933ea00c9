/** Draws strokes: each a ribbon of quadrilaterals, every pixel of it touched once, with the brush's bristles. */
import { type Bristles, bristlesFor, LENGTH } from './bristles.ts';
import type { Canvas } from './canvas.ts';
import { POINT, STROKE, type Strokes } from './strokes.ts';

/** Draws the strokes from `from` up to, without, `to`. Places are in widths of the canvas. */
export function drawStrokes(canvas: Canvas, list: Strokes, from = 0, to = list.count): void {
  for (let s = from; s < to; s++) drawStroke(canvas, list, s);
}

// The stroke that is being drawn; kept here because the inner loop must not allocate.
const sides = {
  x: new Float64Array(8),
  y: new Float64Array(8),
  u: new Float64Array(4),
  v: new Float64Array(4),
};
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
    if (i > 0) length += Math.hypot(p[q]! - p[q - POINT]!, p[q + 1]! - p[q + 1 - POINT]!);
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
    const d = Math.hypot(dx, dy) || 1;
    dx /= d;
    dy /= d;
    const hw = p[q + 2]! * scale + margin;
    const nlx = x - dy * hw;
    const nly = y + dx * hw;
    const nrx = x + dy * hw;
    const nry = y - dx * hw;
    if (i > 0) {
      const nu = u + Math.hypot(x - px, y - py) / half;
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

/** Left 0, left 1, right 1, right 0; u from u0 to u1 along, v from −1 (left) to 1 (right). */
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
  const { x, y, u, v } = sides;
  x[0] = lx0;
  y[0] = ly0;
  u[0] = 0;
  v[0] = -1;
  x[1] = lx1;
  y[1] = ly1;
  u[1] = 1;
  v[1] = -1;
  x[2] = rx1;
  y[2] = ry1;
  u[2] = 1;
  v[2] = 1;
  x[3] = rx0;
  y[3] = ry0;
  u[3] = 0;
  v[3] = 1;
  triangle(canvas, 0, 1, 2, u0, u1, p, q0, q1, half, fade);
  triangle(canvas, 0, 2, 3, u0, u1, p, q0, q1, half, fade);
}

function triangle(
  canvas: Canvas,
  a: number,
  b: number,
  c: number,
  u0: number,
  u1: number,
  p: Float32Array,
  q0: number,
  q1: number,
  half: number,
  fade: number,
): void {
  const { x, y, u, v } = sides;
  const ax = x[a]!;
  const ay = y[a]!;
  const bx = x[b]!;
  const by = y[b]!;
  const cx = x[c]!;
  const cy = y[c]!;
  const det = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay);
  if (Math.abs(det) < 1e-9) return;
  const inv = 1 / det;
  // Gradients of the two coordinates over the picture.
  const du1 = u[b]! - u[a]!;
  const du2 = u[c]! - u[a]!;
  const dv1 = v[b]! - v[a]!;
  const dv2 = v[c]! - v[a]!;
  const ux = (du1 * (cy - ay) - du2 * (by - ay)) * inv;
  const uy = (du2 * (bx - ax) - du1 * (cx - ax)) * inv;
  const vx = (dv1 * (cy - ay) - dv2 * (by - ay)) * inv;
  const vy = (dv2 * (bx - ax) - dv1 * (cx - ax)) * inv;
  const first = Math.max(0, Math.ceil(Math.min(ay, by, cy) - 0.5));
  const last = Math.min(canvas.height - 1, Math.ceil(Math.max(ay, by, cy) - 0.5) - 1);
  for (let row = first; row <= last; row++) {
    const py = row + 0.5;
    let from = Infinity;
    let to = -Infinity;
    // Where the row's middle crosses each side: half-open, so that a shared side belongs to one triangle.
    if (ay <= py !== by <= py) {
      const t = ax + ((py - ay) / (by - ay)) * (bx - ax);
      from = t;
      to = t;
    }
    if (by <= py !== cy <= py) {
      const t = bx + ((py - by) / (cy - by)) * (cx - bx);
      if (t < from) from = t;
      if (t > to) to = t;
    }
    if (cy <= py !== ay <= py) {
      const t = cx + ((py - cy) / (ay - cy)) * (ax - cx);
      if (t < from) from = t;
      if (t > to) to = t;
    }
    const start = Math.max(0, Math.ceil(from - 0.5));
    const end = Math.min(canvas.width - 1, Math.ceil(to - 0.5) - 1);
    if (end < start) continue;
    const lu = u[a]! + ux * (start + 0.5 - ax) + uy * (py - ay);
    const lv = v[a]! + vx * (start + 0.5 - ax) + vy * (py - ay);
    span(canvas, row, start, end, lu, lv, ux, vx, u0, u1, p, q0, q1, half, fade);
  }
}

function span(
  canvas: Canvas,
  row: number,
  start: number,
  end: number,
  lu: number,
  lv: number,
  ux: number,
  vx: number,
  u0: number,
  u1: number,
  p: Float32Array,
  q0: number,
  q1: number,
  half: number,
  fade: number,
): void {
  const { rgb, relief } = canvas;
  const { rows, load, tone, ragged } = brush;
  const r0 = p[q0 + 3]!;
  const g0 = p[q0 + 4]!;
  const b0 = p[q0 + 5]!;
  const dr = p[q1 + 3]! - r0;
  const dg = p[q1 + 4]! - g0;
  const db = p[q1 + 5]! - b0;
  const perHalf = half;
  const sharp = 1 / fade;
  // Columns a half width: bristle marks are some twelve widths long.
  const stretch = 10;
  // A fine brush ends clean.
  const rag = Math.min(0.9, 0.25 + perHalf / 16);
  const gain = Math.min(7, 1.6 + half * 0.12);
  for (let x = start; x <= end; x++, lu += ux, lv += vx) {
    const across = Math.max(-1, Math.min(1, lv));
    const t = Math.max(0, Math.min(1, lu));
    const edge = (1 - Math.abs(across)) * perHalf * sharp;
    let alpha = edge < 1 ? edge * edge * (3 - 2 * edge) : 1;
    const u = u0 + (u1 - u0) * t;
    const line = Math.min(rows - 1, (((across + 1) / 2) * rows) | 0);
    const cell = line * LENGTH + ((column + u * stretch) & (LENGTH - 1));
    const paint = load[cell]!;
    const a2 = across * across;
    // Rounded corners.
    const corner = 0.45 * a2 * a2;
    // Ends: every bristle sets down and lifts off at its own place.
    const own = ragged[line]!;
    const down = (u - corner - own * rag * (0.3 + dryness)) * perHalf;
    if (down < 1) {
      if (down <= 0) continue;
      alpha *= down;
    }
    const up = (total - u - corner - own * rag * (0.5 + 3 * dryness)) * perHalf;
    const run = u / total;
    // What is left of the paint, against what the bristle needs to mark.
    const need = 0.12 + dryness * (0.18 + 0.42 * run * run) + 0.14 * a2 * a2;
    let mark = (paint - need) * gain + 0.5;
    if (up < 0) mark += (up / perHalf) * 2.5;
    if (mark <= 0) continue;
    if (mark < 1) alpha *= mark;
    alpha *= opacity;
    const f = 1 + streak * (tone[cell]! - 0.5);
    const i = row * canvas.width + x;
    const j = i * 3;
    rgb[j]! += ((r0 + dr * t) * f - rgb[j]!) * alpha;
    rgb[j + 1]! += ((g0 + dg * t) * f - rgb[j + 1]!) * alpha;
    rgb[j + 2]! += ((b0 + db * t) * f - rgb[j + 2]!) * alpha;
    relief[i]! += (paint - relief[i]!) * alpha;
  }
}
