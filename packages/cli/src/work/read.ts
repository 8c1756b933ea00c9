import { createHash } from 'node:crypto';
import { basename } from 'node:path';
import {
  type Answer,
  type Baseline,
  type Census,
  type ColourSpace,
  checkLine,
  type ExaminedReading,
  examine,
  type Finding,
  type Intent,
  leftOutOf,
  type PictureFacts,
  readingInput,
  reduceView,
  type Views,
} from '@halflight/engine';
import type { Codec, PictureFormat, Version } from '@halflight/files';
import type { NewThing } from '@halflight/files/dossier';
import { encodeSmall, readBytes, showView } from '@halflight/files/node';
import { measure } from '../check/measure.ts';
import { plain } from '../check/readings.ts';

/** A picture file that was decoded for a work. */
export interface TakenPicture {
  readonly hash: string;
  readonly bytes: Uint8Array;
  readonly format: PictureFormat;
  readonly facts: PictureFacts;
  readonly space: ColourSpace;
  readonly census: Census;
  readonly views: Views;
  readonly notes: readonly string[];
}

/** A picture that comes into a work, read. */
export interface ReadPicture {
  readonly sheet: Omit<Version, 'number'>;
  /** The file itself, its readings and a small picture of it. */
  readonly things: readonly NewThing[];
  readonly readings: readonly ExaminedReading[];
  /** Open findings, the weightiest first. */
  readonly findings: readonly Finding[];
}

export const MEDIA_TYPES: Readonly<Record<PictureFormat, string>> = {
  png: 'image/png',
  jpeg: 'image/jpeg',
  webp: 'image/webp',
  tiff: 'image/tiff',
  avif: 'image/avif',
  gif: 'image/gif',
};

/** Long side of the small picture that stands for a version. */
const SMALL = 320;

/**
 * Decodes a picture file.
 *
 * @throws FileTrouble
 */
export async function takePicture(
  path: string,
  codec: Codec,
  limitMegapixels: number,
): Promise<TakenPicture> {
  const name = basename(path);
  const bytes = await readBytes(path, name);
  const { raster, facts, format, notes } = await codec.decode(bytes, { name, limitMegapixels });
  const hash = createHash('sha256').update(bytes).digest('hex');
  return { hash, bytes, format, facts, space: raster.space, ...measure(raster), notes };
}

/** Reads a picture against what was decided and answered, and makes everything that a work keeps of it. */
export async function readForWork(
  { hash, bytes, format, facts, space, census, views }: TakenPicture,
  intent: Intent,
  baseline: Baseline | null,
  answers: readonly Answer[],
): Promise<ReadPicture> {
  const leftOut = leftOutOf(answers, views.close);
  const input = readingInput({ picture: facts, census, views, intent, baseline, leftOut });
  const { readings, findings } = examine(input, answers);
  const line = checkLine({ picture: facts, readings: readings.map(plain), findings }, space);
  const mediaType = MEDIA_TYPES[format];
  const picture: NewThing = { hash, bytes: bytes.length, mediaType, open: () => bytes };
  const seen = thingOf(new TextEncoder().encode(line), 'application/json');
  const small = thingOf(await encodeSmall(showView(reduceView(views.close, SMALL))), 'image/webp');
  return {
    sheet: {
      ...facts,
      hash,
      bytes: bytes.length,
      mediaType,
      added: new Date().toISOString(),
      readings: seen.hash,
      small: small.hash,
    },
    things: [picture, seen, small],
    readings,
    findings,
  };
}

function thingOf(bytes: Uint8Array, mediaType: string): NewThing {
  const hash = createHash('sha256').update(bytes).digest('hex');
  return { hash, bytes: bytes.length, mediaType, open: () => bytes };
}
