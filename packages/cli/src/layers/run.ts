import { basename, extname } from 'node:path';
import { type LayerReading, type LayersReading, readLayers, sixDigits } from '@halflight/engine';
import type { Codec } from '@halflight/files';
import { countLayers, flatten, gather, mergedNotes, readPair } from '@halflight/files/layers';
import { openCodec, readPicture, writeAtomically } from '@halflight/files/node';
import { tellTrouble } from '../check/outcome.ts';
import { openProgress } from '../terminal/progress.ts';
import { EXIT, keepOriginal, WrongUse } from '../trouble.ts';
import { openStack, type StackOptions } from './open.ts';
import { layersText, pairText } from './text.ts';

export interface LayersOptions extends StackOptions {
  readonly json?: boolean;
  readonly flatten?: string;
  /** A flat picture without one layer, beside the one with it. */
  readonly without?: string;
}

/** Reads a layered picture, says what each layer is worth, writes the thinned one; gives the exit code. */
export async function layers(paths: readonly string[], options: LayersOptions): Promise<number> {
  if (options.flatten !== undefined && extname(options.flatten).toLowerCase() !== '.ora')
    throw new WrongUse(`“${options.flatten}”: a layered file is written as .ora. Give it that ending.`);
  const codec = await openCodec();
  try {
    if (options.without === undefined) await read(paths, options, codec);
    else {
      const layer = await pair(paths, options.without, options.limit, codec);
      process.stdout.write(
        options.json ? `${lineOf({ layers: [layer], options: [], merges: [] })}\n` : pairText(layer),
      );
    }
    return EXIT.done;
  } catch (error) {
    return tellTrouble(error, basename(paths[0]));
  } finally {
    codec.close();
  }
}

async function read(paths: readonly string[], options: LayersOptions, codec: Codec): Promise<void> {
  if (options.flatten !== undefined) for (const path of paths) keepOriginal(options.flatten, path);
  const file = await openStack(paths, options);
  const { name } = file;
  const count = countLayers(file.nodes);
  const progress = openProgress(count);
  const how = { codec, limitMegapixels: options.limit };
  const gathered = await gather(file, how, (layer) => progress.step(layer.name));
  progress.end();
  for (const note of [...gathered.notes, ...(await mergedNotes(file, gathered, how, file.given))])
    process.stderr.write(`${note}\n`);
  const reading = readLayers(gathered.stack, gathered.depth, gathered.space);
  process.stdout.write(options.json ? `${lineOf(reading)}\n` : layersText(name, reading));
  if (options.flatten === undefined) return;
  const { bytes, layers, difference } = await flatten(file, gathered, reading.merges, how);
  await writeAtomically(options.flatten, bytes);
  process.stderr.write(
    `“${options.flatten}” has ${layers} of the ${count} layers and shows the same picture${difference > 0 ? ', within one code value' : ''}.\n`,
  );
}

/** What a layer is worth, from two flat pictures: with it and without it. */
async function pair(
  paths: readonly string[],
  without: string,
  limitMegapixels: number,
  codec: Codec,
): Promise<LayerReading> {
  const [path] = paths;
  if (paths.length > 1)
    throw new WrongUse('--without goes with one flat picture: the one that shows the layer.');
  const named = async (one: string) => ({
    name: basename(one),
    raster: (await readPicture(one, { codec, limitMegapixels })).raster,
  });
  return readPair(await named(path), await named(without));
}

function lineOf({ layers, options }: LayersReading): string {
  const line = {
    schema: 'halflight/layers@1',
    layers: layers.map((one) => ({
      path: one.path,
      name: one.name,
      worth: { mean: one.worth.mean, p95: one.worth.p95 },
      areaShare: one.areaShare,
      redundant: one.redundant,
      mergeableWith: one.mergeableWith,
      visible: one.visible,
      group: one.group,
      kind: one.kind,
    })),
    options,
  };
  return JSON.stringify(line, sixDigits);
}
