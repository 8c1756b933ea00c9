import { openCodec } from '@halflight/files/node';
import { FIXTURES } from '../../../packages/files/test/made/fixtures.ts';
import { changeBytes, mendPng } from '../bytes.ts';
import { expectThat, type Kind, refusing } from '../kind.ts';

/** Every kind of picture that can be read, by both builds of the decoder. */
export async function pictureKind(): Promise<Kind> {
  const codecs = [await openCodec(), await openCodec({ fast: false })];
  const samples = await Promise.all(FIXTURES.map(({ bytes }) => bytes()));
  return {
    make(chance) {
      const bytes = changeBytes(chance.one(samples), chance, chance.one(samples));
      return chance.maybe(0.6) && bytes[1] === 0x50 ? mendPng(bytes) : bytes;
    },
    feed: (bytes) =>
      refusing(async () => {
        // Both are asked for every input, and each has to give a whole picture or words.
        const outcomes = await Promise.allSettled(
          codecs.map((codec) => codec.decode(bytes, { name: 'ferry.png', limitMegapixels: 24 })),
        );
        for (const outcome of outcomes) {
          if (outcome.status === 'rejected') continue;
          const { width, height, channels, data, depth } = outcome.value.raster;
          expectThat(data.length === width * height * channels && data.length > 0, 'a picture by half');
          expectThat((depth === 8) === data instanceof Uint8Array, 'a depth that its pixels have not');
        }
        for (const outcome of outcomes) if (outcome.status === 'rejected') throw outcome.reason;
      }),
  };
}
