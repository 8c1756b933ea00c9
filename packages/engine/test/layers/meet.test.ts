import { readFileSync } from 'node:fs';
import sharp, { type Blend } from 'sharp';
import { describe, expect, test } from 'vitest';
import type { BlendMode } from '../../src/layers/blend.ts';
import { meeting, OPERATORS, type Operator } from '../../src/layers/meet.ts';

interface Case {
  readonly blend: BlendMode;
  readonly operator: Operator;
  readonly seed: number;
  readonly sums: readonly number[];
}

const CASES: Case[] = JSON.parse(readFileSync(new URL('w3c.json', import.meta.url), 'utf8'));
const PAIRS = 10_000;

/** Backdrop and source, four codes each: the high bytes of a linear congruential generator (Numerical Recipes). */
function pairs(seed: number): Uint8Array {
  let x = seed;
  return Uint8Array.from({ length: 8 * PAIRS }, () => {
    x = (Math.imul(x, 1664525) + 1013904223) >>> 0;
    return x >>> 24;
  });
}

/** Our result for every pair: straight colour and alpha, 0…1. */
function ours({ blend, operator }: Omit<Case, 'sums' | 'seed'>, codes: Uint8Array): Float64Array {
  const meet = meeting({ blend, operator, opacity: 1 });
  const out = new Float64Array(4 * PAIRS);
  for (let k = 0; k < PAIRS; k++) {
    for (let c = 0; c < 4; c++) out[4 * k + c] = codes[8 * k + c] / 255;
    const [r, g, b, a] = [4, 5, 6, 7].map((c) => codes[8 * k + c] / 255);
    meet(out, 4 * k, r, g, b, a);
  }
  return out;
}

describe('blend modes and operators against the published formulas in NumPy (w3c.py)', () => {
  test('every mode and every operator is there', () => {
    expect(CASES.map(({ blend, operator }) => `${blend} ${operator}`).length).toBe(16 + 12);
    expect(new Set(CASES.map(({ operator }) => operator))).toEqual(new Set(Object.keys(OPERATORS)));
  });

  test.each(CASES)('$blend, $operator', (one) => {
    const got = ours(one, pairs(one.seed));
    const sums = new Float64Array(one.sums.length);
    for (let i = 0; i < got.length; i++) {
      const weight = i % 4 === 3 ? 1 : got[i - (i % 4) + 3];
      sums[4 * Math.floor(i / 400) + (i % 4)] += weight * got[i];
    }
    let worst = 0;
    for (let i = 0; i < sums.length; i++) worst = Math.max(worst, Math.abs(sums[i] - one.sums[i]));
    expect(worst).toBeLessThan(2e-5);
  });
});

// What a canvas keeps is colour times alpha, so that colours of nearly transparent places count as far as they are seen.
const CANVAS: { made: string; modes: { mode: string; codes: string }[] } = JSON.parse(
  readFileSync(new URL('canvas.json', import.meta.url), 'utf8'),
);
describe(`1 000 pairs each, with alpha, against the 2-D canvas of ${CANVAS.made} (canvas.mjs)`, () => {
  test('it has all modes, and all operators but two that show nothing or nothing new', () => {
    expect(CANVAS.modes.length).toBe(16 + 10);
  });

  test.each(CANVAS.modes)('$mode', ({ mode, codes: kept }) => {
    const theirs = Buffer.from(kept, 'base64');
    const operator = Object.hasOwn(OPERATORS, mode);
    const got = ours(
      operator
        ? { blend: 'normal', operator: mode as Operator }
        : { blend: mode as BlendMode, operator: 'source-over' },
      pairs(7),
    );
    let worst = 0;
    for (let i = 0; i < theirs.length; i++) {
      const weight = i % 4 === 3 ? 1 : got[i - (i % 4) + 3];
      worst = Math.max(worst, Math.abs(255 * weight * got[i] - theirs[i]));
    }
    expect(worst).toBeLessThanOrEqual(1);
  });
});

// libvips' names beside those of the standard.
const LIBRARY: [Blend, BlendMode, Operator][] = [
  ['over', 'normal', 'source-over'],
  ['in', 'normal', 'source-in'],
  ['out', 'normal', 'source-out'],
  ['dest-over', 'normal', 'destination-over'],
  ['dest-in', 'normal', 'destination-in'],
  ['dest-out', 'normal', 'destination-out'],
  ['xor', 'normal', 'xor'],
  ['multiply', 'multiply', 'source-over'],
  ['screen', 'screen', 'source-over'],
  ['overlay', 'overlay', 'source-over'],
  ['darken', 'darken', 'source-over'],
  ['lighten', 'lighten', 'source-over'],
  ['colour-dodge', 'color-dodge', 'source-over'],
  ['hard-light', 'hard-light', 'source-over'],
  ['difference', 'difference', 'source-over'],
  ['exclusion', 'exclusion', 'source-over'],
];

// It cuts fractions off, so that a value may be one below. Where the references disagree:
// with transparency libvips mixes a blended colour in by another rule than section 5 of the standard, and its "atop"
// and "dest-atop" are not Porter and Duff's (off by up to 248 codes). So blend modes are held against it on opaque
// pairs, and those two against NumPy only.
describe('10 000 pairs each against libvips (through sharp)', () => {
  test.each(LIBRARY)('%s', async (name, blend, operator) => {
    const codes = pairs(99);
    // The standard leaves black black under full dodge; libvips makes it white.
    if (blend === 'color-dodge') for (let i = 0; i < codes.length; i++) codes[i] = Math.min(254, codes[i]);
    const [backdrop, source] = [new Uint8Array(4 * PAIRS), new Uint8Array(4 * PAIRS)];
    for (let k = 0; k < PAIRS; k++) {
      if (blend !== 'normal') codes[8 * k + 3] = codes[8 * k + 7] = 255;
      backdrop.set(codes.subarray(8 * k, 8 * k + 4), 4 * k);
      source.set(codes.subarray(8 * k + 4, 8 * k + 8), 4 * k);
    }
    const raw = { width: 100, height: 100, channels: 4 } as const;
    const theirs = await sharp(backdrop, { raw })
      .composite([{ input: Buffer.from(source), raw, blend: name }])
      .raw()
      .toBuffer();
    const got = ours({ blend, operator }, codes);
    let worst = 0;
    for (let i = 0; i < got.length; i++)
      if (got[i - (i % 4) + 3] > 0) worst = Math.max(worst, Math.abs(255 * got[i] - theirs[i]));
    expect(worst).toBeLessThanOrEqual(1.01);
  });
});
