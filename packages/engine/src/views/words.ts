// Only a machine that stores the low byte first reads pixels from 32-bit words in their order.
const LITTLE = new Uint8Array(new Uint32Array([1]).buffer)[0] === 1;

/**
 * The same bytes as 32-bit words, low byte first, for loops that read four values at once; null when that
 * cannot be (16-bit data, odd start, high byte first). A rest of up to three bytes is left out.
 */
export function pixelWords(data: Uint8Array | Uint16Array): Uint32Array | null {
  if (!LITTLE || data.BYTES_PER_ELEMENT !== 1 || data.byteOffset % 4 !== 0) return null;
  return new Uint32Array(data.buffer, data.byteOffset, data.length >> 2);
}
