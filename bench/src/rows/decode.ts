import { openCodec, readPicture } from '@halflight/files/node';
import sharp from 'sharp';
import type { Figure } from '../figure.ts';
import { noisyPicture } from '../pictures.ts';
import { race } from '../time.ts';

/** Decoding with profile and orientation looked at, against raw pixels from the same library. */
export async function decodeRows(): Promise<Figure[]> {
  const path = await noisyPicture();
  sharp.cache(false);
  const native = await openCodec();
  const wasm = await openCodec({ fast: false });
  const best = await race(5, {
    raw: () => sharp(path).raw().toBuffer(),
    native: () => readPicture(path, { codec: native }),
    wasm: () => readPicture(path, { codec: wasm }),
  });
  native.close();
  wasm.close();
  const reference = { what: 'sharp, raw pixels', value: best.raw };
  return [
    { what: 'decoding, PNG, 24 MP', value: best.native, unit: 'ms', reference },
    { what: 'the same by WebAssembly', value: best.wasm, unit: 'ms', reference },
  ];
}
