import sharp from 'sharp';
import { expect, test } from 'vitest';
import { stackOfPictures } from '../../src/openraster/index.ts';

const picture = async (width: number, format: 'png' | 'jpeg' = 'png'): Promise<Uint8Array<ArrayBuffer>> =>
  new Uint8Array(
    await sharp({ create: { width, height: 4, channels: 3, background: '#456' } })
      .toFormat(format)
      .toBuffer(),
  );
const small = await picture(6);

test('pictures are layers in their order; their bytes and the flat one stay as they are', async () => {
  const flat = await picture(7);
  const file = stackOfPictures(
    'two',
    [
      { name: 'a', bytes: small },
      { name: 'a', bytes: small, mode: 'multiply', opacity: 0.5 },
    ],
    flat,
  );
  expect(file).toMatchObject({ width: 6, height: 4 });
  expect(file.nodes.map(({ path, blend, opacity }) => [path, blend, opacity])).toEqual([
    ['a', 'normal', 1],
    ['a #2', 'multiply', 0.5],
  ]);
  expect(file.nodes[1].attributes).toEqual({ name: 'a', 'composite-op': 'svg:multiply', opacity: '0.5' });
  expect([await file.layer(file.nodes[1] as never), await file.merged()]).toEqual([small, flat]);
});

test.each([
  ['no picture', [], /no picture to take/],
  [
    'another size',
    [
      { name: 'a', bytes: small },
      { name: 'b', bytes: await picture(7) },
    ],
    /“b” is 7 × 4 pixels large and “a” 6 × 4/,
  ],
  ['no PNG', [{ name: 'a', bytes: await picture(6, 'jpeg') }], /“a” is no PNG/],
  ['words', [{ name: 'a', bytes: new TextEncoder().encode('these are words') }], /“a”/],
  ['an unknown mode', [{ name: 'a', bytes: small, mode: 'glaze' }], /“glaze” is no mode of “a”/],
  ['no opacity', [{ name: 'a', bytes: small, opacity: Number('half') }], /opacity of “a”/],
])('%s is refused in a sentence', (_, pictures, words) => {
  expect(() => stackOfPictures('x', pictures)).toThrow(words);
});

test('a picture that says it is huge is refused before it is decoded', () => {
  const bytes = small.slice();
  new DataView(bytes.buffer).setUint32(16, 2 ** 31 - 1);
  expect(() => stackOfPictures('x', [{ name: 'a', bytes }])).toThrow(/limit is 100 megapixels/);
});
