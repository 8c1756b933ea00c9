/** Big-endian view of the same bytes. */
export function viewOf(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}

/** Bytes as Latin-1 text. */
export function ascii(bytes: Uint8Array, at: number, length: number): string {
  let out = '';
  for (let i = at; i < Math.min(at + length, bytes.length); i++) out += String.fromCharCode(bytes[i]);
  return out;
}
