import { DELIVERY_SPACES, decode, type Triple, transform } from '@halflight/engine';
import { describe, expect, test } from 'vitest';
import { readProfile } from '../../src/icc/read.ts';
import { spaceOfProfile } from '../../src/icc/space.ts';
import { writeProfile } from '../../src/icc/write.ts';
import { farthest } from '../made/light.ts';
import { asLinear, keptProfile, lcms } from '../oracle/lcms.ts';
import { makeTableProfile } from '../oracle/made-table.mjs';

/** LittleCMS prints four decimals of 100, profiles round to 1/65536; known spaces stand for their rounded matrices. */
const TOLERANCE = 1e-4;

const spaceOf = (bytes: Uint8Array) => {
  const profile = readProfile(bytes);
  return profile && spaceOfProfile(profile);
};

describe('curves and matrix against LittleCMS (transicc)', () => {
  const cases: [string, Uint8Array][] = [
    ['srgb', writeProfile(DELIVERY_SPACES.srgb)],
    ['display-p3', writeProfile(DELIVERY_SPACES['display-p3'])],
    ['a98-rgb', writeProfile(DELIVERY_SPACES['a98-rgb'])],
    ['LStar-RGB', keptProfile('LStar-RGB')],
    ['Gray', keptProfile('Gray')],
  ];
  test.each(cases)('%s', (name, bytes) => {
    const space = spaceOf(bytes);
    if (!space) throw new Error('not read as curves and matrix');
    const { codes, xyz } = lcms.profiles[name];
    codes.forEach((code, i) => {
      const light = [0, 1, 2].map((c) =>
        decode(space.curves[c], (code[c] ?? code[0]) / 255),
      ) as unknown as Triple;
      expect(farthest(transform(space.toSrgb, light), asLinear(xyz[i]))).toBeLessThan(TOLERANCE);
    });
  });
});

describe('what is no curve and matrix is left to the library', () => {
  test.each([
    ['a table', makeTableProfile()],
    ['grey by lightness', keptProfile('Gray-CIE_L')],
  ])('%s', (_, bytes) => {
    expect(readProfile(bytes)).not.toBeNull();
    expect(spaceOf(bytes)).toBeNull();
  });
});

describe('known spaces are recognised', () => {
  test.each(Object.entries(DELIVERY_SPACES))('%s', (_, space) => {
    expect(spaceOf(writeProfile(space))).toBe(space);
  });

  test('a space of its own keeps its numbers and its name', () => {
    const values = Float64Array.from({ length: 4096 }, (_, i) => (i / 4095) ** 3);
    const curve = { kind: 'table', values } as const;
    const own = {
      ...DELIVERY_SPACES['display-p3'],
      name: 'Ölfarbe – 1',
      curves: [curve, curve, curve] as const,
    };
    const back = spaceOf(writeProfile(own));
    expect(back?.name).toBe('Ölfarbe – 1');
    expect(farthest(back?.toSrgb ?? [], own.toSrgb)).toBeLessThan(1e-4);
    const read = back?.curves[0];
    expect(read?.kind).toBe('table');
    for (let i = 0; i < 4096; i += 91) expect(read && decode(read, i / 4095)).toBeCloseTo(values[i], 4);
  });

  test('grey stays without tint: the columns add up to the white of the connection space', () => {
    for (const space of Object.values(DELIVERY_SPACES)) {
      const colorants = readProfile(writeProfile(space))?.colorants ?? [];
      const sum = [0, 1, 2].map((i) => colorants.reduce((total, column) => total + column[i], 0));
      expect(farthest(sum, [0.9642, 1, 0.8249])).toBeLessThan(1 / 65536);
    }
  });
});

describe('damage', () => {
  const whole = writeProfile(DELIVERY_SPACES['display-p3']);
  test('cut off anywhere it is no profile', () => {
    for (let size = 0; size < whole.length; size += 7)
      expect(readProfile(whole.subarray(0, size))).toBeNull();
  });
  test('any byte changed: read or refused, never a crash', () => {
    for (let at = 0; at < whole.length; at += 3)
      for (const value of [0, 0x7f, 0xff]) {
        const bytes = whole.slice();
        bytes[at] = value;
        const space = spaceOf(bytes);
        expect(space === null || space.toSrgb.every(Number.isFinite)).toBe(true);
      }
  });
});
