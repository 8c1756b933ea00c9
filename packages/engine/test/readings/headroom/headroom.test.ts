import { describe, expect, test } from 'vitest';
import { headroom } from '../../../src/readings/headroom/headroom.ts';
import { smoothness } from '../../../src/readings/headroom/smoothness.ts';
import { makeViews } from '../../../src/views/makeViews.ts';
import { grain, inputOf, paint } from '../pictures.ts';

const read = (raster: ReturnType<typeof paint>) => {
  const input = inputOf(raster);
  const reading = headroom.read(input);
  return { value: reading.value, reading, findings: headroom.findings(reading, input), input };
};

/** A quiet picture in which the share `dark` is black and the share `light` white. */
const closed = (dark: number, light: number) =>
  paint(200, 200, (x, y) => [
    x < dark ? 0 : x > 1 - light ? 1 : 0.4 + 0.2 * y,
    x < dark || x > 1 - light ? 0 : 0.03,
    280,
  ]);

describe('headroom', () => {
  test.each([
    [0, 0],
    [0.1, 0],
    [0, 0.25],
    [0.2, 0.05],
  ])('closed darks %d and lights %d are counted exactly', (dark, light) => {
    const { value } = read(closed(dark, light));
    expect(value.darksShare).toBeCloseTo(dark, 3);
    expect(value.lightsShare).toBeCloseTo(light, 3);
    expect(value.endsShare).toBeCloseTo(dark + light, 3);
  });

  test('findings rise with the planted amount and name the end', () => {
    const severities = [0.02, 0.05, 0.14, 0.4].map((dark) => {
      const found = read(closed(dark, 0)).findings;
      return found.find((f) => f.key === 'headroom.darks')?.severity ?? 0;
    });
    expect(severities[0]).toBe(0);
    for (let k = 1; k < severities.length; k++) expect(severities[k]).toBeGreaterThan(severities[k - 1]);
    expect(read(closed(0.14, 0)).findings[0].text).toMatch(/14 %/);
  });

  test('a night that was decided may close some of its darks, not all', () => {
    const severity = (dark: number, at?: number): number => {
      const mood = at === undefined ? {} : { mood: { axes: { key: { at, tolerance: 8 } } } };
      const input = inputOf(closed(dark, 0), mood);
      const found = headroom.findings(headroom.read(input), input).find((f) => f.key === 'headroom.darks');
      return found?.severity ?? 0;
    };
    expect(severity(0.1, 18)).toBe(0);
    expect(severity(0.1, 50)).toBe(severity(0.1));
    expect(severity(0.1)).toBeGreaterThan(0.15);
    expect(severity(0.6, 18)).toBeGreaterThan(0.4);
  });

  test('colours at the edge of the gamut count against the delivery space', () => {
    const edge = paint(100, 100, (x) => [0.6, x < 0.3 ? 0.4 : 0.03, 30]); // 0.4 is held at the edge of sRGB
    expect(read(edge).value.coloursShare).toBeCloseTo(0.3, 2);
    const input = inputOf(edge, { delivery: { space: 'display-p3' } });
    expect(headroom.read(input).value.coloursShare).toBeLessThan(0.31);
  });

  test('a small picture abstains', () => {
    expect(read(paint(20, 20, () => [0, 0, 0])).reading.evidence.level).toBe('weak');
  });
});

describe('even gradients', () => {
  const share = (noise: number, depth: 8 | 16 = 8): number => {
    const raster = paint(600, 400, (x, y) => [
      0.5 + 0.08 * y + noise * (grain(Math.round(600 * x), Math.round(400 * y), 4) - 0.5),
      0.05,
      280,
    ]);
    return smoothness(makeViews(raster).middle, depth).share;
  };
  test('a bare sky shows steps, grain hides them, 16 bits have none', () => {
    expect(share(0)).toBeGreaterThan(0.9);
    expect(share(0.04)).toBe(0);
    expect(share(0, 16)).toBe(0);
  });
  test('the allowed stretch follows the step of 8-bit sRGB', () => {
    // At L* 50 one code step is 0.39 L* (IEC 61966-2-1 with CIE L*), so that 0.5 is 1.28 steps.
    const raster = paint(600, 400, (_, y) => [0.53 + 0.06 * y, 0, 0]);
    expect(smoothness(makeViews(raster).middle, 8).stretch).toBeCloseTo(1.28, 1);
  });
});
