import type { Field, View } from '@halflight/engine';
import type { Answer } from '../../document/work.ts';

/** The areas that "wrong" answers leave out, painted at close-view size; null when there are none. */
export function leftOutOf(answers: readonly Answer[], close: View): Field | null {
  const outlines = answers.flatMap(({ kind, outline }) => (kind === 'wrong' && outline ? [outline] : []));
  if (outlines.length === 0) return null;
  const { width, height } = close;
  const data = new Float32Array(width * height);
  for (const outline of outlines) fillOutline(data, width, height, outline);
  return { width, height, data };
}

/** Sets every pixel whose centre is inside the outline (even-odd rule), row by row. */
function fillOutline(data: Float32Array, width: number, height: number, outline: readonly number[]): void {
  const points = outline.length / 2;
  for (let y = 0; y < height; y++) {
    const level = (y + 0.5) / height;
    const crossings: number[] = [];
    for (let i = 0, j = points - 1; i < points; j = i++) {
      const [ax, ay, bx, by] = [outline[2 * j], outline[2 * j + 1], outline[2 * i], outline[2 * i + 1]];
      if (ay > level !== by > level) crossings.push((ax + ((level - ay) / (by - ay)) * (bx - ax)) * width);
    }
    crossings.sort((a, b) => a - b);
    for (let k = 0; k + 1 < crossings.length; k += 2) {
      const from = Math.max(0, Math.ceil(crossings[k] - 0.5));
      const to = Math.min(width - 1, Math.floor(crossings[k + 1] - 0.5));
      if (from <= to) data.fill(1, y * width + from, y * width + to + 1);
    }
  }
}
