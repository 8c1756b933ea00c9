import {
  type ColourSpace,
  type DELIVERY_SPACES,
  makeCloseView,
  type Raster,
  type Recipe,
  readyRecipe,
  rowEditor,
} from '@halflight/engine';
import { type Codec, type Decoded, type EncodeOptions, FileTrouble } from '@halflight/files';

export interface EditTarget {
  readonly space: ColourSpace;
  readonly spaceName: keyof typeof DELIVERY_SPACES | null;
  readonly depth: 8 | 16;
  readonly format: EncodeOptions['format'];
  readonly plain: boolean;
}

/** Largest mean difference, as a share of the full range, that a lossy format may make. */
const LOSSY = 0.02;

/**
 * The edited picture as the bytes of a file: rows are made while they are written, and the file is read back.
 *
 * @throws FileTrouble when what was read back is not what was meant
 */
export async function edit(
  codec: Codec,
  decoded: Decoded,
  recipe: Recipe,
  target: EditTarget,
): Promise<Uint8Array> {
  const { raster } = decoded;
  const needsView = recipe.steps.some((step) => step.area);
  const ready = readyRecipe(recipe, needsView ? makeCloseView(raster) : null);
  const depth =
    target.format === 'jpeg' || target.format === 'webp' || target.format === 'avif' ? 8 : target.depth;
  const editor = rowEditor(ready, raster, { space: target.space, depth });
  const rows = (y: number, count: number): Uint8Array | Uint16Array => {
    const length = count * raster.width * raster.channels;
    const out = depth === 8 ? new Uint8Array(length) : new Uint16Array(length);
    editor(y, y + count, out);
    return out;
  };
  const lossless = target.format === 'png' || target.format === 'tiff';
  // The picture's own profile travels unless another space was asked for or its pixels had to be converted.
  const keeps =
    target.spaceName === null && decoded.profile !== null && decoded.facts.profile === raster.space.name;
  const profile = target.spaceName ?? (keeps ? decoded.profile! : undefined);
  const bytes = await codec.encode(
    {
      width: raster.width,
      height: raster.height,
      channels: raster.channels,
      depth,
      space: target.space,
      rows: (y, n) => rows(y, n) as Uint8Array,
    },
    {
      format: target.format,
      ...(profile === undefined ? {} : { profile }),
      ...(target.plain ? {} : { metadata: decoded.metadata }),
    },
  );
  const back = (
    await codec.decode(bytes, { name: decoded.facts.name, limitMegapixels: Number.MAX_SAFE_INTEGER })
  ).raster;
  if (!matches(back, raster, rows, depth, lossless ? 0 : LOSSY))
    throw new FileTrouble(
      'write',
      `The edited “${decoded.facts.name}” did not read back as it was meant.`,
      'Nothing was written. Try another format, and please tell the makers of Halflight.',
    );
  return bytes;
}

/** Holds the picture that was read back against the edit, strip by strip. */
function matches(
  back: Raster,
  raster: Raster,
  rows: (y: number, count: number) => ArrayLike<number>,
  depth: 8 | 16,
  tolerance: number,
): boolean {
  if (back.width !== raster.width || back.height !== raster.height || back.depth !== depth) return false;
  const strip = 64;
  let off = 0;
  for (let y = 0; y < raster.height; y += strip) {
    const count = Math.min(strip, raster.height - y);
    const meant = rows(y, count);
    const start = y * raster.width;
    for (let p = 0; p < count * raster.width; p++) {
      const alpha = raster.channels === 4 ? meant[4 * p + 3] : 1;
      // Colour under full transparency is nobody's; a lossy file may drop it.
      if (alpha === 0 && tolerance > 0) continue;
      for (let c = 0; c < 3; c++)
        off += Math.abs(back.data[back.channels * (start + p) + c] - meant[raster.channels * p + c]);
    }
    if (tolerance === 0 && off > 0) return false;
  }
  return off <= tolerance * (2 ** depth - 1) * 3 * raster.width * raster.height;
}
