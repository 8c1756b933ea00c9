import { crc32 } from 'node:zlib';
import type { Chance } from './random.ts';

type Change = (bytes: Buffer, chance: Chance, other: Uint8Array) => Buffer;

/** Lengths and counts that readers trip over. */
const LENGTHS = [
  0,
  1,
  2,
  127,
  128,
  255,
  256,
  32767,
  65535,
  65536,
  2 ** 24,
  2 ** 31 - 1,
  2 ** 31,
  2 ** 32 - 1,
];

const CHANGES: readonly Change[] = [
  function flipBit(bytes, chance) {
    if (bytes.length > 0) bytes[chance.below(bytes.length)] ^= 1 << chance.below(8);
    return bytes;
  },
  function setByte(bytes, chance) {
    if (bytes.length > 0) bytes[chance.below(bytes.length)] = chance.one([0, 1, 127, 128, 254, 255]);
    return bytes;
  },
  function cutOff(bytes, chance) {
    return bytes.subarray(0, chance.below(bytes.length + 1));
  },
  function takeOut(bytes, chance) {
    const from = chance.below(bytes.length + 1);
    return Buffer.concat([bytes.subarray(0, from), bytes.subarray(from + 1 + chance.below(32))]);
  },
  function repeat(bytes, chance) {
    const from = chance.below(bytes.length + 1);
    const piece = bytes.subarray(from, from + 1 + chance.below(64));
    return Buffer.concat([
      bytes.subarray(0, from),
      ...Array(1 + chance.below(8)).fill(piece),
      bytes.subarray(from),
    ]);
  },
  function splice(bytes, chance, other) {
    const from = chance.below(other.length + 1);
    const piece = other.subarray(from, from + 1 + chance.below(other.length));
    const at = chance.below(bytes.length + 1);
    const rest = bytes.subarray(chance.maybe(0.5) ? at : Math.min(bytes.length, at + piece.length));
    return Buffer.concat([bytes.subarray(0, at), piece, rest]);
  },
  function lengthField(bytes, chance) {
    const size = chance.one([2, 4]);
    if (bytes.length < size) return bytes;
    const at = chance.below(bytes.length - size + 1);
    const value = chance.maybe(0.3) ? bytes.length + chance.below(3) - 1 : chance.one(LENGTHS);
    const held = value % 2 ** (8 * size);
    if (chance.maybe(0.5)) bytes.writeUIntBE(held, at, size);
    else bytes.writeUIntLE(held, at, size);
    return bytes;
  },
];

/** Bytes changed in one to four places; the source stays as it is. */
export function changeBytes(source: Uint8Array, chance: Chance, other: Uint8Array = source): Uint8Array {
  let bytes: Buffer = Buffer.from(source);
  for (let times = 1 + chance.below(4); times > 0; times--)
    bytes = Buffer.from(chance.one(CHANGES)(bytes, chance, other));
  return Uint8Array.from(bytes);
}

/** A PNG whose checksums fit again, so that a change reaches what lies behind them. */
export function mendPng(bytes: Uint8Array): Uint8Array {
  const png = Buffer.from(bytes);
  for (let at = 8; at + 12 <= png.length; ) {
    const end = at + 8 + png.readUInt32BE(at);
    if (end + 4 > png.length) break;
    png.writeUInt32BE(crc32(png.subarray(at + 4, end)), end);
    at = end + 4;
  }
  return Uint8Array.from(png);
}
