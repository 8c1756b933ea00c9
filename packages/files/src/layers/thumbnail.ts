import { makeCloseView, type Raster, reduceView, SRGB } from '@halflight/engine';
import { showView } from '../shown.ts';
import type { Codec } from '../types.ts';

/** Longest side of a thumbnail, by the OpenRaster file layout specification. */
const THUMBNAIL = 256;

/** The small picture that a layered file carries, as PNG in sRGB. */
export async function thumbnail(codec: Codec, composite: Raster): Promise<Uint8Array<ArrayBuffer>> {
  const shown = showView(reduceView(makeCloseView(composite), THUMBNAIL));
  return new Uint8Array(
    await codec.encode({ ...shown, depth: 8, space: SRGB }, { format: 'png', profile: 'srgb' }),
  );
}
