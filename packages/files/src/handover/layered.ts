import { makeCloseView, type Raster, reduceView, SRGB } from '@halflight/engine';
import { bytesSource } from '../dossier/source.ts';
import { openOpenRaster } from '../openraster/open.ts';
import { type LayerDraft, writeOpenRaster } from '../openraster/write.ts';
import { FileTrouble } from '../trouble.ts';
import type { Codec } from '../types.ts';
import { codeOf } from './lab.ts';

/** What a layered file is made of; PNGs. */
export interface LayeredParts {
  readonly before: Uint8Array;
  readonly after: Uint8Array;
  /** False when there is no edit, so that one layer is enough. */
  readonly edits: boolean;
  readonly name: string;
}

/** Longest side of the small picture that the format asks for. */
const SMALL = 256;

/**
 * The bytes of an OpenRaster file with the picture as painted below and with its edit above, read back layer by layer.
 *
 * @throws FileTrouble when it does not read back as it was meant
 */
export async function writeLayered(
  codec: Codec,
  { before, after, edits, name }: LayeredParts,
  signal?: AbortSignal,
): Promise<Uint8Array> {
  const limitMegapixels = Number.MAX_SAFE_INTEGER;
  const whole = await codec.decode(after, { name, limitMegapixels });
  const layer = (title: string, png: Uint8Array): LayerDraft => ({
    attributes: { name: title },
    x: 0,
    y: 0,
    png: new Uint8Array(png),
  });
  const { width, height } = whole.raster;
  const children = [layer('As painted', before)];
  if (edits) children.push(layer('With the edit', after));
  signal?.throwIfAborted();
  const bytes = await writeOpenRaster({
    width,
    height,
    root: { attributes: {}, children },
    merged: new Uint8Array(after),
    thumbnail: new Uint8Array(await smallPng(codec, whole.raster)),
  });
  const back = await openOpenRaster(bytesSource(bytes, name), limitMegapixels);
  const meant = children.map(({ png }) => png);
  const found = await Promise.all(
    back.nodes.map(async (node) => (node.kind === 'layer' ? new Uint8Array(await back.layer(node)) : null)),
  );
  const same =
    back.width === width &&
    back.height === height &&
    found.length === meant.length &&
    meant.every((png) => found.some((other) => other !== null && equal(png, other)));
  if (!same)
    throw new FileTrouble(
      'write',
      `“${name}” did not read back as it was meant.`,
      'Nothing was kept. Please tell the makers of Halflight.',
    );
  return bytes;
}

async function smallPng(codec: Codec, raster: Raster): Promise<Uint8Array> {
  const { width, height, rgb, alpha } = reduceView(makeCloseView(raster), SMALL);
  const channels = alpha ? 4 : 3;
  const data = new Uint8Array(channels * width * height);
  for (let p = 0; p < width * height; p++) {
    for (let c = 0; c < 3; c++) data[channels * p + c] = codeOf(rgb[3 * p + c]);
    if (alpha) data[channels * p + 3] = Math.round(255 * alpha[p]);
  }
  return codec.encode({ width, height, channels, depth: 8, data, space: SRGB }, { format: 'png' });
}

function equal(a: Uint8Array, b: Uint8Array): boolean {
  return a.length === b.length && a.every((v, i) => v === b[i]);
}
