import sharp, { type Sharp } from 'sharp';
import { describe, expect, test } from 'vitest';
import { fromSrgb } from '../../../src/colour/gamut.ts';
import { transform } from '../../../src/colour/matrix.ts';
import { DISPLAY_P3 } from '../../../src/colour/rgbSpaces.ts';
import { linearToSrgb, srgbToLinear } from '../../../src/colour/transfer.ts';
import { headroom } from '../../../src/readings/headroom/headroom.ts';
import type { HeadroomValue } from '../../../src/readings/headroom/types.ts';
import type { Raster } from '../../../src/views/raster.ts';
import { grain, hills, inputOf, paint } from '../pictures.ts';

/** A dusk over water with lamps, a little grain, and a strip of closed darks. */
const dusk = paint(420, 280, (x, y) => {
  const lamp = Math.exp(-(((x - 0.7) * 30) ** 2) - ((y - 0.45) * 20) ** 2);
  const L = 0.22 + 0.4 * (1 - y) + 0.05 * hills(x, y, 6, 3) + 0.35 * lamp;
  const noise = 0.012 * (grain(Math.round(420 * x), Math.round(280 * y), 1) - 0.5);
  if (y > 0.92) return [0.05 + noise, 0.01, 280];
  return [L + noise, 0.05 + 0.05 * y + 0.08 * lamp, lamp > 0.3 ? 65 : 270 + 20 * hills(x, y, 3, 5)];
});

const roomOf = (raster: Raster): HeadroomValue => headroom.read(inputOf(raster)).value;

async function viaSharp(raster: Raster, work: (image: Sharp) => Sharp): Promise<Raster> {
  const { width, height } = raster;
  const image = sharp(raster.data, { raw: { width, height, channels: 3 } });
  const bytes = await work(image).toBuffer();
  const { data, info } = await sharp(bytes).removeAlpha().raw().toBuffer({ resolveWithObject: true });
  return { ...raster, width: info.width, height: info.height, data: new Uint8Array(data) };
}

/** The same colours as code values of Display P3, at 16 bits. */
function taggedP3(raster: Raster): Raster {
  const into = fromSrgb(DISPLAY_P3);
  const data = new Uint16Array(raster.data.length);
  for (let i = 0; i < data.length; i += 3) {
    const [r, g, b] = [0, 1, 2].map((c) => srgbToLinear(raster.data[i + c] / 255));
    transform(into, [r, g, b]).forEach((v, c) => {
      data[i + c] = Math.round(65535 * Math.min(1, Math.max(0, linearToSrgb(v))));
    });
  }
  return { ...raster, depth: 16, data, space: DISPLAY_P3 };
}

function noisy(raster: Raster): Raster {
  const data = Uint8Array.from(raster.data, (v, i) =>
    Math.round(Math.min(255, Math.max(0, v + 255 * 0.01 * 2 * (grain(i, 3, 8) - 0.5)))),
  );
  return { ...raster, data };
}

const enlarged = (raster: Raster, scale: number): Promise<Raster> =>
  viaSharp(raster, (image) =>
    image
      .resize(Math.round(raster.width * scale), Math.round(raster.height * scale), { kernel: 'lanczos3' })
      .png(),
  );

const before = roomOf(dusk);
// Tolerances: shares in points, the rest in the unit of the direction. Noise and blocks of JPEG widen the extremes
// that clip first, so that room shrinks a little in truth.
const COPIES: [string, () => Promise<Raster> | Raster, number][] = [
  ['half the size', () => enlarged(dusk, 0.5), 1],
  ['twice the size', () => enlarged(dusk, 2), 1],
  ['JPEG of quality 90', () => viaSharp(dusk, (image) => image.jpeg({ quality: 90 })), 1.5],
  ['Display P3', () => taggedP3(dusk), 0.5],
  ['one per cent of noise', () => noisy(dusk), 1.5],
  ['mirrored', () => viaSharp(dusk, (image) => image.flop().png()), 0.001],
];

describe.each(COPIES)('headroom of the same picture: %s', (_, copy, tolerance) => {
  test('moves little', async () => {
    const after = roomOf(await copy());
    const near = (key: keyof HeadroomValue, unit: number): void => {
      const [a, b] = [before[key], after[key]];
      expect(a === null, key).toBe(b === null);
      if (a !== null && b !== null)
        expect(Math.abs(a - b), key).toBeLessThanOrEqual(tolerance * unit + 1e-12);
    };
    near('endsShare', 0.01);
    near('exposureUp', 0.1);
    near('exposureDown', 0.15);
    near('contrast', 0.05);
    near('chromaGain', 0.08);
    near('hueTurnLeft', 6);
    near('hueTurnRight', 6);
    near('warmer', 10);
    near('cooler', 10);
  });
});
