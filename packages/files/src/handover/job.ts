import type { ColourSpace, HandoverSettings, Place, ReadyRecipe, SizePlan, View } from '@halflight/engine';
import { FileTrouble } from '../trouble.ts';
import type { Codec, Decoded, EncodeOptions } from '../types.ts';
import { metadataFor } from './metadata.ts';
import type { InkUse } from './proof.ts';
import type { Witness } from './witness.ts';

/** The picture to hand over: what decoding gave. */
export type HandoverSource = Pick<Decoded, 'facts' | 'raster' | 'profile' | 'metadata'>;

export interface HandoverOptions {
  /** Bytes of the profile that the settings name. */
  readonly profile?: Uint8Array;
  /** Its place in a series, from 1. */
  readonly number?: number;
  /** The picture's close view, where it is known already; made when areas need one. */
  readonly close?: View;
  /** What the guide layer of a layered file shows (`repaintPlaces`). */
  readonly places?: readonly Place[];
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
export const WRITTEN = 0.8;

/** One file that is being made. */
export interface Job {
  readonly codec: Codec;
  readonly source: HandoverSource;
  readonly ready: ReadyRecipe;
  readonly edits: boolean;
  readonly plan: SizePlan;
  readonly settings: HandoverSettings;
  readonly options: HandoverOptions;
  readonly name: string;
}

/** What the rows of a file are. */
export interface Meant {
  readonly channels: 3 | 4;
  readonly depth: 8 | 16;
  readonly space: ColourSpace;
  readonly profile: EncodeOptions['profile'];
  readonly inks?: boolean;
}

/** Writes the rows as the file's bytes, with the texts beside them. */
export async function encode(
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
      metadata: metadataFor(source.metadata, settings.metadata, format),
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
export function hold({ settings, name }: Job, meant: Witness, back: Witness | null, depth: 8 | 16): void {
  const { format, quality } = settings;
  const exact = format === 'png' || format === 'tiff' || (format === 'webp' && quality === 100);
  if (back && (exact ? meant.isSame(back) : meant.isNear(back, depth, quality))) return;
  throw new FileTrouble(
    'write',
    `“${name}” did not read back as it was meant.`,
    'Nothing was kept. Try another format, and please tell the makers of Halflight.',
  );
}

/** What is told of a file that was read back. */
export function written(
  job: Job,
  bytes: Uint8Array,
  depth: 8 | 16,
  space: string,
  ink: InkUse | null,
): Written {
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

/** One strip for all rows: the codec copies what it is given. */
export function stripOf(row: number, depth: 8 | 16): (count: number) => Uint8Array | Uint16Array {
  let strip = depth === 8 ? new Uint8Array(0) : new Uint16Array(0);
  return (count) => {
    const length = row * count;
    if (strip.length < length) strip = depth === 8 ? new Uint8Array(length) : new Uint16Array(length);
    return strip.subarray(0, length);
  };
}

export function progress({ options }: Job, doing: string, share: number): void {
  options.onProgress?.({ doing, share });
}
