import type { Image, Library, Scope } from './library.ts';

/** Above this the file is handed over piece by piece: slower, but it is not copied whole a second time. */
const PIECEWISE_BYTES = 96e6;

export type Strictness = 'warning' | 'error';

/**
 * Opens the header of a picture; its pixels are read when they are asked for, from top to bottom unless
 * `random`. Throws the library's exception.
 */
export function openImage(
  vips: Library,
  scope: Scope,
  bytes: Uint8Array,
  options: { readonly strict: Strictness; readonly random?: boolean },
): Image {
  const load = { access: options.random ? 'random' : 'sequential', fail_on: options.strict };
  if (bytes.length < PIECEWISE_BYTES) return scope.keep(vips.Image.newFromBuffer(bytes, '', load));
  const source = scope.keep(new vips.SourceCustom());
  let position = 0;
  source.onRead = (length) => {
    const piece = bytes.subarray(position, position + Number(length));
    position += piece.length;
    return piece;
  };
  source.onSeek = (offset, whence) => {
    position = Number(offset) + (whence === 1 ? position : whence === 2 ? bytes.length : 0);
    return position;
  };
  return scope.keep(vips.Image.newFromSource(source, '', load));
}

/** A block of metadata as the file has it; null when there is none. Copied out of the library. */
export function blob(image: Image, field: string): Uint8Array | null {
  return image.getTypeof(field) === 0 ? null : image.getBlob(field).slice();
}

/** A number of the image's metadata. */
export function numberField(image: Image, field: string, otherwise: number): number {
  return image.getTypeof(field) === 0 ? otherwise : image.getInt(field);
}
