import { expect, test } from 'vitest';
import { takeCensus } from '../../../src/census/take.ts';
import { SRGB } from '../../../src/colour/rgbSpaces.ts';
import { colourfulness } from '../../../src/readings/hueSpread/colourfulness.ts';
import type { Raster } from '../../../src/views/raster.ts';
import reference from './oracle/colourfulness.json' with { type: 'json' };

type Kind = keyof typeof reference.pictures;

// The pictures of oracle/colourfulness.py, byte for byte (their sums are compared).
function picture(kind: Kind): Raster {
  const { width, height } = reference;
  const data = new Uint8Array(3 * width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const n = (x * 7919 + y * 104729 + x * y * 31 + 12345) % 1009;
      const half = Math.floor(x / 2);
      const v = (x * 3 + y + (n % 9)) % 256;
      const lamp = x % 16 < 3 && y % 16 < 3;
      const rgb = {
        grey: [v, v, v],
        dusk: [40 + half + (n % 5), 50 + y + (n % 7), 110 + y * 2 + (n % 9)],
        market: [(x * 11 + n) % 256, (y * 13 + n * 3) % 256, (x * 5 + y * 7 + n * 5) % 256],
        lamps: lamp ? [240, 170, 60] : [20 + (n % 12), 30 + (n % 10), 70 + (n % 20)],
      }[kind];
      data.set(rgb, 3 * (y * width + x));
    }
  return { width, height, channels: 3, depth: 8, data, space: SRGB };
}

test.each(Object.keys(reference.pictures) as Kind[])('%s: as NumPy on the pixels', (kind) => {
  const raster = picture(kind);
  const expected = reference.pictures[kind];
  expect(Array.from(raster.data).reduce((s, v) => s + v, 0)).toBe(expected.sum);
  // The census keeps cells four code values wide: within 0.5 of the metric of the pixels.
  expect(Math.abs(colourfulness(takeCensus(raster)) - expected.colourfulness)).toBeLessThan(0.5);
});
