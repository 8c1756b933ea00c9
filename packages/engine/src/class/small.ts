import { transform } from '../colour/matrix.ts';
import { linearToOklab } from '../colour/oklab.ts';
import { linearTables } from '../colour/transfer.ts';
import type { Raster } from '../views/raster.ts';

/** A small copy in OKLab, three numbers a cell. */
export interface SmallLab {
  readonly width: number;
  readonly height: number;
  readonly lab: Float32Array;
  /** Pixels of the picture in one cell. */
  readonly scale: number;
}

/** Samples in one cell along each side: enough to quiet noise and threads, few enough to cost nothing. */
const SAMPLES = 3;

/**
 * A small copy by sparse samples, to find edges in.
 *
 * @param part 'rim' takes its outermost cells only and leaves the others 0
 */
export function smallLab(raster: Raster, longSide: number, part: 'all' | 'rim' = 'all'): SmallLab {
  const scale = Math.max(1, Math.max(raster.width, raster.height) / longSide);
  const width = Math.max(1, Math.floor(raster.width / scale));
  const height = Math.max(1, Math.floor(raster.height / scale));
  const tables = linearTables(raster.space, raster.depth);
  const lab = new Float32Array(3 * width * height);
  const samples = scale < 1.5 ? 1 : SAMPLES;
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i += 3) {
      const rim = x === 0 || y === 0 || x === width - 1 || y === height - 1;
      if (part === 'rim' && !rim) continue;
      const sum: [number, number, number] = [0, 0, 0];
      for (let j = 0; j < samples; j++)
        for (let k = 0; k < samples; k++) {
          const px = Math.min(raster.width - 1, Math.floor((x + (k + 0.5) / samples) * scale));
          const py = Math.min(raster.height - 1, Math.floor((y + (j + 0.5) / samples) * scale));
          const at = raster.channels * (py * raster.width + px);
          for (let c = 0; c < 3; c++) sum[c] += tables[c][raster.data[at + c]];
        }
      const n = samples * samples;
      const light = transform(raster.space.toSrgb, [sum[0] / n, sum[1] / n, sum[2] / n]);
      lab.set(linearToOklab(light), i);
    }
  return { width, height, lab, scale };
}
