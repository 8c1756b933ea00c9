import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Area } from '../../src/areas/area.ts';
import { luminance } from '../../src/colour/cielab.ts';
import { fromSrgb } from '../../src/colour/gamut.ts';
import { transform } from '../../src/colour/matrix.ts';
import { linearToOklab } from '../../src/colour/oklab.ts';
import { DISPLAY_P3, SRGB } from '../../src/colour/rgbSpaces.ts';
import { readyRecipe, stepRunner } from '../../src/edits/compile.ts';
import { editRaster } from '../../src/edits/editRows.ts';
import { editView } from '../../src/edits/editView.ts';
import { STEPS } from '../../src/edits/list.ts';
import { checkRecipe } from '../../src/edits/recipeSchema.ts';
import type { Recipe, Step, StepData, StepKind } from '../../src/edits/step.ts';
import { makeCloseView } from '../../src/views/average.ts';
import type { Raster } from '../../src/views/raster.ts';
import type { View } from '../../src/views/view.ts';

const DATA: StepData = {
  families: [
    { hue: 285, width: 40 },
    { hue: 60, width: 30 },
  ],
  colour: [0.3, 0.35, 0.5],
  gains: [0.8, 1, 1.5],
  from: { mean: [0.5, 0.02, -0.03], covariance: [0.04, 0, 0, 0, 0.003, 0, 0, 0, 0.004] },
  to: { mean: [0.45, 0.01, -0.05], covariance: [0.03, 0.001, 0, 0.001, 0.002, 0, 0, 0, 0.006] },
};
/** A step of a kind with every value part of the way from neutral to an end. */
function stepOf(kind: StepKind, part: number, strength = 1): Step {
  const values = Object.fromEntries(
    kind.parameters.map((p) => [
      p.key,
      p.neutral + Math.abs(part) * ((part < 0 ? p.min : p.max) - p.neutral),
    ]),
  );
  return { kind: kind.id, on: true, strength, values, data: DATA };
}
const recipe = (...steps: Step[]): Recipe => ({ schema: 'halflight/recipe@1', steps });

function noise(seed: number, depth: 8 | 16, channels: 3 | 4, space = SRGB): Raster {
  const length = 20 * 12 * channels;
  const data = depth === 8 ? new Uint8Array(length) : new Uint16Array(length);
  let s = seed;
  for (let i = 0; i < length; i++) {
    s = (Math.imul(s, 1664525) + 1013904223) >>> 0;
    data[i] = Math.floor((s / 2 ** 32) * 2 ** depth);
  }
  return { width: 20, height: 12, channels, depth, data, space };
}
const linear = fc.tuple(...[0, 1, 2].map(() => fc.double({ min: 0, max: 1, noNaN: true })));

describe.each(STEPS.map((kind) => [kind.id, kind] as const))('%s', (_, kind) => {
  test('strength 0, neutral values and switched off leave every code value, at 8 and 16 bits', () => {
    const off: Step[] = [stepOf(kind, 0.5, 0), stepOf(kind, 0), { ...stepOf(kind, 0.5), on: false }];
    for (const step of off)
      for (const raster of [noise(1, 8, 3), noise(2, 16, 4), noise(3, 8, 3, DISPLAY_P3)]) {
        const out = editRaster(readyRecipe(recipe(step), null), raster, raster);
        expect(out.data).toEqual(raster.data);
      }
  });

  test('an edit writes only code values of the target, and alpha stays', () => {
    for (const part of [-1, -0.4, 0.4, 1]) {
      const raster = noise(7, 16, 4, DISPLAY_P3);
      const { data } = editRaster(readyRecipe(recipe(stepOf(kind, part)), null), raster, {
        space: SRGB,
        depth: 8,
      });
      for (let i = 3; i < data.length; i += 4) expect(data[i]).toBe(Math.round(raster.data[i] / 257));
    }
  });

  test('half the strength lies between nothing and all of it, colour by colour', () => {
    fc.assert(
      fc.property(linear, (rgb) => {
        const run = (strength: number): Float64Array => {
          const one = Float64Array.from(rgb);
          readyRecipe(recipe(stepOf(kind, 0.3, strength)), null).edit(one, 0, [], 0);
          return one;
        };
        const [none, half, all] = [0, 0.5, 1].map((s) => linearToOklab(run(s) as never));
        const far = Math.hypot(...all.map((v, c) => v - none[c]));
        const way = Math.hypot(...half.map((v, c) => v - none[c]));
        // Turns and powers bend the path; it never leads farther off than its end, give or take a tenth.
        expect(way).toBeLessThanOrEqual(1.1 * far + 1e-9);
      }),
      { numRuns: 200 },
    );
  });

  test('has words for everything it offers', () => {
    for (const { key, label, min, max, neutral, first } of kind.parameters) {
      expect(kind.sentence).toContain(`{${key}}`);
      expect(label.length).toBeGreaterThan(0);
      expect(min <= neutral && neutral <= max && min <= first && first <= max).toBe(true);
    }
  });
});

describe('hue steps keep lightness before gamut mapping', () => {
  test.each(
    STEPS.filter((k) => ['gatherHues', 'calmStrays', 'hueTurn', 'chroma'].includes(k.id)).map(
      (k) => [k.id, k] as const,
    ),
  )('%s', (_, kind) => {
    fc.assert(
      fc.property(linear, fc.double({ min: -1, max: 1, noNaN: true }), (rgb, part) => {
        const one = Float64Array.from(rgb);
        readyRecipe(recipe(stepOf(kind, part)), null).edit(one, 0, [], 0);
        const before = linearToOklab(rgb as never)[0];
        expect(Math.abs(linearToOklab(one as never)[0] - before)).toBeLessThan(0.005);
      }),
      { numRuns: 300 },
    );
  });
});

/** Steps of value that say they keep the order of values, as far as their sliders go. */
describe('greys keep their order', () => {
  const grey = fc.double({ min: 0, max: 1, noNaN: true });
  const part = fc.double({ min: -1, max: 1, noNaN: true });
  test.each(
    STEPS.filter((k) =>
      ['exposure', 'contrast', 'valueGroups', 'openEnds', 'veil', 'warmth', 'relight'].includes(k.id),
    ).map((k) => [k.id, k] as const),
  )('%s', (_, kind) => {
    fc.assert(
      fc.property(grey, grey, part, (a, b, t) => {
        const { edit } = readyRecipe(recipe(stepOf(kind, t)), null);
        const [low, high] = [Math.min(a, b), Math.max(a, b)].map((v) => {
          const one = new Float64Array(3).fill(v);
          edit(one, 0, [], 0);
          return luminance(one[0], one[1], one[2]);
        });
        expect(low).toBeLessThanOrEqual(high + 1e-9);
      }),
      { numRuns: 300 },
    );
  });
});

test('value groups never change places: any mix of moves, strength, cover, and steps upon each other', () => {
  const move = fc.integer({ min: -15, max: 15 });
  const unit = fc.double({ min: 0, max: 1, noNaN: true });
  const groups = fc.tuple(move, move, move, unit).map(
    ([darks, middles, lights, strength]): Step => ({
      kind: 'valueGroups',
      on: true,
      strength,
      values: { darks, middles, lights },
    }),
  );
  fc.assert(
    fc.property(fc.array(groups, { minLength: 1, maxLength: 3 }), unit, (steps, cover) => {
      const edit = stepRunner(
        steps,
        steps.map(() => 0),
      );
      let last = -1;
      for (let k = 0; k <= 100; k++) {
        const one = new Float64Array(3).fill((k / 100) ** 3);
        edit(one, 0, [cover], 0);
        const [L] = linearToOklab(one as never);
        expect(L).toBeGreaterThan(last);
        last = L;
      }
      expect(last).toBeCloseTo(1, 6);
    }),
    {
      numRuns: 300,
      examples: [
        [[strongly(15, -15, 15)], 1],
        [[strongly(-15, 15, -15)], 1],
      ],
    },
  );
});

test('value groups that keep their order go exactly as far as they are told', () => {
  for (const moves of [
    [3, 0, 0],
    [-4, 2, 5],
    [10, 8, 4],
  ])
    [0.25, 0.55, 0.85].forEach((at, k) => {
      const one = new Float64Array(3).fill(at ** 3);
      readyRecipe(recipe(strongly(...(moves as [number, number, number]))), null).edit(one, 0, [], 0);
      expect(linearToOklab(one as never)[0]).toBeCloseTo(at + moves[k] / 100, 6);
    });
});

function strongly(darks: number, middles: number, lights: number): Step {
  return { kind: 'valueGroups', on: true, strength: 1, values: { darks, middles, lights } };
}

describe.each([SRGB, DISPLAY_P3])('after export every value lies inside $name', (space) => {
  test.each(STEPS.map((kind) => [kind.id, kind] as const))('%s', (_, kind) => {
    const into = fromSrgb(space);
    fc.assert(
      fc.property(
        fc.array(linear, { minLength: 4, maxLength: 4 }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        (colours, part) => {
          const view: View = {
            width: 2,
            height: 2,
            rgb: Float32Array.from(colours.flat()),
            alpha: null,
            scale: 1,
          };
          const { rgb } = editView(readyRecipe(recipe(stepOf(kind, part)), view), view, space);
          for (let i = 0; i < 12; i += 3)
            for (const v of transform(into, [rgb[i], rgb[i + 1], rgb[i + 2]])) {
              // Single precision, in which a view is kept.
              expect(v).toBeGreaterThan(-1e-5);
              expect(v).toBeLessThan(1 + 1e-5);
            }
        },
      ),
      { numRuns: 60 },
    );
  });
});

test('values keep their order when ends are opened, as far as the sliders go', () => {
  const kind = STEPS.find((k) => k.id === 'openEnds')!;
  const ready = readyRecipe(recipe(stepOf(kind, 1)), null);
  let last = -1;
  for (let k = 0; k <= 200; k++) {
    const one = new Float64Array(3).fill((k / 200) ** 3);
    ready.edit(one, 0, [], 0);
    const [L] = linearToOklab(one as never);
    expect(L).toBeGreaterThanOrEqual(last - 1e-9);
    last = L;
  }
});

test('opened darks are not grey: a dark blue keeps its chroma or gains', () => {
  const kind = STEPS.find((k) => k.id === 'openEnds')!;
  const one = Float64Array.from([0.002, 0.003, 0.012]);
  const before = linearToOklab(one as never);
  readyRecipe(recipe(stepOf(kind, 0.3)), null).edit(one, 0, [], 0);
  const after = linearToOklab(one as never);
  expect(after[0]).toBeGreaterThan(before[0] + 0.02);
  expect(Math.hypot(after[1], after[2])).toBeGreaterThan(Math.hypot(before[1], before[2]));
});

test('a step with an area changes its side of the picture and leaves the other side bit for bit', () => {
  const raster: Raster = {
    width: 60,
    height: 40,
    channels: 3,
    depth: 8,
    data: new Uint8Array(7200),
    space: SRGB,
  };
  for (let p = 0; p < 2400; p++) raster.data.fill(p % 60 < 30 ? 60 : 170, 3 * p, 3 * p + 3);
  const area: Area = { parts: [{ joining: 'add', kind: 'values', from: 50, to: 100 }], soften: 0 };
  const step: Step = { ...stepOf(STEPS.find((k) => k.id === 'exposure')!, -0.2), area };
  const { data } = editRaster(readyRecipe(recipe(step), makeCloseView(raster)), raster, raster);
  expect(data[3 * (20 * 60 + 10)]).toBe(60);
  expect(data[3 * (20 * 60 + 50)]).toBeLessThan(140);
});

describe('recipes from files', () => {
  const good = { schema: 'halflight/recipe@1', steps: [{ kind: 'exposure', values: { stops: 0.5 } }] };
  test('a short one is filled in, newer fields are kept', () => {
    const checked = checkRecipe({ ...good, later: { a: 1 } });
    expect(checked.ok && checked.value).toMatchObject({
      later: { a: 1 },
      steps: [{ on: true, strength: 1 }],
    });
  });
  test.each([
    [null, /./],
    [{}, /schema/],
    [{ ...good, schema: 'halflight/recipe@2' }, /newer/],
    [{ ...good, steps: [{ kind: 'sharpen' }] }, /steps\.0\.kind/],
    [{ ...good, steps: [{ kind: 'exposure', values: { stops: 9 } }] }, /goes from -4 to 4/],
    [{ ...good, steps: [{ kind: 'exposure', values: { stop: 1 } }] }, /no value “stop”/],
    [{ ...good, steps: [{ kind: 'match' }] }, /needs “data\.from”/],
    [{ ...good, steps: [{ kind: 'exposure', strength: 2 }] }, /strength/],
  ])('%j is refused with a sentence', (value, words) => {
    const checked = checkRecipe(value);
    expect(checked.ok).toBe(false);
    expect(checked.ok ? '' : checked.trouble).toMatch(words);
  });
});
