import { describe, expect, test } from 'vitest';
import type { Triple } from '../../src/colour/matrix.ts';
import { linearToOklab } from '../../src/colour/oklab.ts';
import { readyRecipe } from '../../src/edits/compile.ts';
import { lightsOf } from '../../src/proposal/lights.ts';
import { propose, runToEnd } from '../../src/proposal/propose.ts';
import { examine } from '../../src/readings/examine.ts';
import { hills, inputOf, type Painter, paint } from '../readings/pictures.ts';

/** A blue dusk over turquoise water with red sheds and orange lamps: the lamps are the lightest of it. */
const harbour: Painter = (x, y) => {
  const grain = 0.03 * hills(x, y, 9, 5);
  if (Math.hypot(1.5 * (x - 0.7), y - 0.45) < 0.05 || Math.hypot(1.5 * (x - 0.3), y - 0.5) < 0.04)
    return [0.88 + grain, 0.11, 70];
  // Planks of the lamps' hue: by its hue alone nobody would take the light for an accent.
  if (y > 0.86) return [0.3 + grain, 0.05, 65 + 300 * grain];
  if (y > 0.62) return [0.5 + grain, 0.06, 200 + 300 * grain];
  if (x > 0.5 && y > 0.25) return [0.25 + grain, 0.07, 350 + 300 * grain];
  return [0.65 - 0.2 * y + grain, 0.07, 285 + 300 * grain];
};
const chromaAt = (rgb: ArrayLike<number>): number =>
  Math.hypot(...linearToOklab([rgb[0], rgb[1], rgb[2]]).slice(1));

describe('lights', () => {
  const input = inputOf(paint(105, 70, harbour));
  const plain = (at: Painter) => lightsOf(inputOf(paint(60, 40, at)).census);

  test('have the hue that the lightest places share', () => {
    const lights = lightsOf(input.census);
    expect(lights?.arc.hue).toBeGreaterThan(62);
    expect(lights?.arc.hue).toBeLessThan(78);
    expect(lights?.words).toMatch(/^the .+ of the lights$/);
  });

  test.each<[string, Painter]>([
    ['white', (x) => (x < 0.05 ? [0.95, 0.004, 90] : [0.4, 0.08, 285])],
    ['of several hues', (x, y) => (x < 0.05 ? [0.85, 0.09, y < 0.5 ? 70 : 250] : [0.4, 0.08, 285])],
  ])('are none where the lightest places are %s', (_, at) => {
    expect(plain(at)).toBeNull();
  });

  test('keep their colour while the strays lose theirs', () => {
    const proposal = runToEnd(propose({ input, examination: examine(input) }));
    expect(proposal.findings.map((f) => [f.finding.key, f.outcome])).toContainEqual([
      'hueSpread.many',
      'met',
    ]);
    const ready = readyRecipe(proposal.recipe, input.views.close);
    const kept = (place: readonly [number, number]): number => {
      const { rgb, width, height } = input.views.close;
      const at = 3 * (Math.floor(place[1] * height) * width + Math.floor(place[0] * width));
      const before: Triple = [rgb[at], rgb[at + 1], rgb[at + 2]];
      const after = Float64Array.from(before);
      ready.edit(after, 0, [], 0);
      return chromaAt(after) / chromaAt(before);
    };
    expect(kept([0.7, 0.45])).toBeGreaterThan(0.85);
    expect(Math.min(kept([0.2, 0.8]), kept([0.85, 0.55]))).toBeLessThan(0.75);
    expect(proposal.steps[0].reason).toMatch(/of the lights/);
  });
});
