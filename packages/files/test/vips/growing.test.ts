import fc from 'fast-check';
import { expect, test } from 'vitest';
import { GrowingFile } from '../../src/vips/growing.ts';

const MIB = 2 ** 20;

/** The same in one plain array: write at the position, read what is there. */
class Plain {
  bytes: number[] = [];
  position = 0;
}

test('writes, reads and seeks like a file', () => {
  const step = fc.oneof(
    fc.record({ kind: fc.constant('write' as const), data: fc.uint8Array({ maxLength: 40 }) }),
    fc.record({ kind: fc.constant('read' as const), count: fc.nat(60) }),
    fc.record({ kind: fc.constant('seek' as const), to: fc.nat(80) }),
  );
  fc.assert(
    fc.property(fc.array(step, { maxLength: 40 }), fc.nat(300), (steps, room) => {
      const file = new GrowingFile(room);
      const plain = new Plain();
      for (const s of steps) {
        if (s.kind === 'write') {
          file.write(s.data);
          for (const v of s.data) plain.bytes[plain.position++] = v;
        } else if (s.kind === 'read') {
          const expected = plain.bytes.slice(plain.position, plain.position + s.count);
          expect(Array.from(file.read(s.count))).toEqual(Array.from(expected, (v) => v ?? 0));
          plain.position += expected.length;
        } else plain.position = file.seek(s.to, 0);
      }
      expect(Array.from(file.take())).toEqual(Array.from(plain.bytes, (v) => v ?? 0));
    }),
    { seed: 6 },
  );
});

test('a large file, from the end and from here', () => {
  const data = Uint8Array.from({ length: 3 * MIB + 5 }, (_, i) => (i * 31) >>> 3);
  for (const room of [10, 2 * MIB, 4 * MIB, 90 * MIB]) {
    const file = new GrowingFile(room);
    for (let at = 0; at < data.length; at += MIB + 1) file.write(data.subarray(at, at + MIB + 1));
    expect(file.seek(-2 * MIB, 2)).toBe(MIB + 5);
    expect(Buffer.compare(file.read(MIB), data.subarray(MIB + 5, 2 * MIB + 5))).toBe(0);
    expect(file.seek(-MIB, 1)).toBe(MIB + 5);
    expect(Buffer.compare(file.take(), data)).toBe(0);
  }
});
