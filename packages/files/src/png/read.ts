import { FileTrouble } from '../trouble.ts';
import { crcOver, paeth, SIGNATURE } from './chunks.ts';

export interface PngSize {
  readonly width: number;
  readonly height: number;
  readonly channels: 3 | 4;
  readonly depth: 8 | 16;
}

/**
 * Reads back what `writePng` wrote, row by row, so that nobody holds it: RGB or RGBA of 8 or 16 bits, not interlaced,
 * every check sum looked at. Rejects with `FileTrouble` for anything else, and with the signal's reason.
 *
 * @param see rows `y` to `y + count`, interleaved as in `Raster`; their memory is used again
 */
export async function readPng(
  file: Blob,
  see: (rows: Uint8Array | Uint16Array, y: number, count: number, size: PngSize) => void,
  {
    signal,
    onProgress,
  }: { readonly signal?: AbortSignal; readonly onProgress?: (share: number) => void } = {},
): Promise<PngSize> {
  const bytes = source(file, (done) => {
    signal?.throwIfAborted();
    onProgress?.(done);
  });
  const begin = await bytes.take(8);
  if (!SIGNATURE.every((b, k) => b === begin[k])) throw damaged();
  const inflate = new DecompressionStream('deflate');
  const writer = inflate.writable.getWriter();
  let size: PngSize | null = null;
  let rows: Promise<void> | null = null;
  try {
    for (;;) {
      const head = await bytes.take(8);
      const length = new DataView(head.buffer, head.byteOffset).getUint32(0);
      const type = String.fromCharCode(...head.subarray(4));
      let crc = crcOver(-1, head.subarray(4));
      if (type === 'IDAT' && size && !rows) {
        const known = size;
        rows = unfiltered(inflate.readable, known, (data, y, count) => see(data, y, count, known));
        rows.catch(() => {});
      }
      for (let left = length; left > 0; ) {
        const part = type === 'IHDR' ? await bytes.take(left) : await bytes.some(left);
        left -= part.length;
        crc = crcOver(crc, part);
        if (type === 'IHDR') size = sizeOf(part);
        if (type === 'IDAT') {
          await writer.ready;
          writer.write(part).catch(() => {});
        }
      }
      const sum = await bytes.take(4);
      if (new DataView(sum.buffer, sum.byteOffset).getUint32(0) !== ~crc >>> 0) throw damaged();
      if (type === 'IEND') break;
    }
    await writer.close();
    await rows;
  } catch (error) {
    writer.abort(error).catch(() => {});
    signal?.throwIfAborted();
    throw error instanceof FileTrouble ? error : damaged(error);
  }
  if (!size) throw damaged();
  return size;
}

const damaged = (cause?: unknown): FileTrouble =>
  new FileTrouble(
    'damaged',
    'The PNG can’t be read back.',
    'Write it once more, or choose another format.',
    cause === undefined ? undefined : String(cause),
  );

function sizeOf(data: Uint8Array): PngSize {
  const view = new DataView(data.buffer, data.byteOffset);
  const [depth, colour, interlaced] = [data[8], data[9], data[12]];
  if (data.length !== 13 || (depth !== 8 && depth !== 16) || (colour !== 2 && colour !== 6) || interlaced)
    throw damaged();
  return { width: view.getUint32(0), height: view.getUint32(4), channels: colour === 6 ? 4 : 3, depth };
}

/** Bytes of a file in their order, read in pieces. */
function source(file: Blob, tell: (share: number) => void) {
  const reader = file.stream().getReader() as ReadableStreamDefaultReader<Uint8Array<ArrayBuffer>>;
  let piece = new Uint8Array(0);
  let passed = 0;
  const some = async (most: number): Promise<Uint8Array<ArrayBuffer>> => {
    while (piece.length === 0) {
      const { done, value } = await reader.read();
      if (done) throw damaged();
      piece = value;
      passed += value.length;
      tell(passed / file.size);
    }
    const part = piece.subarray(0, most);
    piece = piece.subarray(part.length);
    return part;
  };
  const take = async (count: number): Promise<Uint8Array<ArrayBuffer>> => {
    const out = new Uint8Array(count);
    for (let at = 0; at < count; ) {
      const part = await some(count - at);
      out.set(part, at);
      at += part.length;
    }
    return out;
  };
  return { some, take };
}

async function unfiltered(
  stream: ReadableStream<Uint8Array>,
  { width, height, channels, depth }: PngSize,
  see: (rows: Uint8Array | Uint16Array, y: number, count: number) => void,
): Promise<void> {
  const step = channels * (depth / 8);
  const length = width * step;
  let above = new Uint8Array(step + length);
  let row = new Uint8Array(step + length);
  const codes = depth === 8 ? new Uint8Array(width * channels) : new Uint16Array(width * channels);
  const reader = stream.getReader();
  let [y, at, filter] = [0, -1, 0];
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    for (let i = 0; i < value.length; ) {
      if (y === height) throw damaged();
      if (at < 0) {
        filter = value[i++];
        at = 0;
        continue;
      }
      const count = Math.min(length - at, value.length - i);
      row.set(value.subarray(i, i + count), step + at);
      i += count;
      at += count;
      if (at < length) continue;
      restore(filter, row, above, step);
      join(row, step, codes);
      see(codes, y, 1);
      [above, row] = [row, above];
      y++;
      at = -1;
    }
  }
  if (y !== height) throw damaged();
}

function restore(filter: number, row: Uint8Array, above: Uint8Array, step: number): void {
  if (filter > 4) throw damaged();
  if (filter === 0) return;
  for (let j = step; j < row.length; j++) {
    const a = row[j - step];
    const b = above[j];
    row[j] +=
      filter === 1 ? a : filter === 2 ? b : filter === 3 ? (a + b) >> 1 : paeth(a, b, above[j - step]);
  }
}

function join(row: Uint8Array, from: number, codes: Uint8Array | Uint16Array): void {
  if (codes instanceof Uint8Array) codes.set(row.subarray(from));
  else for (let i = 0, j = from; i < codes.length; i++, j += 2) codes[i] = (row[j] << 8) | row[j + 1];
}
