/** The landing's pigments: weathered wood, tar, tin, mud, water, nets. Reflectances are linear. */
import { below, boards, grain, type Material, patches, plain, type Rgb, ripples } from '../scene/index.ts';

/** Colour of the key (lamps and the last band of light) and of the fill (the violet-blue sky), at strength 1. */
export const KEY: Rgb = [1, 0.57, 0.27];
export const FILL: Rgb = [0.198, 0.211, 0.39];

export interface Materials {
  readonly [name: string]: Material;
}

/** Names of what is thin: coarse brushes paint over it. */
export const THIN = new Set(['coat', 'skin', 'net', 'pole', 'rope', 'rail', 'lamp', 'float', 'mooring']);

export function materialsOf(seed: number, wet: (x: number, z: number) => number): Materials {
  const wood: Rgb = [0.42, 0.39, 0.36];
  const tar: Rgb = [0.14, 0.129, 0.125];
  const upright = (name: string, colour: Rgb, width: number, tone = 0.22): Material => ({
    name,
    pigment: below(
      -0.95,
      0.3,
      grain(plain(colour.map((c) => c * 0.62) as unknown as Rgb), 0.5, 0.3, seed + 20),
      grain(
        boards(colour, { along: 'y', across: 'x', width, seed: seed + name.length, tone, joint: 0.45 }),
        1.3,
        0.14,
        seed + 21 + name.length,
      ),
      seed + 22,
    ),
    grain: [0, 1, 0],
  });
  return {
    planks: {
      name: 'planks',
      pigment: grain(
        boards(wood, { along: 'x', across: 'z', width: 7.3, seed, tone: 0.14 }),
        0.5,
        0.22,
        seed,
      ),
      grain: [1, 0, 0],
    },
    beam: {
      name: 'beam',
      pigment: grain(plain([0.29, 0.268, 0.25]), 0.6, 0.25, seed + 1),
      grain: [0, 0, 1],
    },
    pile: { name: 'pile', pigment: grain(plain(tar), 0.5, 0.3, seed + 2), grain: [0, 1, 0] },
    pole: { name: 'pole', pigment: plain([0.17, 0.145, 0.13]), grain: [0, 1, 0] },
    rail: { name: 'rail', pigment: plain([0.22, 0.19, 0.165]), grain: [0, 0, 1] },
    rope: { name: 'rope', pigment: plain([0.24, 0.21, 0.17]), grain: [0, 0, 1] },
    redWall: upright('red wall', [0.4, 0.25, 0.2], 0.24, 0.08),
    paleWall: upright('pale wall', [0.48, 0.43, 0.36], 0.2, 0.1),
    slateWall: upright('slate wall', [0.24, 0.295, 0.28], 0.26, 0.12),
    shingle: {
      name: 'shingle roof',
      pigment: boards([0.235, 0.218, 0.212], {
        along: 'z',
        across: 'x',
        width: 0.32,
        seed: seed + 5,
        tone: 0.3,
        joint: 0.3,
      }),
      grain: [1, 0, 0],
    },
    tin: {
      name: 'tin roof',
      pigment: patches(plain([0.28, 0.27, 0.27]), plain([0.3, 0.215, 0.165]), 1.5, 0.45, seed + 6),
      grain: [1, 0, 0],
    },
    redTrim: {
      name: 'red trim',
      pigment: grain(plain([0.41, 0.256, 0.205]), 0.8, 0.15, seed + 23),
      grain: [0, 1, 0],
    },
    crate: {
      name: 'crate',
      pigment: grain(plain([0.4, 0.27, 0.17]), 0.8, 0.15, seed + 18),
      grain: [0, 1, 0],
    },
    barrel: {
      name: 'barrel',
      pigment: grain(plain([0.2, 0.29, 0.23]), 0.8, 0.15, seed + 19),
      grain: [0, 1, 0],
    },
    trim: { name: 'trim', pigment: grain(plain([0.34, 0.305, 0.28]), 0.8, 0.2, seed + 7), grain: [0, 1, 0] },
    coat: { name: 'coat', pigment: plain([0.13, 0.115, 0.12]), grain: [0, 1, 0] },
    skin: { name: 'skin', pigment: plain([0.42, 0.28, 0.21]) },
    door: upright('door', [0.21, 0.3, 0.29], 0.18, 0.1),
    dark: { name: 'dark', pigment: plain([0.07, 0.055, 0.05]) },
    hull: { name: 'hull', pigment: grain(plain([0.33, 0.42, 0.37]), 0.7, 0.2, seed + 8), grain: [0, 0, 1] },
    inside: {
      name: 'boat inside',
      pigment: grain(plain([0.3, 0.2, 0.15]), 0.5, 0.25, seed + 9),
      grain: [0, 0, 1],
    },
    net: { name: 'net', pigment: grain(plain([0.15, 0.125, 0.115]), 0.25, 0.4, seed + 10), grain: [0, 0, 1] },
    float: { name: 'float', pigment: plain([0.42, 0.3, 0.22]) },
    lampGlass: { name: 'lamp', pigment: plain([0.3, 0.3, 0.3]), glow: [1.15, 0.86, 0.5] },
    doorGlow: { name: 'door light', pigment: plain([0.1, 0.1, 0.1]), glow: [0.92, 0.5, 0.22] },
    doorDim: { name: 'door light', pigment: plain([0.1, 0.1, 0.1]), glow: [0.6, 0.3, 0.125] },
    doorDark: { name: 'door light', pigment: plain([0.07, 0.055, 0.05]), glow: [0.1, 0.047, 0.02] },
    windowDim: { name: 'window', pigment: plain([0.1, 0.1, 0.1]), glow: [0.3, 0.155, 0.07] },
    window: { name: 'window', pigment: plain([0.1, 0.1, 0.1]), glow: [0.55, 0.3, 0.14] },
    mud: {
      name: 'mud',
      pigment: patches(
        grain(plain([0.16, 0.152, 0.13]), 1.1, 0.35, seed + 11),
        grain(plain([0.215, 0.2, 0.17]), 0.7, 0.3, seed + 12),
        3.5,
        0.4,
        seed + 13,
      ),
      mirror: { facing: 0.05, grazing: 0.85, cover: wet, ripple: ripples(0.5, 0.1, seed + 14, 2) },
    },
    shore: { name: 'far shore', pigment: grain(plain([0.105, 0.122, 0.135]), 14, 0.4, seed + 15) },
    spit: { name: 'spit', pigment: grain(plain([0.115, 0.122, 0.122]), 5, 0.4, seed + 16) },
    water: {
      name: 'water',
      pigment: plain([0.032, 0.034, 0.042]),
      mirror: { facing: 0.04, grazing: 0.98, ripple: ripples(0.55, 0.028, seed + 17, 2.6) },
    },
  };
}
