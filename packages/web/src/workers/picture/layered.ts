import type { Codec, Decoded } from '@halflight/files';
import { blobSource, openOpenRaster } from '@halflight/files/openraster';

/** Megapixels above which a layered picture is refused, as any picture is. */
export const LIMIT = 100;

/**
 * A layered file as the picture that it shows: the one of all layers that the painting program saved in it, or, where
 * that is missing or of another size, its layers put together.
 *
 * @throws FileTrouble
 */
export async function decodeLayered(
  content: Blob,
  name: string,
  codec: Codec,
  tell: (share: number) => void,
): Promise<Decoded> {
  const file = await openOpenRaster(blobSource(content, name), LIMIT);
  const plain = name.replace(/\.ora$/i, '');
  const merged = await file.merged();
  if (merged) {
    const decoded = await codec.decode(merged, { name: plain, onProgress: tell }).catch(() => null);
    if (decoded && decoded.raster.width === file.width && decoded.raster.height === file.height)
      return { ...decoded, facts: { ...decoded.facts, name } };
  }
  const { countLayers, gather } = await import('@halflight/files/layers');
  const count = countLayers(file.nodes);
  let read = 0;
  const { composite, depth, space, profile, notes } = await gather(
    file,
    { codec, limitMegapixels: LIMIT, along: true },
    () => tell(++read / count),
  );
  const { width, height } = file;
  return {
    raster: await composite(),
    facts: { name, width, height, depth, profile: space.name, tagged: profile !== null },
    format: 'png',
    profile,
    metadata: { exif: null, xmp: null, iptc: null },
    notes: ['It holds no picture of all layers together: they were put together here.', ...notes],
  };
}
