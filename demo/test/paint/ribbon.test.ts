import { describe, expect, it } from 'vitest';
import { canvasOf } from '../../src/paint/canvas.ts';
import { drawStrokes } from '../../src/paint/ribbon.ts';
import { addStroke, POINT, strokesOf } from '../../src/paint/strokes.ts';

const WIDTH = 200;

/** A stroke along a function of t, in white, without bristles that break. */
function strokeAlong(path: (t: number) => [number, number], half: number, opacity: number, points = 12) {
  const list = strokesOf();
  const p = new Float32Array(points * POINT);
  for (let i = 0; i < points; i++) {
    const [x, y] = path(i / (points - 1));
    p.set([x / WIDTH, y / WIDTH, half / WIDTH, 1, 1, 1], i * POINT);
  }
  addStroke(list, p, points, { opacity, dryness: 0, softness: 0, streak: 0 }, 0.5, 0);
  return list;
}

describe('strokes', () => {
  const paths: [string, (t: number) => [number, number]][] = [
    ['level', (t) => [30 + 140 * t, 60.3]],
    ['upright', (t) => [99.7, 10 + 100 * t]],
    ['slanting', (t) => [20 + 150 * t, 20 + 80 * t]],
    ['an arc', (t) => [100 + 60 * Math.cos(3 * t), 10 + 60 * Math.sin(3 * t)]],
  ];
  it.each(paths)('touches every pixel once at most: %s', (_name, path) => {
    const canvas = canvasOf(WIDTH, 120, [0, 0, 0]);
    drawStrokes(canvas, strokeAlong(path, 9, 0.5));
    // Two layers of half opacity would reach 0.75.
    expect(Math.max(...canvas.rgb)).toBeLessThanOrEqual(0.5 + 1e-6);
  });

  it('leaves no seams between its parts', () => {
    const canvas = canvasOf(WIDTH, 120, [0, 0, 0]);
    drawStrokes(
      canvas,
      strokeAlong((t) => [20 + 160 * t, 40 + 30 * t], 12, 1, 30),
    );
    // Along the middle, away from the ends, the paint hides nearly everything: only thin bristle marks stay open.
    let covered = 0;
    for (let i = 0; i < 100; i++) {
      const t = 0.2 + (0.6 * i) / 99;
      const j = (Math.round(40 + 30 * t) * WIDTH + Math.round(20 + 160 * t)) * 3;
      if (canvas.rgb[j]! > 0.8) covered++;
    }
    expect(covered).toBeGreaterThan(80);
  });

  it('paints a band of rows as it paints the whole', () => {
    const list = strokeAlong((t) => [20 + 150 * t, 20 + 80 * t], 10, 0.9);
    const whole = canvasOf(WIDTH, 120, [0.1, 0.1, 0.1]);
    const band = canvasOf(WIDTH, 120, [0.1, 0.1, 0.1], [40, 80]);
    drawStrokes(whole, list);
    drawStrokes(band, list);
    const part = whole.rgb.subarray(40 * WIDTH * 3, 80 * WIDTH * 3);
    let worst = 0;
    for (let i = 0; i < part.length; i++) worst = Math.max(worst, Math.abs(part[i]! - band.rgb[i]!));
    expect(worst).toBeLessThan(1e-4);
  });
});
