import { createHash } from 'node:crypto';
import { afterAll, describe, expect, test } from 'vitest';
import { hashOfBlob } from '../src/dossier/hash.ts';
import { openCodec } from '../src/node/codec.ts';
import { eachPiece, type Pieces } from '../src/pieces.ts';
import { digest } from './digest.ts';
import { FIXTURES } from './made/fixtures.ts';
import { seeded } from './made/random.ts';
import { makeFile } from './made/vips.ts';

const wasm = await openCodec({ fast: false });
afterAll(() => wasm.close());

/** Bytes in pieces, with what was asked of them. */
function pieces(bytes: Uint8Array): Pieces & { readonly asked: number[] } {
  const asked: number[] = [];
  return {
    asked,
    length: bytes.length,
    read(at, count) {
      asked.push(count);
      return bytes.subarray(at, at + count);
    },
  };
}

describe('a picture in pieces is the same picture', () => {
  test.each(FIXTURES)('$name', async ({ name, bytes }) => {
    const file = await bytes();
    expect(digest(await wasm.decode(pieces(file), { name }))).toEqual(
      digest(await wasm.decode(file, { name })),
    );
  });

  const next = seeded(7);
  const noise = Uint8Array.from({ length: 900 * 700 * 3 }, () => 256 * next());
  const plan = { width: 900, height: 700, bands: 3, data: noise, interpretation: 'srgb' };
  test.each(['.png', '.tif'])('nobody asks for the whole of a large %s', async (ending) => {
    const file = await makeFile(plan, ending);
    const source = pieces(file);
    const { raster } = await wasm.decode(source, { name: `large${ending}` });
    expect(Buffer.compare(Buffer.from(raster.data.buffer), Buffer.from(noise))).toBe(0);
    expect(Math.max(...source.asked)).toBeLessThan(file.length / 4);
  });

  test('what goes wrong with the place it lies in is said as it is, not as a damaged picture', async () => {
    const file = await makeFile(plan, '.png');
    const gone = new DOMException('It was changed.', 'NotReadableError');
    const source = pieces(file);
    const read = (at: number, count: number): Uint8Array => {
      if (at > file.length / 2) throw gone;
      return source.read(at, count);
    };
    await expect(wasm.decode({ ...source, read }, { name: 'large.png' })).rejects.toBe(gone);
  });
});

describe('a file that is gone through', () => {
  const next = seeded(8);
  const bytes = Uint8Array.from({ length: 3_000_001 }, () => 256 * next());
  const plain = new Blob([bytes]);
  const stream = () => new Response(bytes).body?.pipeThrough(new TransformStream());
  const old = { size: bytes.length, stream } as unknown as Blob;

  test.each([
    ['into one memory', plain],
    ['where a browser gives memory of its own', old],
    ['empty', new Blob([])],
  ])('%s', async (_, file) => {
    const seen: Buffer[] = [];
    await eachPiece(file, (piece) => seen.push(Buffer.from(piece)));
    const whole = file.size === 0 ? Buffer.alloc(0) : Buffer.from(bytes);
    expect(Buffer.compare(Buffer.concat(seen), whole)).toBe(0);
    expect(await hashOfBlob(file)).toBe(createHash('sha256').update(whole).digest('hex'));
  });
});
