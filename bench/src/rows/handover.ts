import { readFile } from 'node:fs/promises';
import { EMPTY_RECIPE, PRESETS, type Recipe } from '@halflight/engine';
import { writePicture } from '@halflight/files/handover';
import { openCodec } from '@halflight/files/node';
import sharp from 'sharp';
import type { Figure } from '../figure.ts';
import { paintedPicture } from '../pictures.ts';
import { race } from '../time.ts';

const WARMER: Recipe = {
  schema: 'halflight/recipe@1',
  steps: [
    { kind: 'warmth', on: true, strength: 1, values: { mired: 15 } },
    { kind: 'openEnds', on: true, strength: 1, values: { darks: 4, lights: 3, chroma: 4 } },
  ],
};

/** The file for a screen of 24 megapixels, decoded before, read back after, against the same size by sharp. */
export async function handoverRows(): Promise<Figure[]> {
  const path = await paintedPicture();
  const codec = await openCodec();
  sharp.cache(false);
  const decoded = await codec.decode(new Uint8Array(await readFile(path)), { name: 'bench.png' });
  const { data, width, height, channels } = decoded.raster;
  const { size, quality } = PRESETS.screen;
  const best = await race(2, {
    // In linear light, as ours: its plain way shrinks code values.
    plain: () =>
      sharp(data, { raw: { width, height, channels } })
        .gamma()
        .resize(size.width ?? undefined, size.height ?? undefined, { fit: 'inside', kernel: 'lanczos3' })
        .jpeg({ quality })
        .toBuffer(),
    bare: () => writePicture(codec, decoded, EMPTY_RECIPE, PRESETS.screen),
    edited: () => writePicture(codec, decoded, WARMER, PRESETS.screen),
  });
  codec.close();
  const reference = { what: 'sharp, resizing and encoding', value: best.plain };
  return [
    { what: 'file for a screen, 24 MP to 2560 pixels, checked', value: best.bare, unit: 'ms', reference },
    { what: '  with an edit of two steps', value: best.edited, unit: 'ms', reference },
  ];
}
