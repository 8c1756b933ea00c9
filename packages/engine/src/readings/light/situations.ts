import { daylight, lightOf, planck } from '../../colour/daylight.ts';
import type { Ratio } from './curve.ts';

/** Where a colour of light comes from: CIE daylight or a Planckian radiator of so many kelvin. */
export interface Source {
  readonly kind: 'daylight' | 'planck';
  readonly kelvin: number;
  /** Metres of clear water it has passed; none when absent. */
  readonly water?: number;
}

/** A natural situation of light: a key that casts shadows and the fill that is left in them. */
export interface Situation {
  /** Stable name for intents. */
  readonly name: string;
  /** In painter's language. */
  readonly title: string;
  /** What makes the key and what makes the fill. */
  readonly about: string;
  /** Linear light, sRGB primaries, luminance 1, unclipped. */
  readonly key: readonly [number, number, number];
  readonly fill: readonly [number, number, number];
  /** Key over fill by luminance on a surface that faces the key. */
  readonly contrast: number;
  /** Key over fill per channel, K/A. */
  readonly q: Ratio;
  /** Key warmer (+) or cooler (−) than the fill, in mired; null where one of them has no colour temperature. */
  readonly mired: number | null;
}

interface Row {
  readonly name: string;
  readonly title: string;
  readonly about: string;
  readonly key: Source;
  readonly fill: Source;
  readonly contrast: number;
}

const sun = (kelvin: number): Source => ({ kind: 'daylight', kelvin });
const glow = (kelvin: number): Source => ({ kind: 'planck', kelvin });

/**
 * The colours are computed (CIE 15 daylight, Planck's law); which temperatures and contrasts make a situation is
 * common practice, no source: round values inside the ranges that outdoor and lamp light is usually given.
 */
const ROWS: readonly Row[] = [
  {
    name: 'clearSun',
    title: 'Sun in a clear sky',
    about: 'Direct sun of 5300 K, blue sky of 15 000 K in the shade.',
    key: sun(5300),
    fill: sun(15_000),
    contrast: 5,
  },
  {
    name: 'veiledSun',
    title: 'Sun through thin cloud',
    about: 'Softened sun of 5500 K, bright sky of 8000 K in the shade.',
    key: sun(5500),
    fill: sun(8000),
    contrast: 2,
  },
  {
    name: 'lowSun',
    title: 'Low sun, morning or evening',
    about: 'Sun near the horizon as a radiator of 3200 K, blue sky of 12 000 K in the shade.',
    key: glow(3200),
    fill: sun(12_000),
    contrast: 3.5,
  },
  {
    name: 'dusk',
    title: 'Dusk, the sun just gone',
    about: 'Afterglow of 3600 K from one side, blue sky of 20 000 K from above.',
    key: glow(3600),
    fill: sun(20_000),
    contrast: 1.2,
  },
  {
    name: 'overcast',
    title: 'Overcast',
    about: 'Cloud of 6500 K from above, light of 5800 K back from the ground below.',
    key: sun(6500),
    fill: sun(5800),
    contrast: 1.5,
  },
  {
    name: 'window',
    title: 'Room with a window to the sky',
    about: 'Sky of 10 000 K through the window, light of 4200 K back from the walls.',
    key: sun(10_000),
    fill: sun(4200),
    contrast: 4,
  },
  {
    name: 'moon',
    title: 'Moon',
    about: 'The moon sends sunlight of 4100 K; the sky it lights is as blue as by day, 12 000 K.',
    key: sun(4100),
    fill: sun(12_000),
    contrast: 6,
  },
  {
    name: 'moonByLamplight',
    title: 'Moon as it looks beside lamps',
    about: 'Seen with an eye used to lamps the moon is the cool one: 9000 K over a warm rest of 3500 K.',
    key: sun(9000),
    fill: glow(3500),
    contrast: 3,
  },
  {
    name: 'lampAtNight',
    title: 'Lamp at night',
    about: 'A filament of 2856 K (CIE illuminant A), night sky of 9000 K in the shade.',
    key: glow(2856),
    fill: sun(9000),
    contrast: 6,
  },
  {
    name: 'lampAtBlueHour',
    title: 'Lamps at the blue hour',
    about: 'A filament of 2700 K against a sky of 18 000 K.',
    key: glow(2700),
    fill: sun(18_000),
    contrast: 2.5,
  },
  {
    name: 'fire',
    title: 'Fire',
    about: 'Flames of 2000 K, night sky of 9000 K in the shade.',
    key: glow(2000),
    fill: sun(9000),
    contrast: 6,
  },
  {
    name: 'underWater',
    title: 'Under water',
    about: 'Daylight of 6000 K through 4 m of clear water, in the shade what has come 9 m.',
    key: { ...sun(6000), water: 4 },
    fill: { ...sun(6000), water: 9 },
    contrast: 2,
  },
];

/** Absorption of pure water per metre near the dominant wavelengths of the sRGB primaries, 610, 550 and 465 nm
 * (Pope & Fry 1997, Applied Optics 36; from memory). */
const WATER = [0.264, 0.0565, 0.0102] as const;

/** The table of situations, computed once. */
export const SITUATIONS: readonly Situation[] = ROWS.map(({ name, title, about, key, fill, contrast }) => {
  const k = colourOf(key);
  const a = colourOf(fill);
  return {
    name,
    title,
    about,
    key: k,
    fill: a,
    contrast,
    q: [(contrast * k[0]) / a[0], (contrast * k[1]) / a[1], (contrast * k[2]) / a[2]],
    mired: key.water || fill.water ? null : 1e6 / key.kelvin - 1e6 / fill.kelvin,
  };
});

/** The situation of this name; undefined when an intent names one we do not know. */
export function situationOf(name: string): Situation | undefined {
  return SITUATIONS.find((s) => s.name === name);
}

function colourOf({ kind, kelvin, water = 0 }: Source): [number, number, number] {
  const light = lightOf(kind === 'daylight' ? daylight(kelvin) : planck(kelvin));
  const passed = light.map((v, c) => v * Math.exp(-WATER[c] * water));
  const y = 0.2126 * passed[0] + 0.7152 * passed[1] + 0.0722 * passed[2];
  return [passed[0] / y, passed[1] / y, passed[2] / y];
}
