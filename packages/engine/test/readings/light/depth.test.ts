import { describe, expect, test } from 'vitest';
import type { LightIntent } from '../../../src/intent/intent.ts';
import { readLight } from '../../../src/readings/light/light.ts';
import type { View } from '../../../src/views/view.ts';
import { grain } from '../pictures.ts';
import { panels, WARM } from './surfaces.ts';

const WIDTH = 600;
const FAR = 320;
const NEAR = 350;
const PLANTED = [2, 5];

interface Land {
  readonly name: string;
  readonly paint: readonly number[];
  readonly air: readonly number[];
  readonly ridges: number;
  /** Extinction from ridge to ridge, and along each from its foot to its crest. */
  readonly step: number;
  readonly along: number;
}

const PAINT = [0.06, 0.065, 0.08];
const AIR = [0.45, 0.5, 0.6];
const LANDS: readonly Land[] = [
  { name: 'three ridges', paint: PAINT, air: AIR, ridges: 3, step: 0.7, along: 0 },
  {
    name: 'five ridges that pale towards their crests',
    paint: PAINT,
    air: AIR,
    ridges: 5,
    step: 0.3,
    along: 0.3,
  },
  { name: 'five ridges of warm earth', paint: [0.12, 0.08, 0.05], air: AIR, ridges: 5, step: 0.4, along: 0 },
];

/**
 * Ridges of one paint up to the upper edge, no sky, above twelve lit panels of which two are in neutral shade. Air
 * before them by exponential extinction (Koschmieder 1924, as in He, Sun & Tang 2011, IEEE PAMI 33, formula 1–2).
 */
function picture({ paint, air, ridges, step, along }: Land): { view: View; panel: Uint8Array } {
  const { view, panel } = panels(WARM, { 2: 'neutral', 5: 'neutral' }, WIDTH, NEAR);
  const rgb = new Float32Array(3 * WIDTH * (FAR + NEAR));
  const deep = FAR / ridges;
  for (let y = 0; y < FAR; y++)
    for (let x = 0; x < WIDTH; x++) {
      // From the foreground up: a crest rises and falls by a quarter of its ridge.
      const up = (FAR - y) / deep + 0.25 * Math.sin(x / 40 + Math.floor((FAR - y) / deep));
      const ridge = Math.min(ridges - 1, Math.max(0, Math.floor(up)));
      const clear = Math.exp(-step * ridge - along * Math.min(1, Math.max(0, up - ridge)) - 0.1);
      // Touches of a brush: without them the far ridges would be taken for a smooth sky.
      const g = 1 + 0.4 * (grain(x >> 2, y >> 2, 5) - 0.5);
      for (let c = 0; c < 3; c++)
        rgb[3 * (WIDTH * y + x) + c] = g * (paint[c] * clear + air[c] * (1 - clear));
    }
  rgb.set(view.rgb, 3 * WIDTH * FAR);
  return { view: { ...view, height: FAR + NEAR, rgb }, panel };
}

/** Flagged share of the land, and neutral share of what is planted below it. */
function read(land: Land, light: LightIntent | null) {
  const { view, panel } = picture(land);
  const { neutral, opposite } = readLight(view, { light });
  let [far, found, shade] = [0, 0, 0];
  for (let i = 0; i < neutral.data.length; i++) {
    const below = i - WIDTH * FAR;
    if (below < 0) far += neutral.data[i] > 0 || opposite.data[i] > 0 ? 1 : 0;
    else if (PLANTED.includes(panel[below])) {
      shade++;
      if (neutral.data[i] > 0) found++;
    }
  }
  return { far: far / (WIDTH * FAR), found: found / shade };
}

const DECLARED = {
  kind: 'surface',
  lit: WARM.key.map((k, c) => k + WARM.fill[c]),
  shade: WARM.fill,
} as unknown as LightIntent;

describe.each(LANDS)('$name, no sky seen', (land) => {
  test.each([
    ['read', null],
    ['declared', DECLARED],
  ] as const)('have no lit partner and are not flagged, light %s', (_, light) => {
    const { far, found } = read(land, light);
    expect(far).toBeLessThan(0.002);
    expect(found).toBeGreaterThan(0.3);
  });
});
