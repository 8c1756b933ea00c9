/**
 * Puts still WebP pictures of one size together as an animated one that goes round for ever.
 *
 * Only the container is written; the pictures' own bytes are taken as they are. Browsers encode single WebP pictures
 * but no animations, and the imaging library needs memory that not every page may share.
 *
 * Source: WebP container specification (RFC 9649, sections 2.3 to 2.7).
 *
 * @param stand how long each picture stands, in milliseconds
 */
export function animatedWebp(
  pictures: readonly Uint8Array[],
  width: number,
  height: number,
  stand: number,
): Uint8Array<ArrayBuffer> {
  const size = [...u24(width - 1), ...u24(height - 1)];
  const frames = pictures.map((picture) => {
    const content = pictureChunks(picture);
    const opaque = [0, 0, 0, 0, 0, 0, ...size, ...u24(Math.round(stand)), DO_NOT_BLEND];
    return chunk('ANMF', join([Uint8Array.from(opaque), content]));
  });
  const hasAlpha = pictures.some((picture) => chunksOf(picture).some(({ name }) => name === 'ALPH'));
  const flags = ANIMATION | (hasAlpha ? ALPHA : 0);
  const body = join([
    ascii('WEBP'),
    chunk('VP8X', Uint8Array.from([flags, 0, 0, 0, ...size])),
    // Ground: opaque white, which viewers may ignore; loops: 0, for ever.
    chunk('ANIM', Uint8Array.from([255, 255, 255, 255, 0, 0])),
    ...frames,
  ]);
  return chunk('RIFF', body);
}

const ANIMATION = 0x02;
const ALPHA = 0x10;
const DO_NOT_BLEND = 0x02;

/** The chunks of a still picture that hold its pixels. */
function pictureChunks(picture: Uint8Array): Uint8Array<ArrayBuffer> {
  const kept = chunksOf(picture).filter(({ name }) => ['ALPH', 'VP8 ', 'VP8L'].includes(name));
  if (!kept.some(({ name }) => name !== 'ALPH'))
    throw new RangeError('There is no picture in this WebP file.');
  return join(kept.map(({ name, content }) => chunk(name, content)));
}

function chunksOf(picture: Uint8Array): { name: string; content: Uint8Array }[] {
  const view = new DataView(picture.buffer, picture.byteOffset, picture.byteLength);
  if (nameAt(picture, 0) !== 'RIFF' || nameAt(picture, 8) !== 'WEBP')
    throw new RangeError('This is no WebP file.');
  const chunks: { name: string; content: Uint8Array }[] = [];
  for (let at = 12; at + 8 <= picture.length; ) {
    const length = view.getUint32(at + 4, true);
    chunks.push({ name: nameAt(picture, at), content: picture.subarray(at + 8, at + 8 + length) });
    at += 8 + length + (length % 2);
  }
  return chunks;
}

const nameAt = (bytes: Uint8Array, at: number): string => String.fromCharCode(...bytes.subarray(at, at + 4));
const ascii = (text: string): Uint8Array => Uint8Array.from(text, (char) => char.charCodeAt(0));
const u24 = (value: number): number[] => [value & 255, (value >> 8) & 255, (value >> 16) & 255];

/** A chunk: name, length, content, and a byte that makes it even. */
function chunk(name: string, content: Uint8Array): Uint8Array<ArrayBuffer> {
  const out = new Uint8Array(8 + content.length + (content.length % 2));
  out.set(ascii(name));
  new DataView(out.buffer).setUint32(4, content.length, true);
  out.set(content, 8);
  return out;
}

function join(parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const out = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}
