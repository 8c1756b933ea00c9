import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { cameToEnd } from '../../src/container/cameToEnd.ts';
import { packed } from '../dossier/samples.ts';

/** A picture with something in every part of it, so that every part has bytes. */
const picture = sharp(
  Buffer.from(Array.from({ length: 3 * 120 * 80 }, (_, k) => (k * 7919 + (k >> 5) * 31) & 255)),
  { raw: { width: 120, height: 80, channels: 3 } },
);
const KINDS: [string, () => Promise<Uint8Array>][] = [
  ['PNG', () => picture.clone().png().toBuffer()],
  ['JPEG', () => picture.clone().jpeg().toBuffer()],
  ['JPEG, progressive', () => picture.clone().jpeg({ progressive: true }).toBuffer()],
  ['WebP', () => picture.clone().webp({ lossless: true }).toBuffer()],
  ['TIFF', () => picture.clone().tiff({ compression: 'lzw' }).toBuffer()],
  ['AVIF', () => picture.clone().avif({ effort: 0 }).toBuffer()],
  ['ZIP', () => packed()],
];

// The files are those of libvips (sharp) and zip.js; each is cut where a slow writer might stand.
describe.each(KINDS)('%s', (_, make) => {
  test('has come to its end when it is whole, and at no place before', async () => {
    const bytes = await make();
    expect(cameToEnd(bytes)).toBe(true);
    for (let k = 0; k < 60; k++) {
      const length = Math.floor((bytes.length * k) / 60);
      expect([length, cameToEnd(bytes.subarray(0, length))]).toEqual([length, false]);
    }
    expect(cameToEnd(bytes.subarray(0, bytes.length - 3))).toBe(false);
  });
});

test('what no kind is known of is left to whoever reads it', () => {
  expect(cameToEnd(new TextEncoder().encode('Buy more violet, and less of the rest.'))).toBe(true);
});
