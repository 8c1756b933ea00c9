import { afterAll, describe, expect, test } from 'vitest';
import { startLibrary } from '../../src/node/library.ts';
import { Scope } from '../../src/vips/library.ts';
import { isStreamed, streamed } from '../../src/vips/stream.ts';
import { seeded } from '../made/random.ts';

const vips = await startLibrary({ dynamicLibraries: [] });
vips.blockUntrusted(true);
afterAll(() => vips.shutdown());

const [WIDTH, HEIGHT] = [61, 137];

describe.each([8, 16] as const)('a stream of %i bits', (depth) => {
  const next = seeded(depth);
  const codes = Array.from({ length: 3 * WIDTH * HEIGHT }, () => Math.floor(next() * 2 ** depth));
  const data = depth === 8 ? Uint8Array.from(codes) : Uint16Array.from(codes);
  const rows = (y: number, count: number) => data.subarray(3 * WIDTH * y, 3 * WIDTH * (y + count));

  test('is the picture, each row asked for once from top to bottom', () => {
    const scope = new Scope();
    const asked: number[] = [];
    const { image, check } = streamed(vips, scope, { width: WIDTH, height: HEIGHT }, depth, (y, count) => {
      for (let j = 0; j < count; j++) asked.push(y + j);
      return rows(y, count);
    });
    expect([image.width, image.height, image.bands]).toEqual([WIDTH, HEIGHT, 3]);
    expect(image.interpretation).toBe(depth === 8 ? 'srgb' : 'rgb16');
    expect(Array.from(image.writeToMemory())).toEqual(codes);
    expect(asked).toEqual(Array.from({ length: HEIGHT }, (_, y) => y));
    expect(check).not.toThrow();
    scope.end();
  });

  test('hands on what went wrong while rows were made', () => {
    const scope = new Scope();
    const { image, check } = streamed(vips, scope, { width: WIDTH, height: HEIGHT }, depth, (y, count) => {
      if (y > 40) throw new RangeError('no more');
      return rows(y, count);
    });
    // The library reads a cut stream over; only the check tells.
    try {
      image.writeToMemory();
    } catch {}
    expect(check).toThrow('no more');
    scope.end();
  });
});

test('nobody else may read a portable pixmap', () => {
  const file = new TextEncoder().encode('P6\n1 1\n255\nabc');
  expect(() => vips.Image.newFromBuffer(file)).toThrow();
});

test.each([
  [{ width: 6000, height: 4000, channels: 3, atOnce: true }, 16, true],
  [{ width: 6000, height: 4000, channels: 3, atOnce: true }, 8, false],
  [{ width: 6000, height: 4000, channels: 4, atOnce: true }, 16, false],
  [{ width: 6000, height: 4000, channels: 3 }, 16, false],
] as const)('%o at %i bits: %s', (picture, depth, is) => {
  expect(isStreamed(picture as never, depth)).toBe(is);
});
