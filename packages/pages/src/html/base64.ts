const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
const CHUNK = 3 * 2 ** 13;

/** Bytes in Base64 (RFC 4648, section 4): neither Node's nor the browser's own way is in both. */
export function base64(bytes: Uint8Array): string {
  const chunks: string[] = [];
  for (let from = 0; from < bytes.length; from += CHUNK)
    chunks.push(encode(bytes.subarray(from, from + CHUNK)));
  return chunks.join('');
}

function encode(bytes: Uint8Array): string {
  let text = '';
  for (let i = 0; i < bytes.length; i += 3) {
    const [a, b, c] = [bytes[i], bytes[i + 1], bytes[i + 2]];
    text += LETTERS[a >> 2] + LETTERS[((a & 3) << 4) | ((b ?? 0) >> 4)];
    text += b === undefined ? '=' : LETTERS[((b & 15) << 2) | ((c ?? 0) >> 6)];
    text += c === undefined ? '=' : LETTERS[c & 63];
  }
  return text;
}

/** A file as an address that carries it. */
export const dataAddress = (bytes: Uint8Array, mediaType: string): string =>
  `data:${mediaType};base64,${base64(bytes)}`;
