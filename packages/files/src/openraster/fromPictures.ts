import { pictureFormat } from '../sniff.ts';
import { FileTrouble } from '../trouble.ts';
import { modeOf } from './modes.ts';
import type { OpenRaster } from './open.ts';
import { pngSize } from './size.ts';
import type { StoredLayer } from './stack.ts';

/** A PNG that stands for one layer, and how it meets what lies below. */
export interface LayerPicture {
  readonly name: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** A name of OpenRaster's `composite-op`, with or without its prefix; normal unless told. */
  readonly mode?: string | undefined;
  /** 0…1; 1 unless told. */
  readonly opacity?: number | undefined;
  readonly visible?: boolean;
}

const AGAIN = 'Save every layer as a PNG of the whole canvas.';

/**
 * PNGs of one size as a layered picture, lowest first, as if they had been saved together.
 *
 * @param flat the PNG of all of them together as the painting program shows it, if there is one
 * @throws FileTrouble when one is no PNG, has another size than the first, or a mode or opacity is none
 */
export function stackOfPictures(
  name: string,
  pictures: readonly LayerPicture[],
  flat: Uint8Array<ArrayBuffer> | null = null,
  limitMegapixels = 100,
): OpenRaster {
  const sizes = pictures.map(({ name: one, bytes }) => sizeOf(one, bytes));
  const [size] = sizes;
  if (!size)
    throw new FileTrouble('format', 'There is no picture to take as a layer.', 'Choose at least one PNG.');
  if (size.width * size.height > limitMegapixels * 1e6)
    throw new FileTrouble(
      'format',
      `“${pictures[0].name}” is ${size.width} × ${size.height} pixels large, and the limit is ${limitMegapixels} megapixels.`,
      'Give smaller pictures, or raise the limit.',
    );
  const used = new Map<string, number>();
  const bytesOf = new Map<string, Uint8Array<ArrayBuffer>>();
  const nodes = pictures.map((picture, i): StoredLayer => {
    if (sizes[i].width !== size.width || sizes[i].height !== size.height)
      throw new FileTrouble(
        'format',
        `“${picture.name}” is ${sizes[i].width} × ${sizes[i].height} pixels large and “${pictures[0].name}” ${size.width} × ${size.height}: layers given as pictures have one size.`,
        AGAIN,
      );
    const { mode = 'src-over', opacity = 1, visible = true } = picture;
    const meets = modeOf(mode);
    if (!meets)
      throw new FileTrouble(
        'option',
        `“${mode}” is no mode of “${picture.name}”.`,
        'Use a name such as multiply, screen, overlay or soft-light.',
      );
    if (!(opacity >= 0 && opacity <= 1))
      throw new FileTrouble(
        'option',
        `The opacity of “${picture.name}” is not between 0 and 1.`,
        'Use 0.5 for half.',
      );
    const number = (used.get(picture.name) ?? 0) + 1;
    used.set(picture.name, number);
    const src = `data/${i}.png`;
    bytesOf.set(src, picture.bytes);
    return {
      ...meets,
      kind: 'layer',
      path: `${picture.name}${number > 1 ? ` #${number}` : ''}`,
      name: picture.name,
      visible,
      opacity,
      attributes: {
        name: picture.name,
        'composite-op': mode.startsWith('svg:') ? mode : `svg:${mode}`,
        opacity: String(opacity),
        ...(visible ? {} : { visibility: 'hidden' }),
      },
      x: 0,
      y: 0,
      src,
    };
  });
  return {
    ...size,
    name,
    attributes: {},
    root: {},
    nodes,
    notes: [],
    layer: async ({ src }) => bytesOf.get(src)!,
    merged: async () => flat,
  };
}

function sizeOf(name: string, bytes: Uint8Array): { width: number; height: number } {
  const size = pictureFormat(bytes, name) === 'png' ? pngSize(bytes) : null;
  if (!size) throw new FileTrouble('format', `“${name}” is no PNG and can’t be taken as a layer.`, AGAIN);
  if (size.width < 1 || size.height < 1)
    throw new FileTrouble('damaged', `“${name}” says that it is ${size.width} × ${size.height}.`, AGAIN);
  return size;
}
