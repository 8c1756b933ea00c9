/** The eight bytes that a PNG begins with (PNG, W3C Recommendation, third edition, section 5.2). */
export const SIGNATURE = Uint8Array.of(137, 80, 78, 71, 13, 10, 26, 10);

const TABLE = Uint32Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let k = 0; k < 8; k++) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c;
});

/** CRC-32 of annex D, over pieces: begin with −1, end by inverting. */
export function crcOver(crc: number, bytes: Uint8Array): number {
  let c = crc;
  for (let i = 0; i < bytes.length; i++) c = TABLE[(c ^ bytes[i]) & 255] ^ (c >>> 8);
  return c;
}

/** A chunk of its pieces: length, type, data, check sum. */
export function chunk(type: string, ...pieces: readonly Uint8Array[]): Blob {
  const length = pieces.reduce((sum, piece) => sum + piece.length, 0);
  const head = new Uint8Array(8);
  new DataView(head.buffer).setUint32(0, length);
  for (let k = 0; k < 4; k++) head[4 + k] = type.charCodeAt(k);
  let crc = crcOver(-1, head.subarray(4));
  for (const piece of pieces) crc = crcOver(crc, piece);
  const end = new Uint8Array(4);
  new DataView(end.buffer).setUint32(0, ~crc >>> 0);
  return new Blob([head, ...(pieces as readonly Uint8Array<ArrayBuffer>[]), end]);
}

/** The predictor of filter type 4 (section 9.4). */
export function paeth(a: number, b: number, c: number): number {
  const p = b - c;
  const q = a - c;
  const pa = p < 0 ? -p : p;
  const pb = q < 0 ? -q : q;
  const s = p + q;
  const pc = s < 0 ? -s : s;
  return pa <= pb && pa <= pc ? a : pb <= pc ? b : c;
}
