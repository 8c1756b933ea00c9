import { describe, expect, test } from 'vitest';
import { ciede2000 } from '../../src/colour/ciede2000.ts';
import { linearToCielab } from '../../src/colour/cielab.ts';
import { DISPLAY_P3, SRGB } from '../../src/colour/rgbSpaces.ts';
import { srgbToLinear } from '../../src/colour/transfer.ts';
import { readyRecipe } from '../../src/edits/compile.ts';
import { editRaster } from '../../src/edits/editRows.ts';
import { EMPTY_RECIPE, type Recipe } from '../../src/edits/step.ts';
import { bakeTable, readTable, tableNote, tableSpace } from '../../src/handover/table.ts';
import { raster } from './rasters.ts';

describe('the edit as a table', () => {
  const recipe: Recipe = {
    schema: 'halflight/recipe@1',
    steps: [
      { kind: 'exposure', on: true, strength: 1, values: { stops: -0.4 } },
      { kind: 'warmth', on: true, strength: 1, values: { mired: 25 } },
      { kind: 'openEnds', on: true, strength: 1, values: { darks: 5, chroma: 8 } },
      {
        kind: 'chroma',
        on: true,
        strength: 1,
        values: { gain: 0.5 },
        area: { soften: 0, parts: [{ joining: 'add', kind: 'gradient', from: [0, 0], to: [1, 1] }] },
      },
    ],
  };
  test('names what it holds and what it can’t', () => {
    const { holds, leftOut } = bakeTable(recipe, 'srgb', 9);
    expect(holds).toHaveLength(3);
    expect(leftOut).toEqual(['Chroma']);
  });
  test.each([
    ['srgb', DISPLAY_P3, 'srgb', false],
    ['own', DISPLAY_P3, 'display-p3', false],
    ['own', { ...SRGB, name: 'of a scanner' }, 'srgb', true],
    [{ profile: 'paper.icc', intent: 'relative', blackPoint: true }, DISPLAY_P3, 'srgb', true],
  ] as const)('for a file in %j takes its code values, or says which', (wanted, own, space, said) => {
    expect(tableSpace(wanted, own)).toBe(space);
    expect(tableNote(wanted, own) !== null).toBe(said);
  });
  test('an edit that does nothing is the table of equal values', () => {
    const table = bakeTable(EMPTY_RECIPE, 'display-p3', 5);
    const out = new Float64Array(3);
    readTable(table, [0.13, 0.72, 0.4], out);
    [0.13, 0.72, 0.4].forEach((v, c) => {
      expect(out[c]).toBeCloseTo(v, 6);
    });
    expect(table.off.most).toBeLessThan(1e-3);
  });
  test('gives what the full-size edit gives', () => {
    const table = bakeTable(recipe, 'srgb');
    expect(table.off.median).toBeLessThan(0.1);
    const colours = raster(32, 32, (x, y) => [0.1 + x / 45, 0.1 + y / 45, 0.2 + ((x * y) % 20) / 40]);
    const whole = { ...recipe, steps: recipe.steps.slice(0, 3) };
    const edited = editRaster(readyRecipe(whole, null), colours, { space: SRGB, depth: 16 });
    const out = new Float64Array(3);
    const differences: number[] = [];
    for (let i = 0; i < colours.data.length; i += 3) {
      readTable(table, [0, 1, 2].map((c) => colours.data[i + c] / 65535) as [number, number, number], out);
      const lab = (code: (c: number) => number) =>
        linearToCielab([0, 1, 2].map((c) => srgbToLinear(code(c))) as [number, number, number]);
      differences.push(
        ciede2000(
          lab((c) => out[c]),
          lab((c) => edited.data[i + c] / 65535),
        ),
      );
    }
    differences.sort((a, b) => a - b);
    expect(differences[differences.length >> 1]).toBeLessThan(0.1);
    expect(differences[Math.floor(0.99 * differences.length)]).toBeLessThan(1);
  });
});
