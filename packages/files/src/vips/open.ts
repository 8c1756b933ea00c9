import type { Pieces } from '../pieces.ts';
import type { Image, Library, Scope } from './library.ts';

/** Above this the file is handed over piece by piece: slower, but it is not copied whole a second time. */
const PIECEWISE_BYTES = 96e6;

export type Strictness = 'warning' | 'error';

/** An opened picture. */
export interface Opened {
  readonly image: Image;
  /** Throws what went wrong while the file was read in pieces: the library only knows that it ended. */
  check(): void;
}

/**
 * Opens the header of a picture; its pixels are read when they are asked for, from top to bottom unless
 * `random`. Throws the library's exception.
 */
export function openImage(
  vips: Library,
  scope: Scope,
  file: Uint8Array | Pieces,
  options: { readonly strict: Strictness; readonly random?: boolean },
): Opened {
  const load = { access: options.random ? 'random' : 'sequential', fail_on: options.strict };
  if (file instanceof Uint8Array && file.length < PIECEWISE_BYTES)
    return { image: scope.keep(vips.Image.newFromBuffer(file, '', load)), check() {} };
  const source = scope.keep(new vips.SourceCustom());
  let position = 0;
  let failure: unknown = null;
  source.onRead = (length) => {
    let piece = new Uint8Array(0);
    try {
      if (failure === null) piece = take(file, position, Number(length));
    } catch (error) {
      failure = error;
    }
    position += piece.length;
    return piece;
  };
  source.onSeek = (offset, whence) => {
    position = Number(offset) + (whence === 1 ? position : whence === 2 ? file.length : 0);
    return position;
  };
  const check = (): void => {
    if (failure !== null) throw failure;
  };
  try {
    return { image: scope.keep(vips.Image.newFromSource(source, '', load)), check };
  } catch (error) {
    check();
    throw error;
  }
}

function take(file: Uint8Array | Pieces, at: number, count: number): Uint8Array<ArrayBuffer> {
  const piece = file instanceof Uint8Array ? file.subarray(at, at + count) : file.read(at, count);
  return piece as Uint8Array<ArrayBuffer>;
}

/** A block of metadata as the file has it; null when there is none. Copied out of the library. */
export function blob(image: Image, field: string): Uint8Array | null {
  return image.getTypeof(field) === 0 ? null : image.getBlob(field).slice();
}

/** A number of the image's metadata. */
export function numberField(image: Image, field: string, otherwise: number): number {
  return image.getTypeof(field) === 0 ? otherwise : image.getInt(field);
}
