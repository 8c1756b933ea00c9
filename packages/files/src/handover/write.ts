import {
  type ColourSpace,
  DELIVERY_SPACES,
  depthIn,
  EMPTY_RECIPE,
  ENDINGS,
  fileName,
  type HandoverSettings,
  handoverRows,
  makeCloseView,
  planSize,
  type Recipe,
  readyRecipe,
  workingSteps,
} from '@halflight/engine';
import { editLayers, type LayersTarget } from '../layers/edit.ts';
import { FileTrouble } from '../trouble.ts';
import type { Codec, EncodeOptions } from '../types.ts';
import { inInks } from './inksFile.ts';
import {
  encode,
  type HandoverOptions,
  type HandoverSource,
  hold,
  type Job,
  progress,
  stripOf,
  WRITTEN,
  type Written,
  written,
} from './job.ts';
import { metadataFor } from './metadata.ts';
import { type OutputProfile, openProfile } from './profileFile.ts';
import { openWitness, witnessOf } from './witness.ts';

/**
 * Makes the file of a picture: the edit at full size, the size and the space that were asked for, the texts beside the
 * pixels. Rows are made while they are written. The bytes are decoded again and held against what was meant before
 * anybody gets them: exactly for formats without loss, by place within 2 % for the others.
 *
 * Runs in Node and in a worker of the browser. Rejects with `FileTrouble` for whatever settings, profile or memory can
 * do wrong, and with the signal's reason when aborted.
 */
export async function writePicture(
  codec: Codec,
  source: HandoverSource,
  recipe: Recipe,
  settings: HandoverSettings,
  options: HandoverOptions = {},
): Promise<Written> {
  const { raster, facts } = source;
  const planned = planSize(raster, settings.size);
  if (!planned.ok) throw new FileTrouble('option', planned.trouble, 'Nothing was written.');
  const plan = planned.value;
  const steps = workingSteps(recipe);
  const needsView = steps.some((step) => step.area);
  const close = needsView ? (options.close ?? makeCloseView(raster)) : null;
  const ready = readyRecipe(steps.length > 0 ? recipe : EMPTY_RECIPE, close);
  const name = `${fileName(settings.name, {
    name: withoutEnding(facts.name),
    title: settings.metadata.title,
    preset: settings.preset,
    width: plan.width,
    height: plan.height,
    number: options.number ?? 1,
  })}.${ENDINGS[settings.format]}`;
  const job: Job = { codec, source, ready, edits: steps.length > 0, plan, settings, options, name };
  const output = profileOf(settings, options);
  if (settings.format === 'openraster') return layered(job, recipe);
  if (output && !output.space) return inInks(job, await codec.openInks(output));
  return inSpace(job, output);
}

function profileOf({ space }: HandoverSettings, { profile }: HandoverOptions): OutputProfile | null {
  if (typeof space === 'string') return null;
  if (!profile)
    throw new FileTrouble(
      'option',
      `The profile “${space.profile}” was not given.`,
      'Choose its file again.',
    );
  return openProfile(profile, space.profile);
}

/** The space to write in, and the profile that is attached. */
function spaceOf(
  { settings, source }: Pick<Job, 'settings' | 'source'>,
  output: OutputProfile | null,
): { space: ColourSpace; profile: EncodeOptions['profile'] } {
  if (output?.space) return { space: output.space, profile: output.bytes };
  const name = settings.space;
  if (typeof name === 'string' && name !== 'own') return { space: DELIVERY_SPACES[name], profile: name };
  // The picture's own profile travels unless its pixels had to be converted on reading.
  const { profile, facts, raster } = source;
  const keeps = profile !== null && facts.profile === raster.space.name;
  return { space: raster.space, profile: keeps ? profile : undefined };
}

/** A file in a space of curves and a matrix. */
async function inSpace(job: Job, output: OutputProfile | null): Promise<Written> {
  const { settings, plan, source, ready } = job;
  const { space, profile } = spaceOf(job, output);
  const depth = depthIn(settings);
  const rows = handoverRows(ready, source.raster, plan, {
    space,
    depth,
    sharpen: settings.sharpen,
    ground: settings.size.ground,
    opaque: settings.format === 'jpeg',
    edits: job.edits,
  });
  const { channels } = rows;
  const witness = openWitness(plan.width, plan.height, channels, { alpha: channels === 4 });
  const strip = stripOf(plan.width * channels, depth);
  const bytes = await encode(job, { channels, depth, space, profile }, (y, count) => {
    const out = strip(count);
    rows.write(y, count, out);
    witness.see(out, y, count);
    return out;
  });
  progress(job, 'Reading the file back', WRITTEN);
  const back = await job.codec.decode(bytes, {
    name: job.name,
    limitMegapixels: Number.MAX_SAFE_INTEGER,
    ...(job.options.signal && { signal: job.options.signal }),
  });
  const fits =
    back.raster.width === plan.width && back.raster.height === plan.height && back.raster.depth === depth;
  const sameChannels = back.raster.channels === channels;
  const other = fits && sameChannels ? witnessOf(back.raster, channels, channels === 4) : null;
  hold(job, witness, other, depth);
  return written(job, bytes, depth, space.name, null);
}

/** An OpenRaster file with the picture as painted, each step of the edit and the guide as layers. */
async function layered(job: Job, recipe: Recipe): Promise<Written> {
  const { settings, source, codec, options } = job;
  const target: LayersTarget = {
    depth: depthIn(settings),
    ...spaceOf(job, null),
    metadata: metadataFor(source.metadata, settings.metadata, 'png'),
  };
  const bytes = await editLayers(
    codec,
    {
      decoded: source,
      recipe: { ...recipe, steps: workingSteps(recipe) },
      places: options.places ?? [],
      target,
    },
    {
      signal: options.signal,
      onProgress: (share) => progress(job, 'Making the layers and reading them back', share),
    },
  );
  return written(job, bytes, target.depth, target.space.name, null);
}

function withoutEnding(name: string): string {
  return name.replace(/(?<=.)\.[a-z0-9]{1,5}$/i, '');
}
