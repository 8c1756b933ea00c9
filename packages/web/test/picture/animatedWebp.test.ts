import sharp from 'sharp';
import { expect, test } from 'vitest';
import { animatedWebp } from '../../src/picture/animatedWebp.ts';

const COLOURS = [
  [32, 48, 80],
  [192, 128, 64],
  [240, 224, 208],
] as const;

/** Still pictures with odd lengths, a profile and an alpha channel among them: what browsers may give. */
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

test('what is no WebP picture is refused', () => {
  const png = Uint8Array.from([137, 80, 78, 71, 13, 10, 26, 10, 0, 0, 0, 13]);
  expect(() => animatedWebp([png], 8, 8, 1000)).toThrow(/no WebP/);
});
