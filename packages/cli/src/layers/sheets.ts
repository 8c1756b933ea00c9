import { join } from 'node:path';
import { SRGB, type View } from '@halflight/engine';
import type { Codec } from '@halflight/files';
import { showView, writeAtomically } from '@halflight/files/node';
import { writableFolder } from '../inputs.ts';
import type { LayersTold } from './run.ts';

/** Pixels between the small pictures. */
const GAP = 12;
/** Neutral grey around them, in sRGB code values (ISO 3664 practice). */
const SURROUND = 119;

/**
 * Writes the option sheets as PNGs: each set of options side by side in the order it is told in, and the swept layer
 * with its hues across and its strengths down.
 *
 * @returns the names of the files
 */
export async function writeSheets(
  folder: string,
  { choices, sweep }: Pick<LayersTold, 'choices' | 'sweep'>,
  codec: Codec,
): Promise<string[]> {
  await writableFolder(folder);
  const files: string[] = [];
  const write = async (name: string, views: readonly View[], columns: number): Promise<void> => {
    const path = join(folder, name);
    await writeAtomically(path, await sheetPng(codec, views, columns));
    files.push(path);
  };
  for (const [i, set] of choices.entries())
    await write(
      `options-${i + 1}.png`,
      set.map(({ view }) => view),
      set.length > 4 ? 3 : 2,
    );
  if (sweep)
    await write(
      'sweep.png',
      sweep.cells.map(({ view }) => view),
      sweep.turns.length,
    );
  return files;
}

async function sheetPng(codec: Codec, views: readonly View[], columns: number): Promise<Uint8Array> {
  const [{ width: w, height: h }] = views;
  const rows = Math.ceil(views.length / columns);
  const width = columns * (w + GAP) + GAP;
  const height = rows * (h + GAP) + GAP;
  const data = new Uint8Array(3 * width * height).fill(SURROUND);
  for (const [k, view] of views.entries()) {
    const { data: codes, channels } = showView(view);
    const left = GAP + (k % columns) * (w + GAP);
    const top = GAP + Math.floor(k / columns) * (h + GAP);
    for (let y = 0; y < h; y++)
      for (let x = 0; x < w; x++) {
        const from = channels * (y * w + x);
        const to = 3 * ((top + y) * width + left + x);
        const a = channels === 4 ? codes[from + 3] / 255 : 1;
        for (let c = 0; c < 3; c++) data[to + c] = Math.round(a * codes[from + c] + (1 - a) * data[to + c]);
      }
  }
  const raster = { width, height, channels: 3, depth: 8, data, space: SRGB } as const;
  return codec.encode(raster, { format: 'png', profile: 'srgb' });
}
