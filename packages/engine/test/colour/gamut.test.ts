import { converter, toGamut } from 'culori';
import { describe, expect, test } from 'vitest';
import { fromSrgb, inGamut, mapToGamut } from '../../src/colour/gamut.ts';
import { gamutMapper } from '../../src/colour/gamutMapper.ts';
import { type Triple, transform } from '../../src/colour/matrix.ts';
import { deltaOk, linearToOklab, oklabToLinear, oklabToOklch, oklchToOklab } from '../../src/colour/oklab.ts';
import { A98_RGB, DISPLAY_P3, SRGB } from '../../src/colour/rgbSpaces.ts';
import { linearToSrgb } from '../../src/colour/transfer.ts';
import { randomNumbers } from './random.ts';

const random = randomNumbers(20220705);
/** Colours up to chroma 0.4: about two thirds of them lie outside sRGB. */
const COLOURS = Array.from(
  { length: 10_000 },
  (): Triple => oklabToLinear(oklchToOklab([1.1 * random() - 0.05, 0.4 * random(), 360 * random()])),
);
const SPACES = [SRGB, DISPLAY_P3, A98_RGB];

// CSS Color 4, section 13 (W3C): Display P3 yellow leaves sRGB at chroma 0.21094, where it is
// color(srgb .99116 .99733 .00001). The local-MINDE search may clip by a just noticeable difference instead.
describe('Display P3 yellow', () => {
  const yellow = transform(DISPLAY_P3.toSrgb, [1, 1, 0]);
  const [L, , hue] = oklabToOklch(linearToOklab(yellow));
  const boundary = oklabToLinear(oklchToOklab([L, 0.21094, hue]));
  test('meets the boundary where the standard says', () => {
    const codes = boundary.map(linearToSrgb);
    [0.99116, 0.99733, 0.00001].forEach((v, k) => {
      // Chroma is printed to five digits, which is worth so much in blue.
      expect(Math.abs(codes[k] - v)).toBeLessThan(3e-5);
    });
    expect(inGamut(boundary)).toBe(true);
    expect(inGamut(oklabToLinear(oklchToOklab([L, 0.2111, hue])))).toBe(false);
  });
  test('is mapped to within a just noticeable difference of it', () =>
    expect(deltaOk(linearToOklab(mapToGamut(yellow, SRGB)), linearToOklab(boundary))).toBeLessThan(0.003));
});

// culori 4 carries the search of CSS Color 4 with its numbers (jnd 0.02, chroma to 0.0001).
test('10 000 colours are mapped as culori maps them', () => {
  const map = toGamut('rgb', 'oklch');
  const linear = converter('lrgb');
  const oklch = converter('oklch');
  let worst = 0;
  for (const rgb of COLOURS) {
    const t = linear(map(oklch({ mode: 'lrgb', r: rgb[0], g: rgb[1], b: rgb[2] })));
    const mine = linearToOklab(mapToGamut(rgb, SRGB));
    worst = Math.max(worst, deltaOk(mine, linearToOklab([t.r, t.g, t.b])));
  }
  // Both stop within 0.0001 of chroma; a few colours stand at a corner where that moves more.
  expect(worst).toBeLessThan(1.5e-3);
});

describe.each(SPACES)('into $name', (space) => {
  const into = fromSrgb(space);
  const mapper = gamutMapper(space);
  test('every colour lies inside, and hardly moves in lightness', () => {
    let outside = 0;
    let moved = 0;
    for (const rgb of COLOURS) {
      const mapped = mapToGamut(rgb, space);
      if (!inGamut(transform(into, mapped))) outside++;
      const L = Math.min(1, Math.max(0, linearToOklab(rgb)[0]));
      moved = Math.max(moved, Math.abs(linearToOklab(mapped)[0] - L));
    }
    expect(outside).toBe(0);
    expect(moved).toBeLessThan(0.0201);
  });
  test('the version without allocation gives the same', () => {
    const all = Float64Array.from(COLOURS.flat());
    let worst = 0;
    let wrong = 0;
    for (let i = 0; i < COLOURS.length; i++) {
      const changed = mapper(all, 3 * i);
      const plain = mapToGamut(COLOURS[i], space);
      if (changed === inGamut(transform(into, COLOURS[i]), 1e-9)) wrong++;
      for (let c = 0; c < 3; c++) worst = Math.max(worst, Math.abs(all[3 * i + c] - plain[c]));
    }
    expect(wrong).toBe(0);
    expect(worst).toBeLessThan(1e-6);
  });
  test('a colour inside comes back bit for bit', () => {
    for (const rgb of COLOURS)
      if (inGamut(transform(into, rgb), 1e-9)) expect(mapToGamut(rgb, space)).toEqual([...rgb]);
  });
});
