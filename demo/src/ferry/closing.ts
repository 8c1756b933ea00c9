/** Darks closed on the painting, as one does it with a curve: in the water, the mud and the nets, not on what is built. */
import { blurred } from '../paint/guide.ts';
import type { Study } from './study.ts';

/** Luminance up to which a version's darks are closed (0 leaves them open), and what is spared, 0…1 by pixel of the study. */
export interface Closing {
  readonly point: number;
  readonly width: number;
  readonly height: number;
  readonly spared: Float32Array;
}

const BUILT = new Set([
  'right shed',
  'middle shed',
  'left shed',
  'jetty',
  'landing',
  'boat',
  'crates',
  'figure',
]);

/** Relative luminance at which L* is 2. */
const CLOSED = (2 * 27) / 24389;
/** What lies up to this many times above the point is pulled down as well. */
const REACH = 1.5;

/**
 * Where the darks of a picture of the study's size must be closed so that `share` of its area goes under L* 2.
 * What is built is spared up to its rim.
 */
export function closingOf(study: Study, picture: Float32Array, share: number): Closing {
  const { width, height, body, things } = study;
  const spared = blurred(
    Float32Array.from(body, (b) => (b >= 0 && BUILT.has(things[b]!) ? 1 : 0)),
    width,
    height,
    1,
    1,
  ).map((v) => Math.max(0, 2 * v - 1));
  if (share === 0) return { point: 0, width, height, spared };
  const y: number[] = [];
  for (let i = 0; i < body.length; i++) if (spared[i]! < 0.5) y.push(luminanceAt(picture, i));
  const sorted = Float32Array.from(y).sort();
  const point = sorted[Math.min(sorted.length - 1, Math.floor(share * body.length))] ?? 0;
  return { point, width, height, spared };
}

/** Rows of a picture, its own or more than the study's size. */
interface Rows {
  readonly width: number;
  readonly firstRow: number;
  readonly fullHeight: number;
  readonly rgb: Float32Array;
}

/** Closes what is darker than the point to below L* 2, in place, and pulls down what lies just above. */
export function closeDarks({ width, firstRow, fullHeight, rgb }: Rows, closing: Closing): void {
  const { point, spared } = closing;
  if (point <= 0) return;
  for (let i = 0; i < rgb.length / 3; i++) {
    const y = luminanceAt(rgb, i);
    if (y >= REACH * point || y <= 0) continue;
    // Straight up to the point, then a smooth way back to the picture as it was.
    const t = (y - point) / ((REACH - 1) * point);
    const goal =
      y <= point ? (y / point) * CLOSED : CLOSED + (REACH * point - CLOSED) * t * (0.35 + 0.65 * t);
    const u = Math.floor((((i % width) + 0.5) * closing.width) / width);
    const v = Math.floor(((firstRow + Math.floor(i / width) + 0.5) * closing.height) / fullHeight);
    const f = 1 + (goal / y - 1) * (1 - spared[v * closing.width + u]!);
    for (let c = 0; c < 3; c++) rgb[i * 3 + c]! *= f;
  }
}

function luminanceAt(p: Float32Array, i: number): number {
  return 0.2126 * p[i * 3]! + 0.7152 * p[i * 3 + 1]! + 0.0722 * p[i * 3 + 2]!;
}
