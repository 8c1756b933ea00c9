import { ascii, viewOf } from './container/bytes.ts';
import type { PictureFormat } from './types.ts';

/** A file that is read where it lies, piece by piece and at once: nobody has to hold it whole. */
export interface Pieces {
  readonly length: number;
  /** Bytes from `at` on, `count` of them or up to the end. May throw what the place throws that it lies in. */
  read(at: number, count: number): Uint8Array;
}

/** So much of a file tells its kind, and what its words are where it is none. */
const HEAD = 64 * 1024;
/** Formats without compression, or so large that it counts; the others are small and read whole. */
const IN_PIECES: readonly PictureFormat[] = ['png', 'tiff'];

/** The beginning of a file. */
export function headOf(file: Uint8Array | Pieces): Uint8Array {
  return file instanceof Uint8Array ? file : file.read(0, HEAD);
}

/** All bytes of a file. */
export function wholeOf(file: Uint8Array | Pieces): Uint8Array {
  return file instanceof Uint8Array ? file : file.read(0, file.length);
}

/** The file as its format is best decoded: in pieces where that spares memory, else whole. */
export function asDecoded(file: Uint8Array | Pieces, format: PictureFormat): Uint8Array | Pieces {
  return IN_PIECES.includes(format) ? file : wholeOf(file);
}

/**
 * The part of a file that `readHints` looks at: of a PNG what stands before its pixels, of a TIFF its header and first
 * directory, joined; of others all.
 */
export function hintBytes(file: Uint8Array | Pieces, format: PictureFormat): Uint8Array {
  if (file instanceof Uint8Array || !IN_PIECES.includes(format)) return wholeOf(file);
  return format === 'png' ? beforePixels(file) : firstDirectory(file);
}

function beforePixels(file: Pieces): Uint8Array {
  let at = 8;
  while (at + 12 <= file.length) {
    const head = file.read(at, 8);
    if (ascii(head, 4, 4) === 'IDAT') break;
    at += viewOf(head).getUint32(0) + 12;
  }
  return file.read(0, Math.min(at, file.length));
}

function firstDirectory(file: Pieces): Uint8Array {
  const head = file.read(0, 8).slice();
  if (head.length < 8) return head;
  const little = ascii(head, 0, 2) === 'II';
  const at = viewOf(head).getUint32(4, little);
  const count = file.read(at, 2);
  if (count.length < 2) return head;
  const directory = file.read(at, 2 + 12 * viewOf(count).getUint16(0, little));
  const joined = new Uint8Array(head.length + directory.length);
  joined.set(head);
  viewOf(joined).setUint32(4, head.length, little);
  joined.set(directory, head.length);
  return joined;
}

/** Bytes that are held of a file that is gone through. */
const PIECE = 2 ** 20;

/**
 * Goes through a file in its order. A piece is good until `see` is done with it: its memory is used again, since a
 * worker that does little else collects what it leaves late or never.
 */
export async function eachPiece(file: Blob, see: (piece: Uint8Array<ArrayBuffer>) => unknown): Promise<void> {
  const stream = file.stream() as ReadableStream<Uint8Array<ArrayBuffer>>;
  const next = inOneMemory(stream, file.size) ?? asTheyCome(stream);
  for (let piece = await next(); piece !== null; piece = await next()) await see(piece);
}

type Next = () => Promise<Uint8Array<ArrayBuffer> | null>;

/** Null in browsers whose files can't be read into memory that is given. */
function inOneMemory(stream: ReadableStream<Uint8Array<ArrayBuffer>>, size: number): Next | null {
  let memory = new ArrayBuffer(Math.max(1, Math.min(PIECE, size)));
  try {
    const reader = stream.getReader({ mode: 'byob' });
    return async () => {
      const view = new Uint8Array(memory);
      // Whole pieces where the browser can: what it has at hand is a sixteenth of one.
      const { value } = await reader.read(view, { min: view.length });
      if (value) memory = value.buffer;
      // The last piece may come together with the end.
      return value && value.length > 0 ? value : null;
    };
  } catch {
    return null;
  }
}

function asTheyCome(stream: ReadableStream<Uint8Array<ArrayBuffer>>): Next {
  const reader = stream.getReader();
  return async () => (await reader.read()).value ?? null;
}
