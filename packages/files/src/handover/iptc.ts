import type { MetadataSettings } from '@halflight/engine';
import { ascii, viewOf } from '../container/bytes.ts';

type Texts = Pick<MetadataSettings, 'title' | 'author' | 'rights'>;

/** A dataset of the block: record, number and what it holds. */
interface Dataset {
  readonly record: number;
  readonly number: number;
  readonly data: Uint8Array;
}

// IPTC-NAA Information Interchange Model 4.2: 1:90 coded character set (ISO 2022), 2:00 record version, 2:05 object
// name, 2:80 by-line, 2:116 copyright notice, with the most bytes that each may have.
const CHARACTER_SET = { record: 1, number: 90, data: Uint8Array.of(0x1b, 0x25, 0x47) }; // UTF-8
const VERSION = { record: 2, number: 0, data: Uint8Array.of(0, 4) };
const FIELDS = [
  { key: 'title', number: 5, most: 64 },
  { key: 'author', number: 80, most: 32 },
  { key: 'rights', number: 116, most: 128 },
] as const;

/**
 * The older block of IPTC, for programs that read no XMP: title, author and rights, cut at whole letters where the
 * model allows no more bytes, and of the file's own block the rest where that is kept.
 *
 * @param own the block as the file has it, or null
 * @returns null when there is nothing to say
 */
export function writeIptc(texts: Texts, own: Uint8Array | null): Uint8Array | null {
  const said = FIELDS.filter(({ key }) => texts[key] !== '');
  const kept = (own ? (datasetsOf(own) ?? []) : []).filter(
    ({ record, number }) =>
      !(record === 1 && number === 90) &&
      !(record === 2 && (number === 0 || said.some((field) => field.number === number))),
  );
  if (said.length === 0 && kept.length === 0) return null;
  const utf8 = own !== null && isUtf8(own);
  const ours = said.map(({ key, number, most }) => ({ record: 2, number, data: cut(texts[key], most) }));
  const others = kept.map((set) => (set.record === 2 && !utf8 ? { ...set, data: asUtf8(set.data) } : set));
  return joined(
    [CHARACTER_SET, VERSION, ...ours, ...others].sort((a, b) => a.record - b.record).map(bytesOf),
  );
}

/** How the segment and each resource in it begin, by which readers know them; Latin-1 letters. */
const SEGMENT = Uint8Array.of(
  ...[0x50, 0x68, 0x6f, 0x74, 0x6f, 0x73, 0x68, 0x6f, 0x70, 0x20, 0x33, 0x2e, 0x30, 0],
);
const RESOURCE = Uint8Array.of(0x38, 0x42, 0x49, 0x4d);

/** A block as JPEG carries it: resource 0x0404 in an APP13 segment (IPTC Photo Metadata, "IIM in JPEG files"). */
export function inResource(block: Uint8Array): Uint8Array {
  const head = Uint8Array.of(...SEGMENT, ...RESOURCE);
  const room = block.length + (block.length % 2);
  const out = new Uint8Array(head.length + 8 + room);
  out.set(head);
  const view = viewOf(out);
  view.setUint16(head.length, 0x0404);
  view.setUint32(head.length + 4, block.length);
  out.set(block, head.length + 8);
  return out;
}

/** A block as TIFF carries it (tag 33723): whole words of four bytes. */
export function inWords(block: Uint8Array): Uint8Array {
  const out = new Uint8Array(4 * Math.ceil(block.length / 4));
  out.set(block);
  return out;
}

/** Reads a block in either form; null when it is none. */
export function datasetsOf(bytes: Uint8Array): Dataset[] | null {
  try {
    const block = outOfResource(bytes);
    const view = viewOf(block);
    const sets: Dataset[] = [];
    for (let at = 0; at + 5 <= block.length && block[at] === 0x1c; ) {
      const length = view.getUint16(at + 3);
      // Lengths of more than 15 bits are written differently; nothing of ours or of a caption is that long.
      if (length > 0x7fff) return null;
      const from = at + 5;
      if (from + length > block.length) return null;
      sets.push({ record: block[at + 1], number: block[at + 2], data: block.slice(from, from + length) });
      at = from + length;
    }
    return sets.length > 0 ? sets : null;
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/** The block inside the resources of an APP13 segment; anything else as it is. */
function outOfResource(bytes: Uint8Array): Uint8Array {
  if (!startsWith(bytes, 0, SEGMENT)) return bytes;
  const view = viewOf(bytes);
  for (let at = SEGMENT.length; at + 12 <= bytes.length && startsWith(bytes, at, RESOURCE); ) {
    const name = bytes[at + 6] + 1;
    const size = at + 6 + name + (name % 2);
    const length = view.getUint32(size);
    if (view.getUint16(at + 4) === 0x0404) return bytes.subarray(size + 4, size + 4 + length);
    at = size + 4 + length + (length % 2);
  }
  return new Uint8Array(0);
}

const startsWith = (bytes: Uint8Array, at: number, head: Uint8Array): boolean =>
  head.every((byte, k) => bytes[at + k] === byte);

function isUtf8(bytes: Uint8Array): boolean {
  const set = datasetsOf(bytes)?.find(({ record, number }) => record === 1 && number === 90);
  return set !== undefined && CHARACTER_SET.data.every((byte, k) => byte === set.data[k]);
}

/** Text of an undeclared character set: as it is where it is UTF-8, else read as Latin-1, which most old files mean. */
function asUtf8(data: Uint8Array): Uint8Array {
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(data);
    return data;
  } catch {
    return new TextEncoder().encode(ascii(data, 0, data.length));
  }
}

function cut(text: string, most: number): Uint8Array {
  const encoder = new TextEncoder();
  let out = '';
  for (const letter of text) {
    if (encoder.encode(out + letter).length > most) break;
    out += letter;
  }
  return encoder.encode(out);
}

function bytesOf({ record, number, data }: Dataset): Uint8Array {
  return Uint8Array.of(0x1c, record, number, data.length >> 8, data.length & 255, ...data);
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const out = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}
