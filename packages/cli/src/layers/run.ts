import { basename, extname } from 'node:path';
import {
  type FlattenStage,
  type LayerReading,
  type LayersReading,
  type OptionPicture,
  optionPictures,
  type StageName,
  smallStack,
} from '@halflight/engine';
import type { Codec } from '@halflight/files';
import {
  choose,
  countLayers,
  flatten,
  type Gathered,
  gather,
  mergedNotes,
  planStages,
  readPair,
  weigh,
  weighDeeds,
} from '@halflight/files/layers';
import { openCodec, readPicture, writeAtomically } from '@halflight/files/node';
import type { OpenRaster } from '@halflight/files/openraster';
import { tellTrouble } from '../check/outcome.ts';
import { readIntent } from '../inputs.ts';
import { openProgress } from '../terminal/progress.ts';
import { EXIT, keepOriginal, WrongUse } from '../trouble.ts';
import { lineOf } from './json.ts';
import { openStack, type StackOptions } from './open.ts';
import { planText } from './plan.ts';
import { type Settle, SHEET_LONG_SIDE, type Sweep, settled, sweepOf } from './settle.ts';
import { writeSheets } from './sheets.ts';
import { layersText, pairText, sweepText } from './text.ts';

export interface LayersOptions extends StackOptions {
  readonly json?: boolean;
  readonly flatten?: string;
  /** How far to flatten; unless told, what can be one without a visible change. */
  readonly stage?: StageName;
  /** Also tell the ways to have fewer layers. */
  readonly plan?: boolean;
  /** Layers that are chosen out of their sets, by path, and what becomes of the others. */
  readonly choose?: readonly string[];
  readonly others?: 'drop' | 'hide';
  /** Layers that are closed at a hue and strength. */
  readonly settle: readonly Settle[];
  /** Path of the layer whose hues and strengths are tried. */
  readonly sweep?: string;
  /** Folder for the option sheets. */
  readonly sheets?: string;
  /** What was decided for the picture: options are told by their distance from its mood. */
  readonly intent?: string;
  /** A flat picture without one layer, beside the one with it. */
  readonly without?: string;
}

/** All that is told of a layered picture. */
export interface LayersTold {
  readonly reading: LayersReading;
  readonly does: Awaited<ReturnType<typeof weighDeeds>>;
  readonly choices: readonly (readonly OptionPicture[])[];
  readonly plan: readonly FlattenStage[] | null;
  readonly sweep: Sweep | null;
}

/** Reads a layered picture, says what each layer is worth, writes the thinned one; gives the exit code. */
export async function layers(paths: readonly string[], options: LayersOptions): Promise<number> {
  if (options.flatten !== undefined && extname(options.flatten).toLowerCase() !== '.ora')
    throw new WrongUse(`“${options.flatten}”: a layered file is written as .ora. Give it that ending.`);
  if (options.stage !== undefined && options.flatten === undefined)
    throw new WrongUse('--stage tells how far --flatten goes: give both, or --plan to see the stages.');
  const codec = await openCodec();
  try {
    if (options.without === undefined) await read(paths, options, codec);
    else {
      const layer = await pair(paths, options.without, options.limit, codec);
      const reading = { layers: [layer], options: [], merges: [] };
      process.stdout.write(
        options.json
          ? `${lineOf({ reading, does: new Map(), choices: [], plan: null, sweep: null })}\n`
          : pairText(layer),
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
  const intent = await readIntent(options.intent);
  const opened = await openStack(paths, options);
  const { name, given } = opened;
  const count = countLayers(opened.nodes);
  const how = {
    codec,
    limitMegapixels: options.limit,
    // What is written is held against the picture as it was.
    ...(options.flatten !== undefined && { along: true }),
  };
  const all = await gathered(opened, how);
  for (const note of [...all.notes, ...(await mergedNotes(opened, all, how, given))])
    process.stderr.write(`${note}\n`);
  const { file, picture, reading } = await decided(opened, all, options, how);
  const small = smallStack(picture.stack, SHEET_LONG_SIDE);
  const plan = options.plan || options.stage !== undefined ? await planStages(picture, reading) : null;
  const told: LayersTold = {
    reading,
    does: await weighDeeds(reading),
    choices: reading.options.map((set) => [...optionPictures(small, picture.space, set, intent)]),
    plan: options.plan ? plan : null,
    sweep: options.sweep === undefined ? null : sweepOf(picture, options.sweep, intent),
  };
  process.stdout.write(options.json ? `${lineOf(told)}\n` : layersText(name, told));
  if (told.sweep && !options.json) process.stdout.write(`\n${sweepText(told.sweep)}`);
  if (options.plan && !options.json) process.stdout.write(`\n${planText(plan!)}`);
  if (options.sheets !== undefined)
    for (const path of await writeSheets(options.sheets, told, codec)) process.stderr.write(`${path}\n`);
  if (options.flatten === undefined) return;
  const stage = plan?.find((one) => one.name === options.stage);
  const { bytes, layers, difference } = await flatten(file, picture, stage ?? reading.merges, how);
  await writeAtomically(options.flatten, bytes);
  const same =
    difference > 1
      ? `nearly the same picture: at most ${Math.round(difference)} code values apart`
      : `the same picture${options.choose || options.settle.length > 0 ? ' as chosen' : ''}${difference > 0 ? ', within one code value' : ''}`;
  process.stderr.write(`“${options.flatten}” has ${layers} of the ${count} layers and shows ${same}.\n`);
}

type How = Parameters<typeof gather>[1];

async function gathered(file: OpenRaster, how: How): Promise<Gathered> {
  const progress = openProgress(countLayers(file.nodes));
  const all = await gather(file, how, (layer) => progress.step(layer.name));
  progress.end();
  return all;
}

/** The picture with what was decided, and what its layers are worth then. */
async function decided(
  opened: OpenRaster,
  all: Gathered,
  { choose: paths = [], others, settle }: LayersOptions,
  how: How,
): Promise<{ file: OpenRaster; picture: Gathered; reading: LayersReading }> {
  const reading = await weighed(all);
  if (paths.length + settle.length === 0) return { file: opened, picture: all, reading };
  let file = opened;
  for (const path of paths) file = choose(file, reading.options, path, others);
  file = settled(file, settle, how);
  const picture = await gathered(file, how);
  return { file, picture, reading: await weighed(picture) };
}

/** Weighs the layers, and shows how far that is. */
async function weighed(all: Gathered): Promise<LayersReading> {
  const progress = openProgress(PARTS);
  let shown = 0;
  const reading = await weigh(all, {
    onProgress: (share) => {
      for (; shown < Math.floor(PARTS * share); shown++) progress.step('weighing');
    },
  });
  progress.end();
  return reading;
}

/** Parts of a bar that has no pieces of its own. */
const PARTS = 100;

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
