import { basename, extname } from 'node:path';
import { type LayersReading, readLayers, sixDigits } from '@halflight/engine';
import type { Codec } from '@halflight/files';
import { openCodec, writeAtomically } from '@halflight/files/node';
import type { OpenRaster } from '@halflight/files/openraster';
import { tellTrouble } from '../check/outcome.ts';
import { openProgress } from '../terminal/progress.ts';
import { EXIT, keepOriginal, WrongUse } from '../trouble.ts';
import { countLayers, flatten } from './flatten.ts';
import { type Gathered, gather, largestDifference, whereDifferent } from './gather.ts';
import { openStack, type StackOptions } from './open.ts';
import { layersText, pairText } from './text.ts';
import { readPair } from './withAndWithout.ts';

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
      const layer = await readPair(paths, { ...options, without: options.without }, codec);
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
  const gathered = await gather(file, codec, options.limit, (layer) => progress.step(layer));
  progress.end();
  for (const note of [...gathered.notes, ...(await mergedNotes(file, gathered, codec, options.limit))])
    process.stderr.write(`${note}\n`);
  const reading = readLayers(gathered.stack, gathered.depth, gathered.space);
  process.stdout.write(options.json ? `${lineOf(reading)}\n` : layersText(name, reading));
  if (options.flatten === undefined) return;
  const { bytes, layers, difference } = await flatten(file, gathered, reading.merges, codec, options.limit);
  await writeAtomically(options.flatten, bytes);
  process.stderr.write(
    `“${options.flatten}” has ${layers} of the ${count} layers and shows the same picture${difference > 0 ? ', within one code value' : ''}.\n`,
  );
}

/** What the picture that the painting program saved beside its layers tells against ours. */
async function mergedNotes(
  file: OpenRaster & { given: boolean },
  { composite }: Gathered,
  codec: Codec,
  limitMegapixels: number,
): Promise<string[]> {
  const bytes = await file.merged();
  if (!bytes)
    return file.given
      ? []
      : ['It holds no picture of all layers together, so that ours could not be compared.'];
  try {
    const { raster } = await codec.decode(bytes, { name: 'mergedimage.png', limitMegapixels });
    if (raster.width !== file.width || raster.height !== file.height)
      return [
        `Its own picture of all layers is ${raster.width} × ${raster.height} and not ${file.width} × ${file.height}; it was not compared.`,
      ];
    const most = largestDifference(composite, raster);
    const allowed = composite.depth === 16 && raster.depth === 8 ? 257 : 1;
    if (most <= allowed) return [];
    const { share, left, top, right, bottom } = whereDifferent(composite, raster, allowed);
    return [
      `Its own picture of all layers differs from ours by up to ${Math.round(most)} code values of ${2 ** composite.depth - 1}, on ${share < 0.005 ? 'under 1' : Math.round(100 * share)} % of the picture, between ${left}, ${top} and ${right}, ${bottom}: ${file.given ? 'a mode or an opacity is not the one it was painted with, or a layer is missing' : 'the program that saved it puts layers together in another way'}.`,
    ];
  } catch {
    return ['Its own picture of all layers can’t be read; it was not compared.'];
  }
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
