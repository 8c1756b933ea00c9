import { describe, expect, test } from 'vitest';
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
