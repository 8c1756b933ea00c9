import {
  type ColourSpace,
  DELIVERY_SPACES,
  depthIn,
  EMPTY_RECIPE,
  ENDINGS,
  fileName,
  type HandoverSettings,
  handoverRows,
  lightRows,
  makeCloseView,
  planSize,
  type ReadyRecipe,
  type Recipe,
  readyRecipe,
  type SizePlan,
  SRGB,
  type View,
} from '@halflight/engine';
import { FileTrouble } from '../trouble.ts';
import type { Codec, Decoded, EncodeOptions } from '../types.ts';
import { inkRows } from './inkRows.ts';
import type { Inks } from './inks.ts';
import { writeLayered } from './layered.ts';
import { metadataFor } from './metadata.ts';
import { type OutputProfile, openProfile } from './profileFile.ts';
import { countInk, type InkUse } from './proof.ts';
import { openWitness, type Witness, witnessOf } from './witness.ts';

/** The picture to hand over: what decoding gave. */
export type HandoverSource = Pick<Decoded, 'facts' | 'raster' | 'profile' | 'metadata'>;

export interface HandoverOptions {
  /** Bytes of the profile that the settings name. */
  readonly profile?: Uint8Array;
  /** Its place in a series, from 1. */
  readonly number?: number;
  /** The picture's close view, where it is known already; made when areas need one. */
  readonly close?: View;
  readonly signal?: AbortSignal;
  readonly onProgress?: (progress: { readonly doing: string; readonly share: number }) => void;
}

/** A file that is ready to leave, read back and found to be what was meant. */
export interface Written {
  /** With its ending; safe on every disk. */
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly width: number;
  readonly height: number;
  readonly depth: 8 | 16;
  /** Colour space in words. */
  readonly space: string;
  readonly pixelsPerInch: number | null;
  /** Inks, where the file has them. */
  readonly ink: InkUse | null;
  /** What the artist should know, a sentence each. */
  readonly notes: readonly string[];
}

/** Share of the work that is done when the file is written but not yet read back. */
const WRITTEN = 0.8;

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
  const steps = recipe.steps.filter((step) => step.on && step.strength > 0);
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
  if (settings.format === 'openraster') return layered(job);
  if (output && !output.space) return inInks(job, await codec.openInks(output));
  return inSpace(job, output);
}

interface Job {
  readonly codec: Codec;
  readonly source: HandoverSource;
  readonly ready: ReadyRecipe;
  readonly edits: boolean;
  readonly plan: SizePlan;
  readonly settings: HandoverSettings;
  readonly options: HandoverOptions;
  readonly name: string;
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
  const witness = openWitness(plan.width, plan.height, channels, channels === 4);
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

/** A file in a profile with tables: inks, or RGB of a printer. */
async function inInks(job: Job, inks: Inks): Promise<Written> {
  const { settings, plan, source, ready, codec } = job;
  const { space: way } = settings;
  if (typeof way === 'string') throw new RangeError('inks need a profile');
  if (inks.channels === 4 && settings.format !== 'tiff' && settings.format !== 'jpeg')
    throw new FileTrouble(
      'option',
      `${settings.format.toUpperCase()} can’t hold inks (CMYK).`,
      'Choose TIFF or JPEG.',
    );
  const depth = depthIn(settings);
  // Held in the picture's own space, not in sRGB: a paper may show what sRGB can't.
  const target = { space: source.raster.space, ground: settings.size.ground, opaque: true, edits: job.edits };
  const rows = inkRows(lightRows(ready, source.raster, plan, target), plan, target.space, inks, depth, way);
  const { channels } = inks;
  const counter = channels === 4 ? countInk() : null;
  const witness = openWitness(plan.width, plan.height, channels, false);
  const picture = { channels, depth, space: SRGB, profile: inks.profile.bytes, inks: channels === 4 };
  const bytes = await encode(job, picture, (y, count) => {
    const out = rows(y, count);
    counter?.add(out);
    witness.see(out, y, count);
    return out;
  });
  progress(job, 'Reading the file back', WRITTEN);
  const back = await codec.readCodes(bytes);
  const fits =
    back.width === plan.width &&
    back.height === plan.height &&
    back.channels === channels &&
    back.depth === depth;
  hold(job, witness, fits ? witnessOf(back, channels, false) : null, depth);
  return written(job, bytes, depth, inks.profile.name, counter?.use() ?? null);
}

/** An OpenRaster file with the picture before and after the edit as layers. */
async function layered(job: Job): Promise<Written> {
  const { settings, source, codec, options, ready, name, edits } = job;
  const depth = depthIn(settings);
  const { space, profile } = spaceOf(job, null);
  const rows = async (recipe: ReadyRecipe): Promise<Uint8Array> => {
    const { raster } = source;
    const made = handoverRows(recipe, raster, job.plan, {
      space,
      depth,
      sharpen: 0,
      ground: '#ffffff',
      opaque: false,
    });
    const { channels } = made;
    const strip = stripOf(raster.width * channels, depth);
    const witness = openWitness(raster.width, raster.height, channels, channels === 4);
    const png: Job = { ...job, settings: { ...settings, format: 'png' } };
    const bytes = await encode(png, { channels, depth, space, profile }, (y, count) => {
      const out = strip(count);
      made.write(y, count, out);
      witness.see(out, y, count);
      return out;
    });
    const back = (await codec.decode(bytes, { name, limitMegapixels: Number.MAX_SAFE_INTEGER })).raster;
    const fits = back.width === raster.width && back.height === raster.height && back.channels === channels;
    hold(png, witness, fits ? witnessOf(back, channels, channels === 4) : null, depth);
    return bytes;
  };
  const before = await rows(readyRecipe(EMPTY_RECIPE, null));
  const after = edits ? await rows(ready) : before;
  progress(job, 'Reading the file back', WRITTEN);
  const bytes = await writeLayered(codec, { before, after, edits, name }, options.signal);
  return written(job, bytes, depth, space.name, null);
}

interface Meant {
  readonly channels: 3 | 4;
  readonly depth: 8 | 16;
  readonly space: ColourSpace;
  readonly profile: EncodeOptions['profile'];
  readonly inks?: boolean;
}

async function encode(
  job: Job,
  { profile, ...meant }: Meant,
  rows: (y: number, count: number) => Uint8Array | Uint16Array,
): Promise<Uint8Array> {
  const { codec, plan, settings, source, options } = job;
  const { format, quality } = settings;
  if (format === 'openraster') throw new RangeError('layers are written one by one');
  const { signal } = options;
  const lossless = format === 'webp' && quality === 100;
  const bytes = await codec.encode(
    { width: plan.width, height: plan.height, ...meant, rows: (y, n) => rows(y, n) as Uint8Array },
    {
      format,
      ...(format === 'jpeg' || format === 'webp' ? { quality: lossless ? 'lossless' : quality } : {}),
      ...(profile === undefined ? {} : { profile }),
      metadata: metadataFor(source.metadata, settings.metadata),
      ...(plan.pixelsPerInch && { pixelsPerInch: plan.pixelsPerInch }),
      ...(signal && { signal }),
      onProgress: (share) =>
        progress(job, share < 0.5 ? 'Making the pixels' : 'Writing the file', WRITTEN * share),
    },
  );
  signal?.throwIfAborted();
  return bytes;
}

/** Throws when what was read back is not what was meant. */
function hold({ settings, name }: Job, meant: Witness, back: Witness | null, depth: 8 | 16): void {
  const { format, quality } = settings;
  const exact = format === 'png' || format === 'tiff' || (format === 'webp' && quality === 100);
  if (back && (exact ? meant.isSame(back) : meant.isNear(back, depth, quality))) return;
  throw new FileTrouble(
    'write',
    `“${name}” did not read back as it was meant.`,
    'Nothing was kept. Try another format, and please tell the makers of Halflight.',
  );
}

function written(job: Job, bytes: Uint8Array, depth: 8 | 16, space: string, ink: InkUse | null): Written {
  progress(job, 'Done', 1);
  const { name, plan, settings } = job;
  const notes = [...plan.notes];
  if (settings.depth === 16 && depth === 8)
    notes.push(`${settings.format === 'jpeg' ? 'JPEG' : 'WebP'} holds 8 bits a channel; 16 were asked for.`);
  return {
    name,
    bytes,
    width: plan.width,
    height: plan.height,
    depth,
    space,
    pixelsPerInch: plan.pixelsPerInch,
    ink,
    notes,
  };
}

/** One strip for all of them: the codec copies what it is given. */
function stripOf(row: number, depth: 8 | 16): (count: number) => Uint8Array | Uint16Array {
  let strip = depth === 8 ? new Uint8Array(0) : new Uint16Array(0);
  return (count) => {
    const length = row * count;
    if (strip.length < length) strip = depth === 8 ? new Uint8Array(length) : new Uint16Array(length);
    return strip.subarray(0, length);
  };
}

function progress({ options }: Job, doing: string, share: number): void {
  options.onProgress?.({ doing, share });
}

function withoutEnding(name: string): string {
  return name.replace(/(?<=.)\.[a-z0-9]{1,5}$/i, '');
}
