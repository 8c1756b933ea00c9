import { mkdtempSync, rmSync } from 'node:fs';
import { readFile, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Recipe, readyRecipe, rowEditor } from '@halflight/engine';
import { openCodec } from '@halflight/files/node';
import sharp from 'sharp';
import type { Figure } from '../figure.ts';
import { noisyPicture, paintedPicture } from '../pictures.ts';
import { race } from '../time.ts';

/** Five steps without areas, as a proposal has them. */
const RECIPE: Recipe = {
  schema: 'halflight/recipe@1',
  steps: [
    {
      kind: 'gatherHues',
      on: true,
      strength: 1,
      values: { amount: 40 },
      data: {
        families: [
          { hue: 285, width: 60 },
          { hue: 60, width: 40 },
        ],
      },
    },
    { kind: 'warmth', on: true, strength: 1, values: { mired: -15 } },
    { kind: 'exposure', on: true, strength: 1, values: { stops: 0.2 } },
    { kind: 'contrast', on: true, strength: 1, values: { amount: 0.1, pivot: 0.18 } },
    { kind: 'openEnds', on: true, strength: 1, values: { darks: 4, lights: 3, chroma: 4 } },
  ],
};

/** An edit of 24 megapixels at full size, from file to file, against decoding and encoding alone. */
export async function editRows(): Promise<Figure[]> {
  return [
    ...(await rowsOf('a painting', await paintedPicture(), 2)),
    ...(await rowsOf('noise', await noisyPicture(), 1)),
  ];
}

async function rowsOf(title: string, path: string, rounds: number): Promise<Figure[]> {
  const folder = mkdtempSync(join(tmpdir(), 'halflight-bench-'));
  const out = join(folder, 'edited.png');
  const codec = await openCodec();
  sharp.cache(false);
  const edit = async (): Promise<void> => {
    const { raster } = await codec.decode(new Uint8Array(await readFile(path)), { name: 'bench.png' });
    const editor = rowEditor(readyRecipe(RECIPE, null), raster, raster);
    const { width, height, channels, space } = raster;
    const bytes = await codec.encode(
      {
        width,
        height,
        channels,
        depth: 8,
        space,
        rows: (y, count) => {
          const rows = new Uint8Array(count * width * channels);
          editor(y, y + count, rows);
          return rows;
        },
      },
      { format: 'png' },
    );
    await writeFile(out, bytes);
  };
  const { raster } = await codec.decode(new Uint8Array(await readFile(path)), { name: 'bench.png' });
  const kernel = (): void => {
    const rows = new Uint8Array(64 * raster.width * raster.channels);
    const editor = rowEditor(readyRecipe(RECIPE, null), raster, raster);
    for (let y = 0; y < raster.height; y += 64) editor(y, Math.min(raster.height, y + 64), rows);
  };
  const best = await race(rounds, {
    plain: () => sharp(path).png().toFile(out),
    edit,
    kernel,
  });
  codec.close();
  rmSync(folder, { recursive: true, force: true });
  return [
    {
      what: `edit of ${title}, five steps, PNG to PNG, 24 MP`,
      value: best.edit,
      unit: 'ms',
      reference: { what: 'sharp, decoding and encoding', value: best.plain },
      goal: 3,
    },
    {
      what: '  the kernels alone, one core',
      value: (1e6 * best.kernel) / (raster.width * raster.height),
      unit: 'ns a pixel',
    },
  ];
}
