import type { RasterRows } from '../types.ts';
import type { Image, Library, Scope } from './library.ts';

/** Pictures of more bytes than this are made while the library writes them; smaller ones can be stopped sooner. */
const LARGE_BYTES = 96e6;
/** Rows that are made at once. */
const ROWS = 32;

/** True for a picture that is to be streamed. Its format knows three channels only. */
export function isStreamed(
  { width, height, channels, atOnce }: RasterRows,
  depth: 8 | 10 | 12 | 16,
): boolean {
  return atOnce === true && channels === 3 && width * height * channels * (depth === 8 ? 1 : 2) > LARGE_BYTES;
}

/** An image whose rows are asked for while it is written. */
export interface Streamed {
  readonly image: Image;
  /** Throws what went wrong while rows were made: the library only knows that they ended. */
  check(): void;
}

/**
 * The picture as a stream that the library reads while it writes, so that it never holds the picture: in memory it
 * would stay until the page is closed, for the library's memory never shrinks. The stream is a portable pixmap
 * (Netpbm, ppm(5)): a line of text, then the codes, 16 bit with the higher byte first.
 *
 * @param rows codes at the depth of the file, from top to bottom
 */
export function streamed(
  vips: Library,
  scope: Scope,
  { width, height }: { readonly width: number; readonly height: number },
  depth: 8 | 10 | 12 | 16,
  rows: (y: number, count: number) => Uint8Array | Uint16Array,
): Streamed {
  let piece = new TextEncoder().encode(`P6\n${width} ${height}\n${depth === 8 ? 255 : 65535}\n`);
  let at = 0;
  let y = 0;
  let failure: unknown = null;
  const source = scope.keep(new vips.SourceCustom());
  source.onRead = (length) => {
    if (at === piece.length && y < height && failure === null) {
      const count = Math.min(ROWS, height - y);
      try {
        piece = bytesOf(rows(y, count));
      } catch (error) {
        failure = error;
        piece = new Uint8Array(0);
      }
      at = 0;
      y += count;
    }
    const part = piece.subarray(at, at + Number(length));
    at += part.length;
    return part;
  };
  // Only we feed this reader: files are told apart before any of them reaches the library.
  vips.operationBlock('VipsForeignLoadPpm', false);
  try {
    const image = scope.keep(vips.Image.ppmloadSource(source, { access: 'sequential' }));
    return {
      image,
      check() {
        if (failure !== null) throw failure;
      },
    };
  } finally {
    vips.operationBlock('VipsForeignLoadPpm', true);
  }
}

function bytesOf(codes: Uint8Array | Uint16Array): Uint8Array<ArrayBuffer> {
  if (codes instanceof Uint8Array) return new Uint8Array(codes);
  const out = new Uint8Array(2 * codes.length);
  for (let i = 0; i < codes.length; i++) {
    out[2 * i] = codes[i] >> 8;
    out[2 * i + 1] = codes[i] & 255;
  }
  return out;
}
