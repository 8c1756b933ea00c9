import { describe, expect, test } from 'vitest';
import { takeCensus } from '../../../src/census/take.ts';
import { lightness, luminance } from '../../../src/colour/cielab.ts';
import { linearToOklab, oklabToLinear } from '../../../src/colour/oklab.ts';
import { SRGB } from '../../../src/colour/rgbSpaces.ts';
import { srgbToLinear } from '../../../src/colour/transfer.ts';
import { stepKind } from '../../../src/edits/list.ts';
import type { StepId } from '../../../src/edits/step.ts';
import { directions } from '../../../src/readings/headroom/directions.ts';
import type { Directions } from '../../../src/readings/headroom/types.ts';
import type { Raster } from '../../../src/views/raster.ts';
import { grain, hills, paint } from '../pictures.ts';

/** Share of pixels that a real edit newly clips: every pixel, no census. */
function clippedShare(
  raster: Raster,
  step: StepId,
  key: string,
  value: number,
  darks: boolean,
  channels: boolean,
): number {
  const kernel = stepKind(step).kernel({ kind: step, on: true, strength: 1, values: { [key]: value } });
  const max = 2 ** raster.depth - 1;
  // Standing at a limit means: to 8 bits.
  const near = raster.depth === 16 ? 128 : 0;
  const pixels = raster.width * raster.height;
  const out = (c: ArrayLike<number>): boolean =>
    (channels && [0, 1, 2].some((k) => c[k] < -1e-9 || c[k] > 1 + 1e-9)) ||
    (darks && lightness(luminance(c[0], c[1], c[2])) < 2);
  let clipped = 0;
  const one = new Float64Array(3);
  for (let p = 0; p < pixels; p++) {
    const codes = [0, 1, 2].map((c) => raster.data[raster.channels * p + c]);
    const rgb = codes.map((v) => srgbToLinear(v / max)) as [number, number, number];
    // Exposure and contrast take nothing from a channel that is 0.
    const scales = step === 'exposure' || step === 'contrast';
    const atLimit = channels && codes.some((v) => (v <= near && !scales) || v >= max - near);
    if (out(rgb) || atLimit) continue;
    one.set(kernel.on === 'oklab' ? linearToOklab(rgb) : rgb);
    kernel.change(one, 0, 1);
    if (out(kernel.on === 'oklab' ? oklabToLinear([one[0], one[1], one[2]]) : one)) clipped++;
  }
  return clipped / pixels;
}

/** A dusk with grain; a flat poster of a few tones; a saturated ramp; the dusk at 16 bits. */
const dusk = paint(300, 200, (x, y) => [
  0.25 +
    0.55 * (1 - y) +
    0.06 * hills(x, y, 5, 3) +
    0.02 * grain(Math.round(300 * x), Math.round(200 * y), 1),
  0.05 + 0.07 * y,
  y < 0.5 ? 290 : 50,
]);
const poster = paint(120, 80, (x, y) => [0.2 + 0.15 * Math.floor(4 * x), 0.08, 90 * Math.floor(3 * y)]);
const ramp = paint(240, 100, (x, y) => [0.15 + 0.75 * x, 0.02 + 0.13 * y, 250 + 60 * hills(x, y, 4, 9)]);
const deep: Raster = {
  ...dusk,
  depth: 16,
  data: Uint16Array.from(dusk.data, (v, i) => Math.min(65535, v * 257 + Math.round(200 * grain(i, 7, 2)))),
};

const WAYS: [keyof Directions, StepId, string, number, number, boolean, boolean][] = [
  ['exposureUp', 'exposure', 'stops', 0, 1, false, true],
  ['exposureDown', 'exposure', 'stops', 0, -1, true, false],
  ['contrast', 'contrast', 'amount', 0, 1, true, true],
  ['chromaGain', 'chroma', 'gain', 1, 1, false, true],
  ['hueTurnLeft', 'hueTurn', 'degrees', 0, 1, false, true],
  ['hueTurnRight', 'hueTurn', 'degrees', 0, -1, false, true],
  ['warmer', 'warmth', 'mired', 0, 1, false, true],
  ['cooler', 'warmth', 'mired', 0, -1, false, true],
];

describe.each([
  ['a dusk with grain', dusk],
  ['a flat poster', poster],
  ['a saturated ramp', ramp],
  ['16 bits', deep],
])('headroom of %s, applied for real to every pixel', (_, raster) => {
  const found = directions(takeCensus(raster), SRGB);
  test.each(WAYS)('%s', (way, step, key, neutral, sign, darks, channels) => {
    const amount = found[way];
    const at = (value: number): number => clippedShare(raster, step, key, value, darks, channels);
    if (amount === null || (step === 'hueTurn' && amount === 180)) {
      const end = { exposure: 4, contrast: 1.5, chroma: 4, hueTurn: 180, warmth: sign > 0 ? 300 : 150 }[
        step as 'exposure'
      ];
      for (const part of [0.25, 0.5, 0.75, 1])
        expect(at(neutral + sign * part * (end - neutral))).toBeLessThan(0.013);
      return;
    }
    // The answer is a value of the parameter; exposure, turns and warmth are given as magnitudes.
    const value = step === 'chroma' || step === 'contrast' ? amount : sign * amount;
    const beyond = value + sign * (step === 'hueTurn' ? 1.5 : step === 'warmth' ? 2 : 0.02);
    expect(at(value)).toBeLessThan(0.013); // 1 %, census within 0.3 points
    expect(at(beyond)).toBeGreaterThan(0.007);
  });
});

test('an even grey in the middle may turn all the way round, and black has nowhere to go but up', () => {
  const grey = directions(takeCensus(paint(20, 20, () => [0.6, 0, 0])), SRGB);
  expect([grey.hueTurnLeft, grey.hueTurnRight, grey.chromaGain]).toEqual([180, 180, null]);
  const black = directions(takeCensus(paint(20, 20, () => [0, 0, 0])), SRGB);
  expect(black.exposureDown).toBeNull();
});
