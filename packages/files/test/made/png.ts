import { crc32, deflateSync } from 'node:zlib';

/** Colour types of PNG (third edition, table 9). */
export const GREY = 0;
export const RGB = 2;
export const PALETTE = 3;
export const GREY_ALPHA = 4;
export const RGBA = 6;

export interface PngPlan {
  readonly width: number;
  readonly height: number;
  readonly bits: 1 | 2 | 4 | 8 | 16;
  readonly type: number;
  /** Samples row by row, each 0…2^bits − 1. */
  readonly samples: readonly number[];
  /** Chunks between header and pixels: PLTE, tRNS, gAMA … */
  readonly chunks?: readonly (readonly [string, Uint8Array])[];
}

const SAMPLES: Record<number, number> = {
  [GREY]: 1,
  [RGB]: 3,
  [PALETTE]: 1,
  [GREY_ALPHA]: 2,
  [RGBA]: 4,
};

/** Writes a PNG by the specification, so that what a decoder must give is known without any decoder. */
export function makePng({ width, height, bits, type, samples, chunks = [] }: PngPlan): Uint8Array {
  const perRow = width * SAMPLES[type];
  const bytesPerRow = Math.ceil((perRow * bits) / 8);
  const rows = new Uint8Array(height * (1 + bytesPerRow)); // each row starts with filter type 0
  for (let y = 0; y < height; y++)
    for (let i = 0; i < perRow; i++) {
      const value = samples[y * perRow + i];
      const bit = i * bits;
      const at = y * (1 + bytesPerRow) + 1 + (bit >> 3);
      if (bits === 16) {
        rows[at] = value >> 8;
        rows[at + 1] = value & 255;
      } else rows[at] |= value << (8 - bits - (bit & 7));
    }
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.set([bits, type, 0, 0, 0], 8);
  return Buffer.concat([
    Buffer.from('\x89PNG\r\n\x1a\n', 'latin1'),
    chunk('IHDR', header),
    ...chunks.map(([name, data]) => chunk(name, data)),
    chunk('IDAT', deflateSync(rows)),
    chunk('IEND', new Uint8Array(0)),
  ]);
}

function chunk(name: string, data: Uint8Array): Buffer {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  return Buffer.concat([uint32(data.length), body, uint32(crc(body))]);
}

/** An iCCP chunk's data. */
export function iccChunk(profile: Uint8Array): [string, Uint8Array] {
  return ['iCCP', Buffer.concat([Buffer.from('x\0\0', 'latin1'), deflateSync(profile)])];
}

export function uint32(...values: number[]): Buffer {
  const out = Buffer.alloc(4 * values.length);
  for (const [i, v] of values.entries()) out.writeUInt32BE(v >>> 0, 4 * i);
  return out;
}

function crc(bytes: Uint8Array): number {
  return crc32(bytes);
}
