import { createHash } from 'node:crypto';
import {
  type Baseline,
  type Change,
  changeBetween,
  type ExaminedReading,
  examine,
  type Finding,
  type Intent,
  type PictureFacts,
  readingInput,
  type Views,
} from '@halflight/engine';
import { type Codec, FileTrouble } from '@halflight/files';
import { readBytes } from '@halflight/files/node';
import { measure } from '../check/measure.ts';

/** What a picture is read against. */
export interface WatchWish {
  readonly codec: Codec;
  readonly intent: Intent;
  readonly baseline: Baseline | null;
  readonly limitMegapixels: number;
}

/** A save that was read, with what the next one is compared with. */
export interface Save {
  readonly hash: string;
  readonly facts: PictureFacts;
  readonly notes: readonly string[];
  readonly views: Views;
  readonly readings: readonly ExaminedReading[];
  readonly findings: readonly Finding[];
  /** What changed since the save before; null for the first one, or when nothing of one is seen in the other. */
  readonly change: Change | null;
  readonly before: Save | null;
}

/** How often and how long a file that can't be read to its end yet is waited for, in milliseconds. */
const TRIES = 12;
const PAUSE = 500;

/**
 * Reads a saved picture; null when it shows the same bytes as before.
 *
 * @param superseded true when a newer save has come meanwhile: this one is then given up
 * @throws FileTrouble when it can't be read, also after waiting for a writer that may not be done
 */
export async function readSave(
  path: string,
  name: string,
  before: Save | null,
  wish: WatchWish,
  superseded: () => boolean = () => false,
): Promise<Save | null> {
  for (let attempt = 1; ; attempt++) {
    try {
      return await readNow(path, name, before, wish);
    } catch (error) {
      const half = error instanceof FileTrouble && ['damaged', 'empty', 'missing'].includes(error.kind);
      if (!half || attempt === TRIES) throw error;
      await new Promise((resolve) => setTimeout(resolve, PAUSE));
      if (superseded()) return null;
    }
  }
}

async function readNow(
  path: string,
  name: string,
  before: Save | null,
  wish: WatchWish,
): Promise<Save | null> {
  const bytes = await readBytes(path, name);
  const hash = createHash('sha256').update(bytes).digest('hex');
  if (hash === before?.hash) return null;
  const { limitMegapixels, intent, baseline } = wish;
  const { raster, facts, notes } = await wish.codec.decode(bytes, { name, limitMegapixels });
  const { census, views } = measure(raster);
  const input = readingInput({ picture: facts, census, views, intent, baseline });
  const { readings, findings } = examine(input);
  const change = before && changeBetween(before.views, views);
  // Only the last save is kept: a chain of all of them would fill the memory over a day.
  return {
    hash,
    facts,
    notes,
    views,
    readings,
    findings,
    change,
    before: before && { ...before, before: null },
  };
}
