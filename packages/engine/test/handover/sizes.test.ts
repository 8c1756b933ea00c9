import { describe, expect, test } from 'vitest';
import { linearToSrgb, srgbToLinear } from '../../src/colour/transfer.ts';
import { readyRecipe } from '../../src/edits/compile.ts';
import { EMPTY_RECIPE } from '../../src/edits/step.ts';
import { handoverRows } from '../../src/handover/handoverRows.ts';
import { PRESETS } from '../../src/handover/settings.ts';
import { planSize, type SizePlan } from '../../src/handover/sizePlan.ts';
import type { Raster } from '../../src/views/raster.ts';
import { raster } from './rasters.ts';

const NOTHING = readyRecipe(EMPTY_RECIPE, null);

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
