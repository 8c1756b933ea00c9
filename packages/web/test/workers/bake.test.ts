import {
  ciede2000,
  editView,
  linearToCielab,
  type Recipe,
  readyRecipe,
  SRGB,
  srgbToLinear,
  type Triple,
  type View,
} from '@halflight/engine';
import { describe, expect, test } from 'vitest';
import type { CardPass } from '../../src/picture/edit-desk.ts';
import { bakePasses, cardSourceOf } from '../../src/workers/picture/edit/bake.ts';
import { step } from '../samples.ts';

/** A slice that winds through the cube of colours, from `low` to `high` in code values. */
function slice(low: number, high: number): View {
  const width = 96;
  const height = 96;
  const rgb = new Float32Array(3 * width * height);
  for (let p = 0; p < width * height; p++) {
    const [x, y] = [(p % width) / (width - 1), Math.floor(p / width) / (height - 1)];
    const codes = [x, y, (Math.sin(9 * x) * Math.cos(7 * y) + 1) / 2];
    codes.forEach((code, c) => {
      rgb[3 * p + c] = srgbToLinear(low + (high - low) * code);
    });
  }
  return { width, height, rgb, alpha: null, scale: 1 };
}

/** Tetrahedral interpolation as it is published (Kasson, Plouffe, Nin 1993): the corners in the order of the channels. */
function look({ data, size }: CardPass, p: readonly number[], level: number): number[] {
  const base = p.map((v) => Math.min(size - 2, Math.floor(v)));
  const rest = p.map((v, c) => v - base[c]);
  const order = [0, 1, 2].sort((a, b) => rest[b] - rest[a]);
  const corner = [...base];
  const value = (at: readonly number[]): number[] => {
    const o = 4 * (((level * size + at[2]) * size + at[1]) * size + at[0]);
    return [data[o], data[o + 1], data[o + 2]];
  };
  let before = value(corner);
  const out = [...before];
  for (const c of order) {
    corner[c]++;
    const next = value(corner);
    for (let k = 0; k < 3; k++) out[k] += rest[c] * (next[k] - before[k]);
    before = next;
  }
  return out;
}

function throughTables(passes: readonly CardPass[], view: View, cover: number): number[][] {
  const { data, width, height } = cardSourceOf(view);
  return Array.from({ length: width * height }, (_, p) => {
    let colour: number[] = [...data.subarray(4 * p, 4 * p + 3)];
    for (const pass of passes) {
      const { size, levels, low, high } = pass;
      const at = colour.map(
        (v, c) => Math.min(1, Math.max(0, (v - low[c]) / (high[c] - low[c]))) * (size - 1),
      );
      const k = levels === 1 ? 0 : cover * (levels - 1);
      const level = levels === 1 ? 0 : Math.min(levels - 2, Math.floor(k));
      const a = look(pass, at, level);
      const b = levels === 1 ? a : look(pass, at, level + 1);
      colour = a.map((v, c) => v + (k - level) * (b[c] - v) * (levels === 1 ? 0 : 1));
    }
    return colour;
  });
}

const recipe = (steps: Recipe['steps']): Recipe => ({ schema: 'halflight/recipe@1', steps });
const families = [
  { hue: 270, width: 50 },
  { hue: 60, width: 50 },
];
const lower = { soften: 0, parts: [{ joining: 'add' as const, kind: 'values' as const, from: 0, to: 100 }] };

/** CIEDE2000 between what tables show and what the kernel makes, per place. */
async function differences(steps: Recipe['steps'], view: View): Promise<number[]> {
  const passes = await bakePasses(recipe(steps), view, SRGB, 'srgb', true, () => true);
  const everywhere = recipe(steps.map(({ area: _area, ...rest }) => rest));
  const meant = editView(readyRecipe(everywhere, null), view, SRGB);
  const lab = (rgb: readonly number[]): Triple => linearToCielab(rgb as unknown as Triple);
  return throughTables(passes ?? [], view, 1).map((codes, p) => {
    const own = [...meant.rgb.subarray(3 * p, 3 * p + 3)].map((v) => Math.min(1, Math.max(0, v)));
    return ciede2000(lab(codes.map((v) => srgbToLinear(v))), lab(own));
  });
}

// What is shown at rest does not come from tables; while a value is dragged a difference of 1 is hardly seen (common
// practice, no source). Mapping into the gamut jumps at its border, so that the strongest colours only count in the mean.
describe.each<[string, Recipe['steps']]>([
  ['exposure', [step()]],
  [
    'contrast and warmth',
    [step({ kind: 'contrast', values: { amount: 0.3 } }), step({ kind: 'warmth', values: { mired: 40 } })],
  ],
  ['gathered hues', [step({ kind: 'gatherHues', values: { amount: 60 }, data: { families } })]],
  [
    'two passes, the first in an area',
    [step({ area: lower }), step({ kind: 'chroma', values: { gain: 1.2 } })],
  ],
])('tables show %s as the kernel makes it', (_, steps) => {
  test('colours of a painting, each of them', async () => {
    expect(Math.max(...(await differences(steps, slice(0.25, 0.6))))).toBeLessThan(1.5);
  });

  test('all colours, in the mean', async () => {
    const all = await differences(steps, slice(0.02, 0.98));
    expect(all.reduce((sum, d) => sum + d, 0) / all.length).toBeLessThan(0.5);
  });
});

test('a newer wish ends the baking', async () => {
  expect(await bakePasses(recipe([step()]), slice(0, 1), SRGB, 'srgb', true, () => false)).toBeNull();
});
