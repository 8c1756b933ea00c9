import { type Raster, SRGB, takeCensus } from '@halflight/engine';
import { describe, expect, test } from 'vitest';
import { drawStrips } from '../../src/check/drawStrips.ts';
import { FIRST_HUE, makeStrips, STEPS } from '../../src/check/strips.ts';
import { styleOf } from '../../src/terminal/style.ts';

function picture(...colours: [number, number, number][]): Raster {
  const data = Uint8Array.from(colours.flat());
  return { width: colours.length, height: 1, channels: 3, depth: 8, data, space: SRGB };
}

const RED: [number, number, number] = [255, 0, 0];
const BLUE: [number, number, number] = [0, 0, 255];
const GREY: [number, number, number] = [119, 119, 119];
const colour = styleOf({ isTTY: false }, { FORCE_COLOR: '3' });

describe('the hue strip', () => {
  // OKLCh hues of sRGB's primaries: 29.2° and 264.1° (CSS Color 4, sample conversions).
  test('puts red and blue where their hues are', () => {
    const { hues } = makeStrips(takeCensus(picture(RED, BLUE)));
    const filled = hues.flatMap((step, i) => (step.weight > 0 ? [i] : []));
    const stepOf = (hue: number): number => Math.floor((((hue - FIRST_HUE + 360) % 360) / 360) * STEPS);
    expect(filled).toEqual([stepOf(29.2), stepOf(264.1)]);
    expect(hues[filled[0]].colour).toBe('#ff0000');
    expect(hues[filled[1]].colour).toBe('#0000ff');
  });

  test('is left away for a picture without hues', () => {
    const strips = makeStrips(takeCensus(picture(GREY, [0, 0, 0])));
    expect(drawStrips(strips, colour).join()).not.toContain('Hues');
  });

  test('names the hues below', () => {
    const [strip] = drawStrips(makeStrips(takeCensus(picture(RED, BLUE))), colour);
    expect(strip.split('\n')[1]).toMatch(/red .*blue/);
  });
});

describe('the value strip', () => {
  test('runs from dark to light in shares of the area', () => {
    const { values } = makeStrips(takeCensus(picture([255, 255, 255], [0, 0, 0], [0, 0, 0])));
    expect(values).toHaveLength(STEPS);
    expect(values.map((step) => step.grey)).toEqual([
      ...Array(40).fill('#000000'),
      ...Array(20).fill('#ffffff'),
    ]);
  });

  test('shows the grey of equal luminance below each colour', () => {
    const { values } = makeStrips(takeCensus(picture(RED)));
    // Y of sRGB red is 0.2126 (IEC 61966-2-1): code 127 of 255.
    expect(values[0]).toEqual({ colour: '#ff0000', grey: '#7f7f7f' });
  });

  test('is empty for a picture without area', () => {
    const clear = { ...picture(), channels: 4, width: 1, data: Uint8Array.of(9, 9, 9, 0) } as Raster;
    expect(makeStrips(takeCensus(clear)).values).toEqual([]);
  });
});
