import { describe, expect, test } from 'vitest';
import { censusOfView } from '../../src/census/ofView.ts';
import { ciede2000 } from '../../src/colour/ciede2000.ts';
import { linearToCielab, luminance } from '../../src/colour/cielab.ts';
import { SRGB } from '../../src/colour/rgbSpaces.ts';
import { readyRecipe } from '../../src/edits/compile.ts';
import { editView } from '../../src/edits/editView.ts';
import { checkRecipe } from '../../src/edits/recipeSchema.ts';
import { type Intent, OPEN_INTENT } from '../../src/intent/intent.ts';
import { lightSheet } from '../../src/proposal/lightSheet.ts';
import { measuredIn } from '../../src/proposal/measured.ts';
import { propose, runToEnd } from '../../src/proposal/propose.ts';
import { examine } from '../../src/readings/examine.ts';
import { SITUATIONS, situationOf } from '../../src/readings/light/situations.ts';
import type { ReadingInput } from '../../src/readings/reading.ts';
import { viewsOf } from '../../src/views/makeViews.ts';
import type { View } from '../../src/views/view.ts';
import { type Lighting, panels, WARM } from '../readings/light/surfaces.ts';

const facts = { name: 'panels', width: 600, height: 450, depth: 8, profile: 'sRGB', tagged: true } as const;
function inputFor(view: View, intent: Partial<Intent> = {}): ReadingInput {
  return {
    picture: facts,
    census: censusOfView(view, null),
    views: viewsOf(view),
    intent: { ...OPEN_INTENT, ...intent },
    baseline: null,
    leftOut: null,
    layers: null,
    photographed: false,
  };
}

/** Median CIEDE2000 of some pixels against the true picture, both at the luminance of the painted one. */
function error(view: View, truth: View, painted: View, counts: (p: number) => boolean): number {
  const off: number[] = [];
  for (let p = 0; p < view.width * view.height; p += 7) {
    if (!counts(p)) continue;
    const at = ({ rgb }: View): [number, number, number] => [rgb[3 * p], rgb[3 * p + 1], rgb[3 * p + 2]];
    const y = luminance(...at(painted));
    const lab = (v: View) => {
      const [r, g, b] = at(v);
      const scale = y / luminance(r, g, b);
      return linearToCielab([r * scale, g * scale, b * scale]);
    };
    off.push(ciede2000(lab(view), lab(truth)));
  }
  return off.sort((a, b) => a - b)[off.length >> 1];
}

describe('relighting of planted shade', () => {
  const faulty = panels(WARM, { 2: 'neutral', 5: 'neutral', 8: 'neutral' });
  const input = inputFor(faulty.view);
  const proposal = runToEnd(propose({ input, examination: examine(input) }));

  test('is proposed, with where it is and what it is for', () => {
    const relit = proposal.steps.filter(({ step }) => step.kind === 'relight');
    expect(relit.length).toBeGreaterThan(0);
    for (const { reason, serves } of relit) {
      expect(serves).toContain('light.neutral');
      expect(reason).toMatch(/Giving the shade (at|in) the .* the colour that this light leaves in it/);
    }
  });

  test('brings the shade to the colour that the scene’s light gives: at most 35 % of the error is left', () => {
    const { steps } = proposal.recipe;
    const relit = { ...proposal.recipe, steps: steps.filter((step) => step.kind === 'relight') };
    const edited = editView(readyRecipe(relit, faulty.view), faulty.view, SRGB);
    const truth = panels(WARM).view;
    const planted = (p: number): boolean => [2, 5, 8].includes(faulty.panel[p]) && faulty.shade[p] === 1;
    const before = error(faulty.view, truth, faulty.view, planted);
    expect(error(edited, truth, faulty.view, planted)).toBeLessThan(0.35 * before);
  });
});

describe('the light sheet', () => {
  /** A situation of the table at a contrast of 4. */
  const lightingOf = (name: string): Lighting => {
    const { key, fill } = situationOf(name)!;
    return {
      key: [0.8 * key[0], 0.8 * key[1], 0.8 * key[2]],
      fill: [0.2 * fill[0], 0.2 * fill[1], 0.2 * fill[2]],
    };
  };
  const { view, shade, panel } = panels(lightingOf('clearSun'));
  const input = inputFor(view, { light: { kind: 'situation', name: 'clearSun' } });
  const empty = { schema: 'halflight/recipe@1', steps: [] } as const;
  const sheet = [...lightSheet(input, empty, 600, measuredIn(examine(input)))];

  test('has the painting in every light of the table, six to twelve, each a valid recipe', () => {
    expect(sheet.map((o) => o.situation)).toEqual(SITUATIONS);
    expect(SITUATIONS.length).toBeGreaterThanOrEqual(6);
    expect(SITUATIONS.length).toBeLessThanOrEqual(12);
    for (const { recipe } of sheet) expect(checkRecipe(JSON.parse(JSON.stringify(recipe))).ok).toBe(true);
  });

  // The pictures in both lights are calculated: ρ(kK + A).
  test.each(['lampAtNight', 'dusk', 'window', 'underWater'])(
    'in “%s” lit and shaded places are each nearer to the true picture than a third of the way',
    (name) => {
      const truth = panels(lightingOf(name)).view;
      const turned = sheet.find((o) => o.situation.name === name)!.view;
      for (const wanted of [0, 1]) {
        const counts = (p: number): boolean => shade[p] === wanted && panel[p] < 12;
        const before = error(view, truth, view, counts);
        expect(error(turned, truth, view, counts)).toBeLessThan(0.34 * before);
      }
    },
  );

  test('values stay where colours stay inside the gamut', () => {
    const { recipe } = sheet.find((o) => o.situation.name === 'dusk')!;
    const ready = readyRecipe(recipe, null);
    for (const rgb of [
      [0.2, 0.2, 0.2],
      [0.3, 0.1, 0.05],
      [0.02, 0.05, 0.2],
    ]) {
      const one = Float64Array.from(rgb);
      ready.edit(one, 0, [], 0);
      expect(luminance(one[0], one[1], one[2])).toBeCloseTo(luminance(rgb[0], rgb[1], rgb[2]), 9);
    }
  });

  describe('of a sky', () => {
    const band = (at: number): [number, number, number] => {
      const [cool, warm] = [
        [0.18, 0.22, 0.34],
        [0.75, 0.42, 0.2],
      ];
      return [0, 1, 2].map((c) => cool[c] ** (1 - at) * warm[c] ** at) as [number, number, number];
    };
    // Blue above, a warm glow below, in front of the lit and shaded panels.
    const sky: View = {
      ...view,
      height: view.height + 150,
      rgb: new Float32Array(3 * view.width * (view.height + 150)),
    };
    for (let y = 0; y < sky.height; y++)
      for (let x = 0; x < sky.width; x++) {
        const from = 3 * ((y - 150) * sky.width + x);
        sky.rgb.set(
          y < 150 ? band(Math.min(1, Math.max(0, (y - 40) / 80))) : view.rgb.subarray(from, from + 3),
          3 * (y * sky.width + x),
        );
      }
    const under = inputFor(sky, { light: { kind: 'situation', name: 'clearSun' } });
    const lights = [...lightSheet(under, empty, 600, measuredIn(examine(under)))];
    const column = ({ view: turned }: { view: View }): [number, number, number][] =>
      Array.from({ length: 140 }, (_, y) => {
        const at = 3 * (y * turned.width + (turned.width >> 1));
        return [turned.rgb[at], turned.rgb[at + 1], turned.rgb[at + 2]];
      });

    test.each(SITUATIONS.map(({ name }) => name))('in “%s” has no border that was not painted', (name) => {
      const step = (rows: [number, number, number][]): number =>
        Math.max(...rows.slice(1).map((rgb, y) => ciede2000(linearToCielab(rgb), linearToCielab(rows[y]))));
      const painted = Array.from({ length: 140 }, (_, y) => [
        ...sky.rgb.subarray(3 * y * sky.width, 3 * y * sky.width + 3),
      ]) as [number, number, number][];
      const turned = lights.find((o) => o.situation.name === name)!;
      expect(step(column(turned))).toBeLessThan(2 * step(painted) + 0.5);
    });

    test('is grey under an overcast, and no warmer than it was in the lights with a cool key', () => {
      const warmth = ([r, , b]: readonly number[]): number => Math.log(r / b);
      const zenith = (name: string) => column(lights.find((o) => o.situation.name === name)!)[10];
      expect(Math.abs(warmth(zenith('overcast')))).toBeLessThan(0.35);
      expect(warmth(zenith('window'))).toBeLessThan(0.2);
      expect(warmth(zenith('moonByLamplight'))).toBeLessThan(0.2);
    });
  });

  // By eye, and by what is left of the error on the rendered pairs: see docs/light-sheet.md.
  test('from a very warm key no light with a cool one is offered', () => {
    const warm = panels(lightingOf('lampAtBlueHour')).view;
    const lamps = inputFor(warm, { light: { kind: 'situation', name: 'lampAtBlueHour' } });
    const names = [...lightSheet(lamps, empty, 60, measuredIn(examine(lamps)))].map((o) => o.situation.name);
    const cool = ['overcast', 'window', 'moonByLamplight'];
    expect(names).toEqual(SITUATIONS.map(({ name }) => name).filter((name) => !cool.includes(name)));
  });

  test('in its own light nearly nothing moves', () => {
    const own = sheet.find((o) => o.situation.name === 'clearSun')!.view;
    expect(error(own, view, view, () => true)).toBeLessThan(1);
  });

  test('a picture that does not tell lit from shade has none', () => {
    const flat: View = { ...view, width: 120, height: 90, rgb: new Float32Array(3 * 120 * 90).fill(0.3) };
    const plain = inputFor(flat);
    expect([...lightSheet(plain, empty, 200, measuredIn(examine(plain)))]).toEqual([]);
  });
});
