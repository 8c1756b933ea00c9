import { deflateSync } from 'node:zlib';
import { afterAll, describe, expect, test } from 'vitest';
import { gather } from '../../src/layers/index.ts';
import { openCodec } from '../../src/node/index.ts';
import { bytesSource, openOpenRaster } from '../../src/openraster/index.ts';
import { type RawEntry, rawZip } from '../dossier/rawZip.ts';
import { makePng, RGBA } from '../made/png.ts';

const codec = await openCodec();
afterAll(() => codec.close());

/** A small PNG with some bytes of its header changed; its check sums no longer fit where they are not mended. */
function withSize(png: Uint8Array, width: number, height: number): Uint8Array {
  const out = Buffer.from(png);
  out.writeUInt32BE(width, 16);
  out.writeUInt32BE(height, 20);
  return out;
}
const dot = makePng({ width: 2, height: 1, bits: 8, type: RGBA, samples: [9, 9, 9, 255, 9, 9, 9, 255] });
/** A gigabyte of nothing, packed to one megabyte. */
const packed = (bytes: number): Uint8Array => deflateSync(new Uint8Array(bytes));
const profiled = makePng({
  width: 2,
  height: 1,
  bits: 8,
  type: RGBA,
  samples: [9, 9, 9, 255, 9, 9, 9, 255],
  chunks: [['iCCP', Buffer.concat([Buffer.from('x\0\0', 'latin1'), packed(2 ** 28)])]],
});

async function read(canvas: string, png: Uint8Array, more: Partial<RawEntry> = {}) {
  const stack = `<image w="${canvas.split('x')[0]}" h="${canvas.split('x')[1]}"><stack><layer name="fog" src="data/a.png"/></stack></image>`;
  const zip = rawZip([
    { name: 'mimetype', data: Buffer.from('image/openraster') },
    { name: 'stack.xml', data: Buffer.from(stack) },
    { name: 'data/a.png', data: png, ...more },
  ]);
  const file = await openOpenRaster(bytesSource(zip, 'ferry.ora'), 100);
  return gather(file, { codec, limitMegapixels: 100 });
}

describe('pixels that would fill the memory are refused in a sentence, and little is taken for it', () => {
  test.each([
    ['beyond the limit', '6x4', withSize(dot, 60_000, 60_000), /“fog” is 60000 × 60000 pixels large/],
    ['beyond the limit, on a large canvas', '9000x9000', withSize(dot, 20_000, 20_000), /limit is 100/],
    ['within it, far beyond the canvas', '6x4', withSize(dot, 9000, 9000), /on a canvas of 6 × 4/],
    [
      'a header that is all there is',
      '600x400',
      withSize(dot, 4000, 4000),
      /ferry\.ora: fog\.png” is cut off or damaged: its \d+ bytes/,
    ],
    ['2³¹ wide and empty', '6x4', withSize(dot, 2 ** 31 - 1, 1), /pixels large/],
  ])('%s', async (_, canvas, png, words) => {
    const before = process.resourceUsage().maxRSS;
    await expect(read(canvas, png)).rejects.toMatchObject({
      name: 'FileTrouble',
      message: expect.stringMatching(words),
    });
    // Kilobytes; a canvas of 81 megapixels is never made, nor are 3600.
    expect(process.resourceUsage().maxRSS - before).toBeLessThan(400_000);
  });

  test('an entry of the ZIP that unpacks to more than it says', async () => {
    await expect(read('6x4', new Uint8Array(2 ** 26), { deflate: true, size: 100 })).rejects.toMatchObject({
      name: 'FileTrouble',
    });
  });

  test('a profile that unpacks to a quarter of a gigabyte is not unpacked', async () => {
    const before = process.resourceUsage().maxRSS;
    const { composite } = await read('2x1', profiled);
    expect((await composite()).width).toBe(2);
    expect(process.resourceUsage().maxRSS - before).toBeLessThan(200_000);
  });

  test('groups within groups over a large canvas', async () => {
    const depth = 20;
    const stack = `<image w="9000" h="9000"><stack>${'<stack isolation="isolate">'.repeat(depth)}<layer name="fog" src="data/a.png"/>${'</stack>'.repeat(depth)}</stack></image>`;
    const layers = (text: string) =>
      rawZip([
        { name: 'mimetype', data: Buffer.from('image/openraster') },
        { name: 'stack.xml', data: Buffer.from(text) },
        { name: 'data/a.png', data: dot },
      ]);
    const filled = stack.replaceAll('</stack>', '<layer name="dot" src="data/a.png"/></stack>');
    const file = await openOpenRaster(bytesSource(layers(filled), 'ferry.ora'), 100);
    await expect(gather(file, { codec, limitMegapixels: 100, along: true })).rejects.toThrow(
      /groups lie too deep in each other for 9000 × 9000 pixels/,
    );
  });
});
