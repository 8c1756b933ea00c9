/** What every test scene is made from: a light situation, pigments, skins, all drawn from the scene's seed. */
import {
  boards,
  checks,
  grain,
  type Light,
  luminance,
  type Material,
  type Pigment,
  patches,
  plain,
  planckian,
  type Random,
  type Rgb,
  random,
  segments,
  stone,
  stripes,
  type Vec,
} from '@halflight/demo/scene';
import { oklabToLinear, oklchToOklab } from '@halflight/engine';

export type LightKind = 'warm' | 'cool' | 'stage' | 'neutral' | 'mixed';

/** Key colours with the fill, before they are aimed. */
export interface LightSet {
  readonly kind: LightKind;
  readonly keys: readonly Rgb[];
  readonly fillUp: Rgb;
  readonly fillDown: Rgb;
}

export interface Kit {
  readonly random: Random;
  readonly seed: number;
  readonly light: LightSet;
  /** Unit-ish direction towards the first key. */
  readonly sun: Vec;
  /** All keys as suns (compositions with lamps make their own). */
  readonly suns: readonly Light[];
  /** The scene's pigments: greys of several depths among colours. */
  readonly pigments: readonly Rgb[];
  /** A material of one of the pigments in turn, with a texture fit for things of this size. */
  skin(name: string, size: number, kind?: SkinKind): Material;
}

const SKINS = ['plain', 'grain', 'stone', 'boards', 'stripes', 'segments', 'checks', 'patches'] as const;
export type SkinKind = (typeof SKINS)[number];

const times = (c: Rgb, f: number): Rgb => [c[0] * f, c[1] * f, c[2] * f];
const plus = (a: Rgb, b: Rgb): Rgb => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const mixed = (a: Rgb, b: Rgb, t: number): Rgb => plus(times(a, 1 - t), times(b, t));

/** A colour of luminance 1 from OKLCh hue and chroma at lightness 0.8. */
function tint(chroma: number, hue: number): Rgb {
  const c = oklabToLinear(oklchToOklab([0.8, chroma, hue])).map((v) => Math.max(0.02, v)) as unknown as Rgb;
  return times(c, 1 / luminance(c));
}

/** Draws a light situation. Key over fill by luminance lies between 1.8 and 6. */
export function drawLight(kind: LightKind, r: Random): LightSet {
  let keys: Rgb[];
  let fill: Rgb;
  switch (kind) {
    case 'warm':
      keys = [planckian(r.between(2300, 4300))];
      fill = planckian(r.between(8500, 20000));
      break;
    case 'cool':
      // Moonlight as it is painted: a bluish key over a fill that is less blue, or earthy.
      keys = [planckian(r.between(9500, 20000))];
      fill = r.next() < 0.5 ? planckian(r.between(3000, 5000)) : tint(0.05, r.between(20, 130));
      break;
    case 'stage': {
      const hue = r.between(0, 360);
      keys = [tint(r.between(0.08, 0.14), hue)];
      fill = tint(r.between(0.04, 0.1), hue + r.between(90, 270));
      break;
    }
    case 'neutral': {
      const white = planckian(r.between(4500, 8000));
      keys = [white];
      fill = white;
      break;
    }
    case 'mixed': {
      const warm = planckian(r.between(2400, 3600));
      const other = r.next() < 0.5 ? planckian(r.between(6000, 9000)) : tint(0.06, r.between(0, 360));
      keys = [warm, times(other, r.between(0.35, 0.6))];
      fill = planckian(r.between(9000, 20000));
      break;
    }
  }
  const ratio = r.between(1.8, 6);
  const strength = luminance(keys[0]!);
  const up = times(fill, 1 / ratio);
  // Light from below is the ground's: a little of the key's colour, weaker. Not in neutral light's case: the same white.
  const down = times(mixed(fill, keys[0]!, 0.15), r.between(0.5, 0.85) / ratio);
  // Exposure: a white surface in full light ends just below the top; night scenes stay lower.
  const top = keys.reduce((sum, k) => plus(sum, k), up);
  const level = kind === 'cool' ? r.between(0.45, 1) : r.between(0.85, 1.1);
  const scale = level / Math.max(...top);
  return {
    kind,
    keys: keys.map((k) => times(k, scale / strength)),
    fillUp: times(up, scale),
    fillDown: times(down, scale),
  };
}

/** Aims the keys: `side` degrees around from the camera's side, `height` above the ground. */
export function aim(side: number, height: number): Vec {
  const a = (side * Math.PI) / 180;
  const h = (height * Math.PI) / 180;
  return [Math.sin(a) * Math.cos(h), Math.sin(h), Math.cos(a) * Math.cos(h)];
}

/** Pigments: three greys and five to seven colours of moderate chroma, as paints and building stuffs have. */
function drawPigments(r: Random): Rgb[] {
  const greys = [r.between(0.08, 0.16), r.between(0.24, 0.38), r.between(0.5, 0.72)].map(
    (g): Rgb => [g * r.between(0.98, 1.02), g, g * r.between(0.98, 1.02)],
  );
  const start = r.between(0, 360);
  const colours = Array.from({ length: r.whole(5, 8) }, (_, i): Rgb => {
    const L = r.between(0.42, 0.82);
    const C = r.between(0.03, 0.13);
    const h = start + i * 137.5 + r.between(-25, 25);
    return oklabToLinear(oklchToOklab([L, C, h])).map((v) =>
      Math.min(0.85, Math.max(0.02, v)),
    ) as unknown as Rgb;
  });
  return r.shuffle([...greys, ...colours]);
}

function texture(kind: SkinKind, colour: Rgb, second: Rgb, size: number, r: Random): Pigment {
  const seed = r.whole(1, 1e6);
  switch (kind) {
    case 'plain':
      return grain(plain(colour), size / 4, 0.04, seed);
    case 'grain':
      return grain(plain(colour), size / r.between(4, 9), r.between(0.15, 0.3), seed);
    case 'stone':
      return stone(colour, size / r.between(2.5, 4.5), seed, { tone: r.between(0.12, 0.28) });
    case 'boards': {
      const upright = r.next() < 0.6;
      return boards(colour, {
        along: upright ? 'y' : 'x',
        across: upright ? 'x' : 'y',
        width: size / r.between(4, 8),
        seed,
        tone: r.between(0.12, 0.3),
      });
    }
    case 'stripes':
      return stripes([colour, second], r.next() < 0.5 ? 'x' : 'y', size / r.between(3, 7));
    case 'segments':
      return segments([colour, second], r.whole(3, 6));
    case 'checks':
      return checks(colour, second, size / r.between(2.5, 5));
    case 'patches':
      return patches(
        grain(plain(colour), size / 6, 0.1, seed),
        grain(plain(times(second, 0.8)), size / 6, 0.1, seed + 1),
        size / 2,
        r.between(0.25, 0.5),
        seed,
      );
  }
}

/** Everything a composition draws from. */
export function kitOf(seed: number, kind: LightKind): Kit {
  const r = random(seed);
  const light = drawLight(kind, r);
  const side = r.between(35, 120) * (r.next() < 0.5 ? -1 : 1);
  const sun = aim(side, r.between(22, 52));
  const second = aim(-side * r.between(0.5, 1), r.between(20, 45));
  const pigments = drawPigments(r);
  let turn = 0;
  return {
    random: r,
    seed,
    light,
    sun,
    suns: light.keys.map((colour, i) => ({
      kind: 'sun' as const,
      towards: i === 0 ? sun : second,
      colour,
      size: r.between(0.6, 4),
    })),
    pigments,
    skin(name, size, wanted) {
      const colour = pigments[turn++ % pigments.length]!;
      const other = pigments[(turn + 3) % pigments.length]!;
      const kindOf = wanted ?? r.pick(SKINS);
      return { name, pigment: texture(kindOf, colour, other, size, r) };
    },
  };
}
