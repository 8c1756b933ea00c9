import type { Figure } from './ground.ts';
import type { Corner, Corners } from './homography.ts';
import type { SmallLab } from './small.ts';
import { medianOf } from './statistics.ts';

/** A quadrilateral with straight, sharp sides. */
export interface Quadrilateral {
  /** In cells of the small copy. */
  readonly corners: Corners;
  /** Share of the places along its sides where there is an edge, of the weakest side. */
  readonly sharpness: number;
  /** Root mean square of the edges' distance from the sides, of the worst side, in shares of the long side. */
  readonly bend: number;
  /** Cells that are in only one of figure and quadrilateral, as a share of the quadrilateral. */
  readonly misfit: number;
}

/** Places on each side where an edge is looked for, and how far to both sides, in shares of the long side. */
const PLACES = 80;
const REACH = 0.02;
/** A step of colour (ΔE_OK) across a side that counts as an edge. */
const STEP = 0.04;

/** Fits a quadrilateral to a figure, with sides laid through the edges in the picture; null when it has none. */
export function fitQuadrilateral(small: SmallLab, figure: Figure): Quadrilateral | null {
  const rough = fourSides(hullOf(figure.mask, small.width));
  if (!rough) return null;
  const ordered = inOrder(rough);
  const sides = ordered.map((from, k) => fitSide(small, from, ordered[(k + 1) % 4]));
  if (sides.some((side) => side === null)) return null;
  const lines = sides as Side[];
  const corners = lines.map((_, k) => meet(lines[(k + 3) % 4], lines[k]));
  if (corners.some((corner) => corner === null)) return null;
  const found = corners as unknown as Corners;
  if (!isConvex(found)) return null;
  return {
    corners: found,
    sharpness: Math.min(...lines.map(({ sharpness }) => sharpness)),
    bend: Math.max(...lines.map(({ bend }) => bend)) / Math.max(small.width, small.height),
    misfit: misfit(figure, found, small.width, small.height),
  };
}

/** Convex hull of a mask's cells (their outer corners), by Andrew's monotone chain. */
function hullOf(mask: Uint8Array, width: number): Corner[] {
  const height = mask.length / width;
  const points: Corner[] = [];
  for (let y = 0; y < height; y++) {
    let [first, last] = [-1, -1];
    for (let x = 0; x < width; x++)
      if (mask[y * width + x]) {
        if (first < 0) first = x;
        last = x;
      }
    if (first >= 0) points.push([first, y], [first, y + 1], [last + 1, y], [last + 1, y + 1]);
  }
  points.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (ordered: readonly Corner[]): Corner[] => {
    const chain: Corner[] = [];
    for (const p of ordered) {
      while (chain.length > 1 && cross(chain[chain.length - 2], chain[chain.length - 1], p) <= 0) chain.pop();
      chain.push(p);
    }
    return chain.slice(0, -1);
  };
  return [...half(points), ...half([...points].reverse())];
}

const cross = (o: Corner, a: Corner, b: Corner): number =>
  (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0]);

/** Takes sides of a convex polygon away, each time the one that adds the least area, until four are left. */
function fourSides(hull: readonly Corner[]): Corner[] | null {
  let polygon = [...hull];
  while (polygon.length > 4) {
    let best: { area: number; at: number; corner: Corner } | null = null;
    for (let k = 0; k < polygon.length; k++) {
      const at = (step: number): Corner => polygon[(k + step + polygon.length) % polygon.length];
      // Side k → k+1 goes; its neighbours go on until they meet.
      const corner = crossing(at(-1), at(0), at(2), at(1));
      if (!corner) continue;
      const area = Math.abs(cross(at(0), corner, at(1))) / 2;
      if (best === null || area < best.area) best = { area, at: k, corner };
    }
    if (!best) return null;
    const { at, corner } = best;
    const next = (at + 1) % polygon.length;
    polygon = polygon.flatMap((p, k) => (k === at ? [corner] : k === next ? [] : [p]));
  }
  return polygon.length === 4 ? polygon : null;
}

/** Where the rays a→b and c→d meet beyond b and d; null when they don't. */
function crossing(a: Corner, b: Corner, c: Corner, d: Corner): Corner | null {
  const [ux, uy] = [b[0] - a[0], b[1] - a[1]];
  const [vx, vy] = [d[0] - c[0], d[1] - c[1]];
  const det = ux * vy - uy * vx;
  if (Math.abs(det) < 1e-9) return null;
  const s = ((c[0] - a[0]) * vy - (c[1] - a[1]) * vx) / det;
  const t = ((c[0] - a[0]) * uy - (c[1] - a[1]) * ux) / det;
  return s >= 1 - 1e-9 && t >= 1 - 1e-9 ? [a[0] + s * ux, a[1] + s * uy] : null;
}

/** Clockwise on the screen from the corner at the upper left. */
function inOrder(corners: readonly Corner[]): Corner[] {
  const [mx, my] = [0, 1].map((c) => corners.reduce((sum, p) => sum + p[c], 0) / 4);
  const angle = ([x, y]: Corner): number => Math.atan2(y - my, x - mx);
  const round = [...corners].sort((a, b) => angle(a) - angle(b));
  let first = 0;
  for (const [k, [x, y]] of round.entries()) if (x + y < round[first][0] + round[first][1]) first = k;
  return [...round.slice(first), ...round.slice(0, first)];
}

interface Side {
  readonly at: Corner;
  readonly along: Corner;
  readonly sharpness: number;
  readonly bend: number;
}

/** Lays a line through the strongest edges near a side, outliers left away. */
function fitSide(small: SmallLab, from: Corner, to: Corner): Side | null {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (length < 8) return null;
  const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const reach = Math.max(3, REACH * Math.max(small.width, small.height));
  const found: Corner[] = [];
  for (let k = 0; k < PLACES; k++) {
    const t = length * (0.04 + (0.92 * (k + 0.5)) / PLACES);
    // Outward is to the left of a clockwise way.
    const edge = outermostEdge(small, from[0] + t * ux, from[1] + t * uy, uy, -ux, reach);
    if (edge !== null) found.push([from[0] + t * ux + edge * uy, from[1] + t * uy - edge * ux]);
  }
  if (found.length < PLACES / 2) return null;
  let kept = found;
  let line = throughPoints(kept);
  for (let round = 0; round < 3; round++) {
    const far = kept.map((p) => distance(p, line));
    const limit = Math.max(0.75, 3 * 1.4826 * medianOf(far));
    kept = kept.filter((_, k) => far[k] <= limit);
    line = throughPoints(kept);
  }
  const bend = Math.sqrt(kept.reduce((sum, p) => sum + distance(p, line) ** 2, 0) / kept.length);
  return { ...line, sharpness: kept.length / PLACES, bend };
}

/** Seen from outside, the first edge on a short way across a side; in cells outward, between the cells. */
function outermostEdge(
  small: SmallLab,
  x: number,
  y: number,
  nx: number,
  ny: number,
  reach: number,
): number | null {
  const n = Math.ceil(2 * reach);
  const steps: number[] = [];
  for (let k = 0; k <= n; k++) {
    const s = reach - k;
    steps.push(stepAt(small, x + s * nx, y + s * ny, nx, ny));
  }
  for (let k = 1; k < n; k++) {
    if (steps[k] < STEP || steps[k] < steps[k - 1] || steps[k] < steps[k + 1]) continue;
    const bow = steps[k - 1] - 2 * steps[k] + steps[k + 1];
    const shift = bow < 0 ? (0.5 * (steps[k - 1] - steps[k + 1])) / bow : 0;
    return reach - k - shift;
  }
  return null;
}

/** Difference of colour between one cell further out and one further in. */
function stepAt({ width, height, lab }: SmallLab, x: number, y: number, nx: number, ny: number): number {
  const at = (px: number, py: number, c: number): number => {
    // Cell centres lie at halves.
    const [gx, gy] = [
      Math.min(width - 1.001, Math.max(0, px - 0.5)),
      Math.min(height - 1.001, Math.max(0, py - 0.5)),
    ];
    const [x0, y0] = [Math.floor(gx), Math.floor(gy)];
    const [fx, fy] = [gx - x0, gy - y0];
    const get = (i: number, j: number): number =>
      lab[3 * (Math.min(height - 1, y0 + j) * width + Math.min(width - 1, x0 + i)) + c];
    return (1 - fy) * ((1 - fx) * get(0, 0) + fx * get(1, 0)) + fy * ((1 - fx) * get(0, 1) + fx * get(1, 1));
  };
  let sum = 0;
  for (let c = 0; c < 3; c++) sum += (at(x + nx, y + ny, c) - at(x - nx, y - ny, c)) ** 2;
  return Math.sqrt(sum);
}

/** The line with the least squared distances. */
function throughPoints(points: readonly Corner[]): { at: Corner; along: Corner } {
  const n = points.length;
  const [mx, my] = [0, 1].map((c) => points.reduce((sum, p) => sum + p[c], 0) / n);
  let [xx, xy, yy] = [0, 0, 0];
  for (const [x, y] of points) {
    xx += (x - mx) ** 2;
    xy += (x - mx) * (y - my);
    yy += (y - my) ** 2;
  }
  const angle = 0.5 * Math.atan2(2 * xy, xx - yy);
  return { at: [mx, my], along: [Math.cos(angle), Math.sin(angle)] };
}

const distance = ([x, y]: Corner, { at, along }: { at: Corner; along: Corner }): number =>
  Math.abs((x - at[0]) * along[1] - (y - at[1]) * along[0]);

function meet(a: { at: Corner; along: Corner }, b: { at: Corner; along: Corner }): Corner | null {
  const det = a.along[0] * b.along[1] - a.along[1] * b.along[0];
  if (Math.abs(det) < 0.3) return null;
  const t = ((b.at[0] - a.at[0]) * b.along[1] - (b.at[1] - a.at[1]) * b.along[0]) / det;
  return [a.at[0] + t * a.along[0], a.at[1] + t * a.along[1]];
}

function isConvex(corners: Corners): boolean {
  return corners.every((p, k) => cross(p, corners[(k + 1) % 4], corners[(k + 2) % 4]) > 0);
}

/** Cells in one of both only. */
function misfit({ mask }: Figure, corners: Corners, width: number, height: number): number {
  let [apart, inside] = [0, 0];
  for (let y = 0, cell = 0; y < height; y++)
    for (let x = 0; x < width; x++, cell++) {
      const within = corners.every((p, k) => cross(p, corners[(k + 1) % 4], [x + 0.5, y + 0.5]) >= 0);
      if (within) inside++;
      // Holes in the figure are parts of the painting that look like the ground.
      if (!within && mask[cell]) apart++;
    }
  return inside > 0 ? apart / inside : 1;
}
