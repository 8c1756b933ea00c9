import { type ColourSpace, type ReadyRecipe, rowEditor } from '@halflight/engine';
import {
  type Codec,
  type Decoded,
  type EncodeOptions,
  FileTrouble,
  openWitness,
  type RasterRows,
  type Witness,
} from '@halflight/files';
import type { Progress } from '../../../picture/desk.ts';
import type { Writing } from '../../../picture/edit-desk.ts';

/** What is known of the file that the picture came from. */
export type Source = Pick<Decoded, 'facts' | 'raster' | 'format' | 'profile' | 'metadata'>;

/** Share of the work that is done when the file is written but not yet read back. */
const WRITTEN = 0.8;
const LOSSLESS: readonly EncodeOptions['format'][] = ['png', 'tiff'];

/** PNGs of more bytes than this, raw, are written and read back in pieces that nobody holds. */
const LARGE_BYTES = 24e6;

/**
 * The edited picture as a file: the kernel makes row after row while they are written, so that nobody holds the
 * picture twice; then the file is read back and held against what was meant.
 *
 * @throws FileTrouble when it can't be written or does not read back as it was meant
 */
export async function writeEdited(
  codec: Codec,
  source: Source,
  ready: ReadyRecipe,
  space: ColourSpace,
  { format, depth: wanted, space: spaceName, metadata }: Writing,
  progress: (p: Progress) => void,
  signal: AbortSignal,
): Promise<Uint8Array | Blob> {
  const { raster } = source;
  const { width, height, channels } = raster;
  const depth = LOSSLESS.includes(format) ? wanted : 8;
  const edit = rowEditor(ready, raster, { space, depth });
  const witness = openWitness(width, height, channels, {
    alpha: channels === 4,
    white: format === 'jpeg' ? 255 : null,
  });
  // One strip for all of them: the codec copies what it is given.
  let strip = depth === 8 ? new Uint8Array(0) : new Uint16Array(0);
  const rows = (y: number, count: number): Uint8Array | Uint16Array => {
    const length = count * width * channels;
    if (strip.length < length) strip = depth === 8 ? new Uint8Array(length) : new Uint16Array(length);
    const out = strip.subarray(0, length);
    edit(y, y + count, out);
    witness.see(out, y, count);
    return out;
  };
  // The picture's own profile travels unless another space was asked for or its pixels had to be converted.
  const keeps = spaceName === 'own' && source.profile !== null && source.facts.profile === raster.space.name;
  const profile = spaceName === 'own' ? (keeps ? source.profile : null) : spaceName;
  const made: RasterRows = {
    width,
    height,
    channels,
    depth,
    space,
    atOnce: true,
    rows: (y, count) => rows(y, count) as Uint8Array,
  };
  const beside = {
    ...(profile !== null && { profile }),
    ...(metadata && { metadata: source.metadata }),
    signal,
  };
  // PNG has no place for IPTC of its own; the library makes one.
  const large = width * height * channels * (depth / 8) > LARGE_BYTES;
  if (format === 'png' && large && !(metadata && source.metadata.iptc)) {
    const { readPng, writePng } = await import('@halflight/files/png');
    const onProgress = (share: number): void =>
      progress({ doing: 'Editing and writing', share: WRITTEN * share });
    const file = await writePng(made, { ...beside, onProgress });
    let seen: Witness | null = null;
    const size = await readPng(
      file,
      (data, y, count, { channels: own }) => {
        seen ??= openWitness(width, height, own);
        seen.see(data, y, count);
      },
      {
        signal,
        onProgress: (share) =>
          progress({ doing: 'Reading the file back', share: WRITTEN + (1 - WRITTEN) * share }),
      },
    );
    if (
      size.width !== width ||
      size.height !== height ||
      size.depth !== depth ||
      !seen ||
      !witness.isSame(seen)
    )
      throw notAsMeant();
    return file;
  }
  const bytes = await codec.encode(made, {
    format,
    ...beside,
    onProgress: (share) =>
      progress({ doing: share < 0.5 ? 'Editing the pixels' : 'Writing the file', share: WRITTEN * share }),
  });
  signal.throwIfAborted();
  progress({ doing: 'Reading the file back', share: WRITTEN });
  // Seen row by row: a large picture is not held a second time.
  let seen: Witness | null = null;
  const back = await codec.decode(bytes, {
    name: source.facts.name,
    onRows(data, y, count) {
      // A format without transparency comes back with three channels.
      const planes = data.length === 4 * count * width ? 4 : 3;
      seen ??= openWitness(width, height, planes, { alpha: planes === 4 });
      seen.see(data, y, count);
    },
    limitMegapixels: Number.MAX_SAFE_INTEGER,
    signal,
    onProgress: (share) =>
      progress({ doing: 'Reading the file back', share: WRITTEN + (1 - WRITTEN) * share }),
  });
  const { raster: read } = back;
  const size = read.width === width && read.height === height && read.depth === depth;
  const same = (other: Witness): boolean =>
    LOSSLESS.includes(format) ? witness.isSame(other) : witness.isNear(other, depth);
  if (!size || !seen || !same(seen)) throw notAsMeant();
  return bytes;
}

const notAsMeant = (): FileTrouble =>
  new FileTrouble(
    'write',
    'The edited picture did not read back as it was meant.',
    'Nothing was kept. Try another format, and please tell the makers of Halflight.',
  );
