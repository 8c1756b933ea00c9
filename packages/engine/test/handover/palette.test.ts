import { describe, expect, test } from 'vitest';
import { takeCensus } from '../../src/census/take.ts';
import { SRGB } from '../../src/colour/rgbSpaces.ts';
import { paletteOf } from '../../src/handover/palette.ts';
import { paletteCss, paletteTokens } from '../../src/handover/paletteText.ts';
import { raster } from './rasters.ts';

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
