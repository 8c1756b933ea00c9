/** What compositions share. */
import {
  type Body,
  type Camera,
  type Fill,
  type Light,
  type SkyColour,
  shed,
  type Vec,
} from '@halflight/demo/scene';
import type { Kit } from '../kit.ts';

/** A composition before haze: bodies with the names of their things, lights, camera, and whether there is a sky. */
export interface Composed {
  readonly bodies: readonly Body[];
  readonly camera: Camera;
  readonly lights: readonly Light[];
  readonly fill: Fill;
  readonly sky: SkyColour;
  /** Long side and short side in pixels, width first. */
  readonly size: readonly [number, number];
}

/** Things that carry others: not counted as objects. */
export const SUPPORT = new Set(['ground', 'wall', 'backdrop', 'water', 'table']);

/** Fill with ambient occlusion that fits lengths of this scale. */
export function fillOf(kit: Kit, reach: number): Fill {
  return {
    up: kit.light.fillUp,
    down: kit.light.fillDown,
    occlusion: { samples: 6, reach, strength: kit.random.between(0.4, 0.85) },
  };
}

/** A sky from horizon to zenith that belongs to the fill, brighter than the shade. */
export function skyOf(kit: Kit): SkyColour {
  const up = kit.light.fillUp;
  const peak = Math.max(...up);
  const zenith = kit.random.between(0.25, 0.5);
  const horizon = kit.random.between(0.55, 0.9);
  const key = kit.light.keys[0]!;
  const warmth = kit.random.between(0, 0.25);
  const keyPeak = Math.max(...key);
  return (_dx, dy, _dz, out) => {
    const t = Math.min(1, Math.max(0, dy) * 1.6);
    for (let c = 0; c < 3; c++) {
      const low = horizon * ((1 - warmth) * (0.4 + 0.6 * (up[c]! / peak)) + warmth * (key[c]! / keyPeak));
      out[c] = low + ((zenith * up[c]!) / peak - low) * t;
    }
  };
}

/** Nothing behind: a dark grey that is never seen when the scene is closed. */
export const NO_SKY: SkyColour = (_dx, _dy, _dz, out) => {
  out.fill(0.02);
};

/** The point behind a thing of this radius, as the key sees it: wholly in its shade. */
export function behind(sun: Vec, at: Vec, radius: number): Vec {
  const l = Math.hypot(sun[0], sun[2]);
  return [at[0] - (sun[0] / l) * radius, at[1], at[2] - (sun[2] / l) * radius];
}

export function box(thing: string, at: Vec, size: Vec, heading: number, material: Body['material']): Body {
  return {
    shape: { kind: 'box', size },
    material,
    at: [at[0], at[1] + size[1] / 2, at[2]],
    turn: [0, heading, 0],
    thing,
  };
}

export function ball(thing: string, at: Vec, radius: number, material: Body['material']): Body {
  return { shape: { kind: 'sphere', radius }, material, at: [at[0], at[1] + radius, at[2]], thing };
}

export function post(
  thing: string,
  at: Vec,
  radius: number,
  height: number,
  material: Body['material'],
  top = radius,
): Body {
  return { shape: { kind: 'cylinder', radius, height, top }, material, at, thing };
}

export function plane(thing: string, material: Body['material'], y = 0): Body {
  return { shape: { kind: 'plane' }, material, at: [0, y, 0], thing };
}

/** One of several simple things of about this size, standing on `at`. */
export function someThing(kit: Kit, name: string, at: Vec, size: number): Body[] {
  const r = kit.random;
  const skin = kit.skin(name, size);
  switch (r.whole(0, 6)) {
    case 0:
      return [ball(name, at, size / 2, skin)];
    case 1:
      return [post(name, at, size * r.between(0.25, 0.4), size * r.between(0.7, 1.3), skin)];
    case 2:
      return [post(name, at, size * 0.5, size * r.between(0.8, 1.4), skin, size * r.between(0.02, 0.25))];
    case 3:
      return shed({
        at,
        heading: r.between(0, 90),
        size: [size * 0.8, size * r.between(0.5, 0.8), size],
        roofHeight: size * r.between(0.3, 0.6),
        eaves: size * 0.08,
        wall: skin,
        roof: kit.skin(name, size),
        thing: name,
      });
    default:
      return [
        box(
          name,
          at,
          [size * r.between(0.6, 1), size * r.between(0.5, 1.2), size * r.between(0.6, 1)],
          r.between(0, 90),
          skin,
        ),
      ];
  }
}
