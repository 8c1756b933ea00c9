import sharp from 'sharp';
import { expect, test } from 'vitest';
import { animatedWebp } from '../../src/picture/animatedWebp.ts';

const COLOURS = [
  [32, 48, 80],
  [192, 128, 64],
  [240, 224, 208],
] as const;

/** Still pictures with a profile and a lossless one among them: what browsers may give. */
const stills = (): Promise<Uint8Array>[] =>
  COLOURS.map(([r, g, b], k) => {
    const image = sharp({ create: { width: 61, height: 40, channels: 3, background: { r, g, b } } });
    return (k === 1 ? image.withIccProfile('srgb') : image)
      .webp(k === 2 ? { lossless: true } : {})
      .toBuffer();
  });

test('still pictures become the frames of one animation, as libwebp reads it (through sharp)', async () => {
  const bytes = animatedWebp(await Promise.all(stills()), 61, 40, 1000);
  const { width, pageHeight, pages, delay, loop } = await sharp(bytes, { animated: true }).metadata();
  expect([width, pageHeight, pages, delay, loop]).toEqual([61, 40, 3, [1000, 1000, 1000], 0]);
  for (const [page, colour] of COLOURS.entries()) {
    const { channels } = await sharp(bytes, { page }).stats();
    for (const c of [0, 1, 2]) expect(Math.abs(channels[c].mean - colour[c])).toBeLessThan(2);
  }
});

/**
 * A still whose alpha chunk, of odd length, lies before its pixels. The WebP container specification (RIFF File
 * Format): a chunk of odd size is followed by one byte of padding that its size does not count.
 */
async function oddBeforePixels(): Promise<Uint8Array> {
  const { data, info } = await sharp({
    create: { width: 61, height: 40, channels: 4, background: { r: 192, g: 128, b: 64, alpha: 0.5 } },
  })
    .webp()
    .toBuffer({ resolveWithObject: true });
  const at = data.indexOf('ALPH');
  const size = data.readUInt32LE(at + 4);
  expect(at).toBeGreaterThan(0);
  expect(data.indexOf('VP8 ')).toBeGreaterThan(at);
  if (size % 2 === 1) return data;
  // Alpha without compression has one byte of header and one byte per pixel: 61 × 40 is even, so the chunk is odd.
  const payload = Buffer.alloc(1 + info.width * info.height, 128);
  payload[0] = 0;
  const head = Buffer.alloc(8);
  head.write('ALPH');
  head.writeUInt32LE(payload.length, 4);
  const odd = Buffer.concat([
    data.subarray(0, at),
    head,
    payload,
    Buffer.alloc(1),
    data.subarray(at + 8 + size),
  ]);
  odd.writeUInt32LE(odd.length - 8, 4);
  return odd;
}

test('a chunk of odd length before the pixels keeps its padding', async () => {
  const still = await oddBeforePixels();
  const bytes = animatedWebp([still, still], 61, 40, 1000);
  expect((await sharp(bytes, { animated: true }).metadata()).pages).toBe(2);
  for (const page of [0, 1]) {
    const { channels } = await sharp(bytes, { page }).stats();
    for (const [c, value] of [192, 128, 64, 128].entries())
      expect(Math.abs(channels[c].mean - value)).toBeLessThan(2);
  }
});

test('what is no WebP picture is refused', () => {
  const png = Uint8Array.from([137, 80, 78, 71, 13, 10, 26, 10, 0, 0, 0, 13]);
  expect(() => animatedWebp([png], 8, 8, 1000)).toThrow(/no WebP/);
});
