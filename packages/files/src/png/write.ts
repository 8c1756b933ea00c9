import { DELIVERY_SPACES } from '@halflight/engine';
import { breathe } from '../breathe.ts';
import { upright } from '../container/exif.ts';
import { writeProfile } from '../icc/write.ts';
import type { EncodeOptions, RasterRows } from '../types.ts';
import { chunk, paeth, SIGNATURE } from './chunks.ts';

/** Rows that are made at once. */
const ROWS = 32;
/** Compressed bytes that are handed on at once: the browser keeps such a piece outside the memory of the page. */
const PIECE = 2 ** 20;

/**
 * Writes a PNG while its rows are made, so that neither the picture nor the file is ever held: what is compressed
 * (by the platform's own deflate) leaves in pieces. The imaging library's memory would keep the size of the file for
 * good. Filters are chosen row by row by the least sum of absolute differences (section 12.7 of the Recommendation).
 *
 * IPTC has no place in PNG and is left out: ask the codec where that matters. Rejects with the signal's reason.
 */
export async function writePng(picture: RasterRows, options: Omit<EncodeOptions, 'format'>): Promise<Blob> {
  const { width, height, channels, depth } = picture;
  const { signal, onProgress } = options;
  const parts: Blob[] = [new Blob([SIGNATURE]), header(width, height, channels, depth)];
  parts.push(...(await beside(picture, options)));

  const deflate = new CompressionStream('deflate');
  const writer = deflate.writable.getWriter();
  const gathered = gather(deflate.readable, (pieces) => parts.push(chunk('IDAT', ...pieces)));
  // A failure is met where rows are written; it must not be reported a second time as nobody's.
  gathered.catch(() => {});
  try {
    const filter = rowFilter(width, channels, depth);
    for (let y = 0; y < height; y += ROWS) {
      signal?.throwIfAborted();
      const count = Math.min(ROWS, height - y);
      const filtered = filter(await picture.rows(y, count), count);
      await writer.ready;
      // Not waited for: the next rows are made while these are compressed.
      writer.write(filtered).catch(() => {});
      onProgress?.((y + count) / height);
      // The stream's promises alone let no message in: a wish to stop would wait for the whole file.
      await breathe();
    }
    await writer.close();
  } catch (error) {
    writer.abort(error).catch(() => {});
    throw error;
  }
  await gathered;
  parts.push(chunk('IEND'));
  return new Blob(parts, { type: 'image/png' });
}

function header(width: number, height: number, channels: 3 | 4, depth: 8 | 16): Blob {
  const data = new Uint8Array(13);
  const view = new DataView(data.buffer);
  view.setUint32(0, width);
  view.setUint32(4, height);
  data[8] = depth;
  data[9] = channels === 4 ? 6 : 2;
  return chunk('IHDR', data);
}

/** Profile and metadata, before the pixels. */
async function beside(
  picture: RasterRows,
  { profile, metadata = {} }: Omit<EncodeOptions, 'format'>,
): Promise<Blob[]> {
  const out: Blob[] = [];
  if (profile !== 'none') {
    const icc =
      profile instanceof Uint8Array
        ? profile
        : writeProfile(profile ? DELIVERY_SPACES[profile] : picture.space);
    out.push(chunk('iCCP', latin('ICC profile\0\0'), await deflated(icc)));
  }
  if (metadata.exif) out.push(chunk('eXIf', upright(metadata.exif)));
  // Keyword, not compressed, no language, no translation.
  if (metadata.xmp) out.push(chunk('iTXt', latin('XML:com.adobe.xmp\0\0\0\0\0'), metadata.xmp));
  return out;
}

const latin = (text: string): Uint8Array => Uint8Array.from(text, (c) => c.charCodeAt(0));

async function deflated(bytes: Uint8Array): Promise<Uint8Array> {
  const stream = new Blob([bytes as Uint8Array<ArrayBuffer>])
    .stream()
    .pipeThrough(new CompressionStream('deflate'));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

async function gather(
  stream: ReadableStream<Uint8Array>,
  take: (pieces: readonly Uint8Array[]) => void,
): Promise<void> {
  const reader = stream.getReader();
  let pieces: Uint8Array[] = [];
  let size = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (value) {
      pieces.push(value);
      size += value.length;
    }
    if (size >= PIECE || (done && size > 0)) {
      take(pieces);
      pieces = [];
      size = 0;
    }
    if (done) return;
  }
}

/** Filters rows one after the other: each as its filter type and its bytes. */
function rowFilter(
  width: number,
  channels: 3 | 4,
  depth: 8 | 16,
): (codes: Uint8Array | Uint16Array, count: number) => Uint8Array<ArrayBuffer> {
  const step = channels * (depth / 8);
  const length = width * step;
  // A pixel of zeros stands before every row.
  let above = new Uint8Array(step + length);
  let row = new Uint8Array(step + length);
  const ways = [1, 2, 4].map((type) => ({ type, bytes: new Uint8Array(length), sum: 0 }));
  const [sub, up, near] = ways;
  return (codes, count) => {
    const out = new Uint8Array(count * (1 + length));
    for (let y = 0, at = 0; y < count; y++, at += 1 + length) {
      spread(codes, y * width * channels, width * channels, row, step);
      let [s, u, n] = [0, 0, 0];
      for (let i = 0, j = step; i < length; i++, j++) {
        const x = row[j];
        const a = row[j - step];
        const b = above[j];
        const ds = (x - a) & 255;
        const du = (x - b) & 255;
        const dn = (x - paeth(a, b, above[j - step])) & 255;
        sub.bytes[i] = ds;
        up.bytes[i] = du;
        near.bytes[i] = dn;
        s += ds < 128 ? ds : 256 - ds;
        u += du < 128 ? du : 256 - du;
        n += dn < 128 ? dn : 256 - dn;
      }
      const best = n <= s && n <= u ? near : u <= s ? up : sub;
      out[at] = best.type;
      out.set(best.bytes, at + 1);
      [above, row] = [row, above];
    }
    return out;
  };
}

/** Code values as bytes, 16 bit with the higher byte first. */
function spread(
  codes: Uint8Array | Uint16Array,
  from: number,
  count: number,
  row: Uint8Array,
  at: number,
): void {
  if (codes instanceof Uint8Array) {
    row.set(codes.subarray(from, from + count), at);
    return;
  }
  for (let i = 0, j = at; i < count; i++, j += 2) {
    row[j] = codes[from + i] >> 8;
    row[j + 1] = codes[from + i] & 255;
  }
}
