import { describe, expect, test } from 'vitest';
import { takeCensus } from '../../src/census/take.ts';
import { ciede2000 } from '../../src/colour/ciede2000.ts';
import { linearToCielab } from '../../src/colour/cielab.ts';
import { DISPLAY_P3, SRGB } from '../../src/colour/rgbSpaces.ts';
import { linearToSrgb, srgbToLinear } from '../../src/colour/transfer.ts';
import { readyRecipe } from '../../src/edits/compile.ts';
import { editRaster } from '../../src/edits/editRows.ts';
import { editView } from '../../src/edits/editView.ts';
import { EMPTY_RECIPE, type Recipe } from '../../src/edits/step.ts';
import { calmLoss, LEFT_OVER } from '../../src/handover/calm.ts';
import { fileName, nameTrouble } from '../../src/handover/fileName.ts';
import { gamutLook, viewInSpace } from '../../src/handover/gamutLook.ts';
import { handoverRows } from '../../src/handover/handoverRows.ts';
import { paletteOf } from '../../src/handover/palette.ts';
import { paletteCss, paletteTokens } from '../../src/handover/paletteText.ts';
import { PRESETS } from '../../src/handover/settings.ts';
import { checkSettings } from '../../src/handover/settingsSchema.ts';
import { planSize, type SizePlan } from '../../src/handover/sizePlan.ts';
import { bakeTable, readTable } from '../../src/handover/table.ts';
import { makeCloseView } from '../../src/views/average.ts';
import type { Raster } from '../../src/views/raster.ts';

const NOTHING = readyRecipe(EMPTY_RECIPE, null);

function raster(
  width: number,
  height: number,
  at: (x: number, y: number) => readonly number[],
  space = SRGB,
  depth: 8 | 16 = 16,
): Raster {
  const channels = at(0, 0).length as 3 | 4;
  const max = 2 ** depth - 1;
  const data =
    depth === 8 ? new Uint8Array(width * height * channels) : new Uint16Array(width * height * channels);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++) for (const v of at(x, y)) data[i++] = Math.round(max * v);
  return { width, height, channels, depth, data, space };
}

function made(picture: Raster, plan: SizePlan, over: Partial<Parameters<typeof handoverRows>[3]> = {}) {
  const target = {
    space: picture.space,
    depth: 16,
    sharpen: 0,
    ground: '#ffffff',
    opaque: false,
    ...over,
  } as const;
  const rows = handoverRows(NOTHING, picture, plan, target);
  const length = plan.width * plan.height * rows.channels;
  const out = target.depth === 16 ? new Uint16Array(length) : new Uint8Array(length);
  rows.write(0, plan.height, out);
  return { ...rows, data: out };
}

function plan(picture: Raster, size: Partial<(typeof PRESETS)['screen']['size']>): SizePlan {
  const planned = planSize(picture, { ...PRESETS.screen.size, enlarge: true, ...size });
  if (!planned.ok) throw new Error(planned.trouble);
  return planned.value;
}

describe('settings', () => {
  test('every preset passes its own check, and a file may hold only what differs', () => {
    for (const preset of Object.values(PRESETS))
      expect(checkSettings(preset)).toEqual({ ok: true, value: preset });
    const checked = checkSettings({ preset: 'print', size: { pixelsPerInch: 240 } });
    expect(checked).toMatchObject({
      ok: true,
      value: { format: 'tiff', size: { pixelsPerInch: 240, unit: 'mm' } },
    });
  });
  test.each([
    [[], 'braces'],
    [{ schema: 'halflight/handover@2' }, 'newer'],
    [{ schema: 'halflight/recipe@1' }, 'schema'],
    [{ preset: 'billboard' }, 'screen, print'],
    [{ size: { widht: 10 } }, 'size.width'],
    [{ size: { unit: 'mm' } }, 'pixelsPerInch'],
    [{ size: { fit: 'fill', width: null } }, 'width and a height'],
    [{ size: { fit: 'page', width: 100, height: 100, margin: 50 } }, 'margin'],
    [{ size: { ground: 'white' } }, '#ffffff'],
    [{ quality: 0 }, 'at least 1'],
    [{ depth: 12 }, 'depth'],
    [{ space: { profile: '' } }, 'space'],
    [{ preset: 'layered', size: { fit: 'within', width: 9 } }, 'layered'],
    [{ metadata: { keepLocation: true } }, 'keepOthers'],
    [{ name: '../{name}' }, 'every disk'],
    [{ name: '{nmae}' }, '{name}'],
    [{ name: 'CON' }, 'Windows'],
    [{ name: '.{name}' }, 'dot'],
    [{ name: ' ' }, 'needs a name'],
  ])('%j is refused: %s', (value, words) => {
    const checked = checkSettings(value);
    expect(checked.ok ? '' : checked.trouble).toContain(words);
  });
});

describe('names', () => {
  const words = { name: 'ferry', title: 'Dusk: 1/2', preset: 'print', width: 30, height: 20, number: 3 };
  test.each([
    ['{name} {width}x{height}', 'ferry 30x20'],
    ['{title}', 'Dusk- 1-2'],
    ['{number}. {preset}', '3. print'],
    ['{name}...', 'ferry'],
  ])('%s gives %s', (pattern, name) => {
    expect(nameTrouble(pattern)).toBeNull();
    expect(fileName(pattern, words)).toBe(name);
  });
  test.each(['../../etc', 'aux', '', '.hidden', 'a\nb', '-rf'])(
    'a picture called “%s” gets a safe name',
    (name) => {
      const safe = fileName('{name}', { ...words, name });
      expect(nameTrouble(safe)).toBeNull();
      expect(safe).not.toContain('/');
    },
  );
  test('long names are cut at whole letters', () => {
    const long = fileName('{name}', { ...words, name: 'ü'.repeat(400) });
    expect(new TextEncoder().encode(long).length).toBeLessThanOrEqual(180);
    expect(long).toMatch(/^ü+$/);
  });
});

describe('sizes', () => {
  const picture = { width: 3000, height: 2000 };
  const size = { ...PRESETS.screen.size, enlarge: false };
  test.each([
    ['within a square', { width: 900, height: 900 }, [900, 600, null]],
    ['one side free', { width: null, height: 500 }, [750, 500, null]],
    ['not enlarged', { width: 6000, height: 6000 }, [3000, 2000, null]],
    ['enlarged', { width: 6000, height: 6000, enlarge: true }, [6000, 4000, null]],
    ['print', { width: 254, height: 254, unit: 'mm', pixelsPerInch: 100 }, [1000, 667, 100]],
    [
      'print of too few pixels',
      { width: 20, height: 20, unit: 'inch', pixelsPerInch: 300 },
      [3000, 2000, 150],
    ],
    ['filled', { fit: 'fill', width: 1000, height: 1000 }, [1000, 1000, null]],
    ['filled, not enlarged', { fit: 'fill', width: 4000, height: 4000 }, [2000, 2000, null]],
    [
      'a page',
      { fit: 'page', width: 10, height: 10, unit: 'inch', pixelsPerInch: 100, margin: 1 },
      [1000, 1000, 100],
    ],
  ] as const)('%s', (_, change, [width, height, pixelsPerInch]) => {
    const planned = planSize(picture, { ...size, ...change });
    expect(planned).toMatchObject({ ok: true, value: { width, height, pixelsPerInch } });
  });
  test('a size beyond limits is refused', () => {
    const planned = planSize(picture, { ...size, width: 1e5, height: 1e5, enlarge: true });
    expect(planned.ok ? '' : planned.trouble).toContain('megapixels');
  });
});

describe('rows of the file', () => {
  const dusk = raster(60, 40, (x, y) => [x / 60, y / 40, ((x * 7 + y * 3) % 10) / 10]);
  test('a picture in its own size is the edit itself, code for code', () => {
    expect(made(dusk, plan(dusk, { fit: 'own' })).data).toEqual(dusk.data);
  });
  test('rows asked for in pieces, and again from the top, are the same', () => {
    const small = plan(dusk, { width: 21, height: 21 });
    const { data, write, channels } = made(dusk, small, { sharpen: 40 });
    const again = new Uint16Array(data.length);
    for (let y = 0; y < small.height; y += 3) {
      const count = Math.min(3, small.height - y);
      write(y, count, again.subarray(channels * small.width * y, channels * small.width * (y + count)));
    }
    expect(again).toEqual(data);
  });
  test('mean light is kept by a reduction, not mean code values', () => {
    const checks = raster(64, 64, (x, y) => ((x + y) % 2 === 0 ? [1, 1, 1] : [0, 0, 0]));
    const { data } = made(checks, plan(checks, { width: 8, height: 8 }));
    // Half the light in the middle, by the formula of IEC 61966-2-1.
    expect(data[3 * (4 * 8 + 4)] / 65535).toBeCloseTo(linearToSrgb(0.5), 3);
    const mean =
      Array.from(data, (v) => srgbToLinear(v / 65535)).reduce((sum, v) => sum + v, 0) / data.length;
    expect(mean).toBeCloseTo(0.5, 3);
  });
  test('transparent colours do not bleed, and the ground shows through where there is no alpha', () => {
    const cut = raster(32, 32, (x) => (x < 16 ? [1, 0, 0, 1] : [0, 1, 0, 0]));
    const half = plan(cut, { width: 16, height: 16 });
    const clear = made(cut, half);
    for (let x = 0; x < 16; x++) if (clear.data[4 * x + 3] > 0) expect(clear.data[4 * x + 1]).toBe(0);
    const flat = made(cut, half, { opaque: true, ground: '#0000ff' });
    expect(flat.channels).toBe(3);
    expect([...flat.data.subarray(3 * 15, 3 * 16)]).toEqual([0, 0, 65535]);
  });
  test('a page sets the picture in the middle of its ground', () => {
    const grey = raster(20, 10, () => [0.5, 0.5, 0.5]);
    const page = plan(grey, { fit: 'page', width: 40, height: 40, margin: 5 });
    expect(page.place).toEqual({ x: 5, y: 12, width: 30, height: 15 });
    const { data } = made(grey, page, { depth: 8 });
    expect([...data.subarray(0, 3)]).toEqual([255, 255, 255]);
    expect(Math.abs(data[3 * (20 * 40 + 20)] - 127.5)).toBeLessThanOrEqual(1);
  });
  test('sharpening leaves even places and widens the step at an edge', () => {
    const edge = raster(40, 40, (x) => (x < 20 ? [0.3, 0.3, 0.3] : [0.6, 0.6, 0.6]));
    const half = plan(edge, { width: 20, height: 20 });
    const [off, on] = [0, 100].map((sharpen) => made(edge, half, { sharpen }).data);
    expect(on[0]).toBe(off[0]);
    const step = (d: ArrayLike<number>) => d[3 * 10] - d[3 * 9];
    expect(step(on)).toBeGreaterThan(1.1 * step(off));
  });
});

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

describe('what a space loses', () => {
  // A picture in Display P3, a quarter of it outside sRGB.
  const wide = raster(48, 48, (x, y) => (x < 24 && y < 24 ? [0.1, 0.95, 0.1] : [0.4, 0.45, 0.5]), DISPLAY_P3);
  const view = makeCloseView(wide);
  test('its share, its place, and the picture as it will be', () => {
    const look = gamutLook(view, viewInSpace(view, SRGB));
    expect(look.share).toBeCloseTo(0.25, 6);
    expect(look.map.data[0]).toBe(1);
    expect(look.map.data[40]).toBe(0);
    for (const v of look.shown.rgb) expect(v).toBeGreaterThanOrEqual(-1e-6);
    expect(gamutLook(view, viewInSpace(view, DISPLAY_P3)).share).toBe(0);
  });
  test('a step calms what is lost, and little else', async () => {
    const calm = await calmLoss(view, DISPLAY_P3, (v) => gamutLook(v, viewInSpace(v, SRGB)));
    expect(calm.enough).toBe(true);
    expect(calm.after).toBeLessThan(LEFT_OVER);
    const edited = editView(
      readyRecipe({ schema: 'halflight/recipe@1', steps: calm.steps }, view),
      view,
      DISPLAY_P3,
    );
    expect(gamutLook(edited, viewInSpace(edited, SRGB)).share).toBeLessThan(LEFT_OVER);
    // The greyed corner that nothing was lost of.
    const last = edited.rgb.length - 3;
    for (let c = 0; c < 3; c++) expect(edited.rgb[last + c]).toBeCloseTo(view.rgb[last + c], 2);
  });
  test('nothing lost needs no step', async () => {
    const calm = await calmLoss(view, DISPLAY_P3, (v) => gamutLook(v, viewInSpace(v, DISPLAY_P3)));
    expect(calm).toEqual({ steps: [], before: 0, after: 0, enough: true });
  });
});

describe('palette', () => {
  const colours = [
    [0.12, 0.14, 0.3],
    [0.25, 0.3, 0.5],
    [0.55, 0.6, 0.7],
    [0.5, 0.35, 0.25],
    [0.1, 0.1, 0.1],
    [0.8, 0.8, 0.78],
  ];
  const picture = raster(
    60,
    60,
    (x, y) => (x < 5 && y < 8 ? [1, 0.55, 0.1] : colours[Math.floor(x / 10)]),
    SRGB,
    8,
  );
  const palette = paletteOf(takeCensus(picture));
  test('finds the colours that were laid down, the accent too, with their areas', () => {
    expect(palette.length).toBeGreaterThanOrEqual(5);
    expect(palette.length).toBeLessThanOrEqual(12);
    expect(palette.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
    const accent = palette.find(({ role }) => role === 'accent');
    expect(accent?.share).toBeCloseTo(40 / 3600, 6);
    expect(accent?.hex).toBe('#ff8c1a');
    for (const colour of colours) {
      const hex = `#${colour
        .map((v) =>
          Math.round(255 * v)
            .toString(16)
            .padStart(2, '0'),
        )
        .join('')}`;
      expect(palette.map((entry) => entry.hex)).toContain(hex);
    }
    expect(new Set(palette.map(({ name }) => name)).size).toBe(palette.length);
  });
  test('an empty picture has none', () => {
    expect(paletteOf(takeCensus(raster(4, 4, () => [0, 0, 0, 0])))).toEqual([]);
  });
  test('design tokens and custom properties', () => {
    // Rules of the Design Tokens Format Module 2025.10, sections 5.1, 5.2 and 8.1, and of its Color Module, section 4.
    const { palette: group } = paletteTokens(palette, 'Ferry landing') as {
      palette: Record<
        string,
        { $value: { colorSpace: string; components: number[]; alpha: number; hex: string } }
      >;
    };
    const tokens = Object.entries(group).filter(([key]) => !key.startsWith('$'));
    expect(Reflect.get(group, '$type')).toBe('color');
    expect(tokens).toHaveLength(palette.length);
    for (const [name, token] of tokens) {
      // The JSON schema of the format allows nothing else, and six digits without alpha.
      expect(Object.keys(token)).toEqual(['$type', '$value', '$description', '$extensions']);
      const { $value } = token;
      expect(Object.keys($value)).toEqual(['colorSpace', 'components', 'alpha', 'hex']);
      for (const v of $value.components) expect(v >= 0 && v <= 1).toBe(true);
      expect(name).toMatch(/^[^${}.][^{}.]*$/);
      expect($value.colorSpace).toBe('srgb');
      expect($value.components).toHaveLength(3);
      expect($value.hex).toBe(
        `#${$value.components
          .map((v) =>
            Math.round(255 * v)
              .toString(16)
              .padStart(2, '0'),
          )
          .join('')}`,
      );
    }
    expect(paletteCss(palette, 'Ferry */ landing')).toMatch(
      /^\/\* [^*]* \*\/\n:root \{\n( {2}--[a-z0-9-]+: #[0-9a-f]{6}; \/\* [^*]+ \*\/\n)+\}\n$/,
    );
  });
});
