import { FileTrouble } from '@halflight/files';
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
        // Both are asked for every input, one after the other as in the product, and each has to give a whole picture
        // or words.
        const refusals: unknown[] = [];
        for (const codec of codecs) {
          try {
            const { raster } = await codec.decode(bytes, { name: 'ferry.png', limitMegapixels: 24 });
            const { width, height, channels, data, depth } = raster;
            expectThat(data.length === width * height * channels && data.length > 0, 'a picture by half');
            expectThat((depth === 8) === data instanceof Uint8Array, 'a depth that its pixels have not');
          } catch (error) {
            if (!(error instanceof FileTrouble)) throw error;
            refusals.push(error);
          }
        }
        if (refusals.length > 0) throw refusals[0];
      }),
  };
}
