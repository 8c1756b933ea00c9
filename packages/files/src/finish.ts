import type { ColourSpace, Raster } from '@halflight/engine';
import type { ColourPlan } from './colour.ts';
import type { Hints } from './container/hints.ts';
import { endingNote } from './sniff.ts';
import type { Decoded, Metadata, PictureFormat } from './types.ts';

/** Pixels as they come from whichever decoder. */
export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly channels: 3 | 4;
  readonly depth: 8 | 16;
  readonly data: Uint8Array | Uint16Array;
}

/** What every decoder hands over to be put together in one way. */
export interface Parts {
  readonly name: string;
  readonly format: PictureFormat;
  readonly hints: Hints;
  readonly pixels: Pixels;
  readonly space: ColourSpace;
  readonly plan: ColourPlan;
  readonly icc: Uint8Array | null;
  readonly metadata: Metadata;
  /** Frames or pages in the file. */
  readonly frames: number;
  readonly notes?: readonly string[];
}

/** Puts raster, facts and notes together. */
export function finish(parts: Parts): Decoded {
  const { name, format, pixels, plan } = parts;
  const notes: string[] = [];
  const ending = endingNote(name, format);
  if (ending) notes.push(ending);
  if (parts.frames > 1 || parts.hints.animated)
    notes.push(
      format === 'tiff'
        ? `The file has ${parts.frames} pages; only the first one was read.`
        : 'The picture is animated; only its first frame was read.',
    );
  notes.push(...plan.notes, ...(parts.notes ?? []));
  const raster: Raster = { ...pixels, space: parts.space };
  return {
    raster,
    facts: {
      name,
      width: pixels.width,
      height: pixels.height,
      depth: pixels.depth,
      profile: plan.profile,
      tagged: plan.tagged,
    },
    format,
    profile: parts.icc,
    metadata: parts.metadata,
    notes,
  };
}
