import { describe, expect, test } from 'vitest';
import { takeCensus } from '../../../src/census/take.ts';
import { SRGB } from '../../../src/colour/rgbSpaces.ts';
import { OPEN_INTENT } from '../../../src/intent/intent.ts';
import { detail } from '../../../src/readings/detail/kind.ts';
import type { ReadingInput } from '../../../src/readings/reading.ts';
import { makeViews } from '../../../src/views/makeViews.ts';
import type { Raster } from '../../../src/views/raster.ts';

/** A quiet ground with a light disc at (0.6, 0.45); `noise` code values of fine grain in the lower left quarter. */
function picture(width: number, noise: number): Raster {
  const height = Math.round(width * 0.65);
  const data = new Uint8Array(3 * width * height);
  let seed = 7;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const u = x / width;
      const v = y / height;
      const disc = Math.hypot(u - 0.6, (v - 0.45) * 0.65) < 0.08;
      const stroke = disc ? 30 * Math.sin(x * 1.7) * Math.sin(y * 1.3) : 0;
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      const grain = u < 0.4 && v > 0.6 ? noise * (seed / 2 ** 31 - 1) : 0;
      const level = (disc ? 190 : 90 + 30 * v) + stroke + grain;
      data.fill(Math.min(255, Math.max(0, Math.round(level))), 3 * (y * width + x), 3 * (y * width + x) + 3);
    }
  return { width, height, channels: 3, depth: 8, data, space: SRGB };
}

function inputOf(raster: Raster, intent = OPEN_INTENT): ReadingInput {
  const { width, height } = raster;
  const facts = { name: 'a', width, height, depth: 8, profile: 'sRGB', tagged: true } as const;
  return {
    picture: facts,
    census: takeCensus(raster),
    views: makeViews(raster),
    intent,
    baseline: null,
    leftOut: null,
    layers: null,
    photographed: false,
  };
}

describe('detail', () => {
  test('fine noise planted in one corner is overworked, there and only there, the more the stronger', () => {
    const shares = [0, 15, 30, 60].map(
      (noise) => detail.read(inputOf(picture(900, noise))).value.overworkedShare,
    );
    expect(shares[0]).toBe(0);
    for (let k = 1; k < shares.length; k++) expect(shares[k]).toBeGreaterThanOrEqual(shares[k - 1]);
    expect(shares[3]).toBeGreaterThan(0.1); // planted on 0.4 × 0.4 = 16 % of the area
    expect(shares[3]).toBeLessThan(0.19);
    const map = detail.read(inputOf(picture(900, 60))).maps.overworked();
    let outside = 0;
    for (let p = 0; p < map.data.length; p++) {
      const there = (p % map.width) / map.width < 0.44 && Math.floor(p / map.width) / map.height > 0.56;
      if (map.data[p] > 0.5 && !there) outside++;
    }
    expect(outside).toBe(0);
  });

  test('it becomes a finding with its place', () => {
    const input = inputOf(picture(900, 60));
    const found = detail.findings(detail.read(input), input);
    expect(found.map((f) => f.key)).toEqual(['detail.overworked']);
  });

  test('a drawn focus changes what counts: noise inside it is not overworked', () => {
    const focus = { outlines: [[0, 0.55, 0.45, 0.55, 0.45, 1, 0, 1]] };
    const input = inputOf(picture(900, 60), { ...OPEN_INTENT, focus });
    const reading = detail.read(input);
    expect(reading.value.overworkedShare).toBeLessThan(0.01);
    expect(reading.evidence.level).toBe('strong');
  });

  test('a focus drawn where nothing is painted finely is said', () => {
    const focus = { outlines: [[0.7, 0, 1, 0, 1, 0.25, 0.7, 0.25]] };
    const input = inputOf(picture(900, 0), { ...OPEN_INTENT, focus });
    const reading = detail.read(input);
    expect(detail.findings(reading, input).map((f) => f.key)).toEqual(['detail.focusCoarse']);
    expect(reading.value.starvedShare).toBeGreaterThan(0.9);
  });

  test.each([200, 400])('a picture of %d px is too small to tell', (width) => {
    expect(detail.read(inputOf(picture(width, 30))).evidence.level).toBe('weak');
  });

  test('the left-out area does not count', () => {
    const input = inputOf(picture(900, 60));
    const leftOut = {
      width: 9,
      height: 9,
      data: Float32Array.from({ length: 81 }, (_, p) => (p % 9 < 5 && p >= 36 ? 1 : 0)),
    };
    expect(detail.read({ ...input, leftOut }).value.overworkedShare).toBeLessThan(0.01);
  });
});
