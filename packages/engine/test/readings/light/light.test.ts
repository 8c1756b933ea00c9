import { isDeepStrictEqual } from 'node:util';
import { describe, expect, test } from 'vitest';
import { ciede2000 } from '../../../src/colour/ciede2000.ts';
import { linearToCielab } from '../../../src/colour/cielab.ts';
import { explainPlace } from '../../../src/readings/light/explain.ts';
import { readLight } from '../../../src/readings/light/light.ts';
import { lightFromTaps } from '../../../src/readings/light/taps.ts';
import type { LightResult } from '../../../src/readings/light/types.ts';
import type { View } from '../../../src/views/view.ts';
import { COOL, type Fault, type Lighting, type Panels, panels, WARM, WHITE } from './surfaces.ts';

/** Log-chromaticity of K + A over A by its definition (Finlayson, Hordley, Lu, Drew 2006). */
function trueShift({ key, fill }: Lighting): { x: number; y: number } {
  const [r, g, b] = key.map((k, c) => Math.log((k + fill[c]) / fill[c]));
  return { x: (r - g) / Math.SQRT2, y: (r + g - 2 * b) / Math.sqrt(6) };
}

function degreesBetween(a: { x: number; y: number }, b: { x: number; y: number }): number {
  return (Math.acos((a.x * b.x + a.y * b.y) / Math.hypot(a.x, a.y) / Math.hypot(b.x, b.y)) * 180) / Math.PI;
}

/** Share of the shade of the given panels that is flagged, and flagged share of everything else. */
function flagged(result: LightResult, { panel, shade }: Panels, kind: Fault, planted: readonly number[]) {
  let hit = 0;
  let of = 0;
  let wrong = 0;
  for (let i = 0; i < panel.length; i++) {
    const isPlanted = planted.includes(panel[i]);
    if (isPlanted && shade[i]) of++;
    if (!(result[kind].data[i] > 0)) continue;
    if (isPlanted) hit += shade[i];
    else wrong++;
  }
  return { found: hit / of, wrong: wrong / panel.length };
}

const CLEAN: readonly (readonly [string, Lighting])[] = [
  ['warm', WARM],
  ['cool', COOL],
];

describe.each(CLEAN)('%s light on twelve pigments', (_, lighting) => {
  const result = readLight(panels(lighting).view);

  test('its direction is that of ln((K+A)/A) within 3°', () => {
    expect(result.statement).toBe('carries');
    expect(degreesBetween(result.shift!, trueShift(lighting))).toBeLessThan(3);
  });

  test('nothing is flagged where all shade follows it', () => {
    expect(result.places).toEqual([]);
    expect(result.neutralShare + result.oppositeShare).toBeLessThan(0.001);
  });
});

describe.each([
  ['neutral', 'warm', WARM],
  ['neutral', 'cool', COOL],
  ['opposite', 'warm', WARM],
] as const)('%s shade in %s light', (kind, _, lighting) => {
  const planted = kind === 'neutral' ? [2, 5] : [5];
  const picture = panels(lighting, Object.fromEntries(planted.map((id) => [id, kind])));
  const result = readLight(picture.view);

  test('is found, and nothing else', () => {
    const { found, wrong } = flagged(result, picture, kind, planted);
    expect(found).toBeGreaterThan(0.8);
    expect(wrong).toBeLessThan(0.01);
  });

  test('its colour in this light is the calculated one within 5 CIEDE2000, nearer than what is painted', () => {
    for (const id of planted) {
      const place = result.places.find((p) => p.kind === kind && middlePanel(p, picture) === id)!;
      const right = linearToCielab(picture.correct(id, false));
      const off = (c: readonly [number, number, number]) => ciede2000(right, linearToCielab(c));
      expect(off(place.should)).toBeLessThan(5);
      expect(off(place.should)).toBeLessThan(0.5 * off(place.now));
    }
  });
});

function middlePanel(
  place: { x: number; y: number; width: number; height: number },
  picture: Panels,
): number {
  const { width, height } = picture.view;
  const x = Math.floor((place.x + place.width / 2) * width);
  const y = Math.floor((place.y + place.height / 2) * height);
  return picture.panel[y * width + x];
}

describe('abstains', () => {
  test('from a colour under neutral light', () => {
    expect(readLight(panels(WHITE).view).shift).toBeNull();
  });

  test('from flat graphics', () => {
    const [width, height] = [600, 450];
    const inks = [0.7, 0.4, 0.1, 0.3, 0.5, 0.2, 0.6, 0.05, 0.35];
    const rgb = new Float32Array(3 * width * height);
    for (let i = 0; i < width * height; i++) {
      const block = Math.floor((3 * (i % width)) / width) + 3 * Math.floor((3 * i) / width / height);
      for (let c = 0; c < 3; c++) rgb[3 * i + c] = inks[(block * 4 + c * 2) % inks.length];
    }
    const result = readLight({ width, height, rgb, alpha: null, scale: 1 });
    expect([result.statement, result.evidence.level]).toEqual(['unknown', 'weak']);
    expect(result.evidence.reason).toMatch(/tell/);
  });

  test('from one surface in light and shade: its pigment could change as well', () => {
    const one = panels(WARM);
    const { width, height, rgb } = one.view;
    // Every panel gets the first pigment.
    const grey = new Float32Array(rgb.length);
    for (let i = 0; i < width * height; i++) {
      const [a, b] = [one.correct(one.panel[i], !one.shade[i]), one.correct(0, !one.shade[i])];
      for (let c = 0; c < 3; c++) grey[3 * i + c] = (rgb[3 * i + c] * b[c]) / a[c];
    }
    expect(readLight({ width, height, rgb: grey, alpha: null, scale: 1 }).shift).toBeNull();
  });
});

describe('declared light', () => {
  const picture = panels(WARM, { 2: 'neutral', 5: 'neutral', 8: 'neutral' });
  const tapped = lightFromTaps(picture.correct(0, false), picture.correct(0, true));
  if ('trouble' in tapped) throw new Error(tapped.trouble);
  const result = readLight(picture.view, { light: tapped.light });

  test('from two taps in either order it is K/A exactly', () => {
    WARM.key.forEach((k, c) => {
      expect(result.q![c]).toBeCloseTo(k / WARM.fill[c], 6);
    });
  });

  test('places that ignore it are found, and the share that follows it is told', () => {
    expect(flagged(result, picture, 'neutral', [2, 5, 8]).found).toBeGreaterThan(0.8);
    expect(result.carriedPercent).toBeGreaterThan(60);
    expect(result.carriedPercent).toBeLessThan(90);
    expect(result.turnedBy).toBeLessThan(5);
  });

  test('a picture in the other light contradicts it', () => {
    const other = readLight(panels(COOL).view, { light: tapped.light });
    expect(other.turnedBy).toBeGreaterThan(90);
  });

  test.each([
    ['two like places', [0.2, 0.2, 0.2], [0.21, 0.2, 0.2], /equally light/],
    ['black', [0.2, 0.2, 0.2], [0, 0, 0], /too dark/],
    ['white and near black', [5, 5, 5], [0.002, 0.002, 0.002], /too far apart/],
  ] as const)('%s are no light, and it says what to tap', (_, one, other, words) => {
    expect(lightFromTaps(one, other)).toEqual({ trouble: expect.stringMatching(words) });
  });
});

describe('the artist', () => {
  const picture = panels(WARM, { 2: 'neutral' });

  test('sees why: a tapped place names its lit partners, its colours and the way it should go', () => {
    const result = readLight(picture.view);
    const place = result.places[0];
    const told = explainPlace(result, place.x + place.width / 2, place.y + 0.75 * place.height);
    expect(told.label).toBe('neutral');
    expect(told.sentence).toMatch(/only darker/);
    expect(told.pairs.some((p) => p.brighter && p.says === 'neutral')).toBe(true);
    expect(told.place).toBe(place);
    expect(told.way!.length).toBeGreaterThan(2);
    expect(told.way![0]).toEqual([...place.lit]);
  });

  test('can leave an area out', () => {
    const out = new Float32Array(40 * 30);
    for (let y = 0; y < 10; y++) for (let x = 20; x < 30; x++) out[40 * y + x] = 1;
    const result = readLight(picture.view, { leftOut: { width: 40, height: 30, data: out } });
    expect(result.places).toEqual([]);
    expect(explainPlace(result, 0.62, 0.3).sentence).toMatch(/left this area out/);
  });
});

test('the same picture gives the same answer, bit for bit', () => {
  const { view } = panels(WARM, { 2: 'neutral', 5: 'opposite' });
  const first = readLight(view);
  expect(first.places.length).toBeGreaterThan(0);
  // The matcher of the test library takes long over large arrays.
  expect(isDeepStrictEqual(readLight({ ...view, rgb: view.rgb.slice() }), first)).toBe(true);
});

test('the mirrored picture gives the mirrored answer', () => {
  const picture = panels(WARM, { 2: 'neutral' });
  const { width, height } = picture.view;
  const result = readLight(picture.view);
  const mirrored = readLight(mirror(picture.view));
  let differ = 0;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const a = result.neutral.data[y * width + x] > 0;
      const b = mirrored.neutral.data[y * width + width - 1 - x] > 0;
      if (a !== b) differ++;
    }
  expect(result.neutralShare).toBeGreaterThan(0.01);
  expect(differ / (width * height)).toBeLessThan(0.002);
});

function mirror(view: View): View {
  const { width, height, rgb } = view;
  const out = new Float32Array(rgb.length);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      for (let c = 0; c < 3; c++) out[3 * (y * width + width - 1 - x) + c] = rgb[3 * (y * width + x) + c];
  return { ...view, rgb: out };
}
