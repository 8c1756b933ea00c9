import { describe, expect, test } from 'vitest';
import type { LightIntent } from '../../../src/intent/intent.ts';
import { readLight } from '../../../src/readings/light/light.ts';
import type { View } from '../../../src/views/view.ts';
import { panels, WARM } from './surfaces.ts';

const BLUE = [0.45, 0.5, 0.6] as const;
const AMBER = [0.8, 0.5, 0.25] as const;

/** Panels of twelve pigments under a smooth sky, with `share` of the sky's light before them: I = (1 − a)·J + a·A. */
function behindAir(share: number, AIR: readonly number[] = BLUE): View {
  const { view } = panels(WARM, {}, 600, 350);
  const sky = 150;
  const rgb = new Float32Array(3 * 600 * (350 + sky));
  for (let i = 0; i < rgb.length; i++) {
    const below = i - 3 * 600 * sky;
    rgb[i] = below < 0 ? AIR[i % 3] : (1 - share) * view.rgb[below] + share * AIR[i % 3];
  }
  return { ...view, height: 350 + sky, rgb };
}

// The model of He, Sun & Tang 2011 (IEEE PAMI 33): I = J·t + A·(1 − t); the darkest channel of dark things tells 1 − t.
describe('air before the whole picture', () => {
  test.each([0.15, 0.3, 0.5])('%f of the light is its own', (share) => {
    const { amount, colour } = readLight(behindAir(share)).haze;
    // Dark pigments are not black: the darkest here send 0.02.
    expect(amount).toBeGreaterThan(share);
    expect(amount).toBeLessThan(share + 0.05);
    for (let c = 0; c < 3; c++) expect(colour![c]).toBeCloseTo(BLUE[c], 2);
  });

  test('none is told where dark things are dark, or without a sky', () => {
    expect(readLight(behindAir(0)).haze).toEqual({ amount: 0, colour: null });
    expect(readLight(panels(WARM).view).haze).toEqual({ amount: 0, colour: null });
  });

  test('air that turns colours the way of a warm light leaves it untold', () => {
    const { statement, shift, evidence } = readLight(behindAir(0.2, AMBER));
    expect(statement).toBe('unknown');
    expect(shift).toBeNull();
    expect(evidence.reason).toContain('air');
  });
});

/** Rows of the air's gradient above the panels. */
const FAR = 380;
const SKY = 60;

/**
 * Panels with two of them in neutral shade, and above them land that recedes: five ridges of one dark paint, and the
 * share of the air before them grows from below to above, by steps and along each of them (exponential extinction).
 */
function receding(): { view: View; planted: readonly number[]; panel: Uint8Array } {
  const planted = [2, 5];
  const { view, panel } = panels(WARM, { 2: 'neutral', 5: 'neutral' }, 600, 350);
  const land = [0.06, 0.065, 0.08];
  const rgb = new Float32Array(3 * 600 * (FAR + 350));
  for (let y = 0; y < FAR; y++)
    for (let x = 0; x < 600; x++) {
      const up = 1 - (y - SKY + 12 * Math.sin(x / 40 + Math.floor(y / 64))) / (FAR - SKY);
      const clear = y < SKY ? 0 : Math.exp(-0.35 * Math.floor(5 * up) - 0.5 * up);
      const grain = y < SKY ? 1 : 1 + 0.02 * Math.sin(x * 1.3 + y * 0.7);
      for (let c = 0; c < 3; c++)
        rgb[3 * (600 * y + x) + c] = grain * (land[c] * clear + BLUE[c] * (1 - clear));
    }
  rgb.set(view.rgb, 3 * 600 * FAR);
  return { view: { ...view, height: FAR + 350, rgb }, planted, panel };
}

test.each([
  ['as it is read', undefined],
  ['declared', { kind: 'surface', lit: WARM.key.map((k, c) => k + WARM.fill[c]), shade: WARM.fill }],
] as const)('land that recedes into the air has no lit partner and is not flagged, light %s', (_, light) => {
  const { view, planted, panel } = receding();
  const result = readLight(view, { light: (light ?? null) as LightIntent | null });
  const { width, height, neutral, opposite } = result;
  let far = 0;
  let found = 0;
  let shade = 0;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const flag = neutral.data[y * width + x] > 0 || opposite.data[y * width + x] > 0;
      const below = y - FAR;
      if (below < 0) far += flag ? 1 : 0;
      else if (planted.includes(panel[below * 600 + x])) {
        shade++;
        if (neutral.data[y * width + x] > 0) found++;
      }
    }
  expect(far / (FAR * width)).toBeLessThan(0.002);
  // The same picture flags what is planted below: it is not silent altogether.
  expect(found / shade).toBeGreaterThan(0.3);
});
