/** Pictures whose light cannot be read: a reading that names one here is wrong. */
import {
  type Body,
  boards,
  cloud2,
  grain,
  type Material,
  plain,
  planckian,
  type Random,
  type Rgb,
  random,
  render,
  type Scene,
  stone,
} from '@halflight/demo/scene';
import { oklabToLinear, oklchToOklab } from '@halflight/engine';

export interface DarkPicture {
  readonly name: string;
  readonly why: string;
  readonly width: number;
  readonly height: number;
  readonly rgb: Float32Array;
}

const W = 900;
const H = 600;

type Maker = (r: Random, seed: number) => Float32Array;

const MAKERS: readonly [name: string, why: string, make: Maker][] = [
  ['flat-shapes', 'flat graphics: few flat colours', flatShapes],
  ['flat-layers', 'flat graphics: layered silhouettes in a scale of one hue', flatLayers],
  ['flat-poster', 'flat graphics: bands and discs', flatPoster],
  ['night-fog', 'a night fog in one hue', nightFog],
  ['night-fog-lamp', 'a night fog in one hue around a lamp of the same hue', nightFog],
  ['one-wall', 'one surface only: a lit wall of stone', oneSurface],
  ['one-floor', 'one surface only: boards in light and cast shade', oneSurface],
  ['lamps', 'self-glowing things only', glowing],
  ['embers', 'self-glowing things only', embers],
];

/** All pictures without evidence; seeds are fixed. */
export function picturesWithoutLight(): DarkPicture[] {
  return MAKERS.map(([name, why, make], i) => {
    const rgb = make(random(900 + i), 900 + i);
    return { name: `no-${name}`, why, width: W, height: H, rgb };
  });
}

const colour = (L: number, C: number, h: number): Rgb =>
  oklabToLinear(oklchToOklab([L, C, h])).map((v) => Math.min(0.95, Math.max(0.005, v))) as unknown as Rgb;

/** Fills a shape given as signed distance (inside < 0), with an edge of one pixel. */
function fill(rgb: Float32Array, inside: (x: number, y: number) => number, c: Rgb): void {
  for (let y = 0; y < H; y++)
    for (let x = 0; x < W; x++) {
      const cover = Math.min(1, Math.max(0, 0.5 - inside(x, y)));
      if (cover === 0) continue;
      for (let k = 0; k < 3; k++) rgb[(y * W + x) * 3 + k]! += (c[k]! - rgb[(y * W + x) * 3 + k]!) * cover;
    }
}

const whole = () => -1;
const disc = (cx: number, cy: number, r: number) => (x: number, y: number) => Math.hypot(x - cx, y - cy) - r;
const slab = (cx: number, cy: number, a: number, b: number, turn: number) => {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return (x: number, y: number) =>
    Math.max(Math.abs(c * (x - cx) + s * (y - cy)) - a, Math.abs(-s * (x - cx) + c * (y - cy)) - b);
};

function flatShapes(r: Random): Float32Array {
  const rgb = new Float32Array(W * H * 3);
  const inks = Array.from({ length: 6 }, (_, i) =>
    colour(r.between(0.3, 0.9), r.between(0.03, 0.15), i * 61 + r.between(0, 40)),
  );
  fill(rgb, whole, inks[0]!);
  for (let i = 0; i < 26; i++) {
    const [x, y, s] = [r.between(0, W), r.between(0, H), r.between(25, 130)];
    fill(rgb, i % 2 ? disc(x, y, s) : slab(x, y, s, s * r.between(0.3, 1), r.between(0, 3)), r.pick(inks));
  }
  return rgb;
}

function flatLayers(r: Random, seed: number): Float32Array {
  const rgb = new Float32Array(W * H * 3);
  const hue = r.between(0, 360);
  fill(rgb, whole, colour(0.92, 0.03, hue));
  for (let i = 0; i < 6; i++) {
    const c = colour(0.82 - i * 0.11, 0.04 + 0.012 * i, hue + i * 2);
    const base = 190 + i * 62;
    fill(rgb, (x, y) => base - 110 * cloud2(x / (160 - i * 12), i * 5.3, seed, 4) - y + 40, c);
  }
  return rgb;
}

function flatPoster(r: Random): Float32Array {
  const rgb = new Float32Array(W * H * 3);
  const inks = [
    colour(0.9, 0.03, 90),
    colour(0.62, 0.16, 35),
    colour(0.35, 0.08, 255),
    colour(0.7, 0.1, 200),
    colour(0.22, 0.02, 280),
  ];
  fill(rgb, whole, inks[0]!);
  for (let i = 0; i < 7; i++) fill(rgb, slab(W / 2, 40 + i * 90, W, r.between(12, 34), 0), r.pick(inks));
  for (let i = 0; i < 5; i++) {
    const [x, y, s] = [r.between(100, 800), r.between(100, 500), r.between(50, 120)];
    fill(rgb, disc(x, y, s), r.pick(inks));
    fill(rgb, disc(x, y, s * 0.6), r.pick(inks));
  }
  return rgb;
}

const smallBodies = (r: Random, seed: number, skin: (i: number) => Material): Body[] =>
  Array.from({ length: 9 }, (_, i): Body => {
    const at = [r.between(-4, 4), 0.6, -r.between(0, 9)] as const;
    const size = r.between(0.8, 2.4);
    return i % 3 === 0
      ? { shape: { kind: 'sphere', radius: size / 2 }, material: skin(i), at }
      : {
          shape: { kind: 'box', size: [size, size * r.between(1, 2.4), size] },
          material: skin(i),
          at,
          turn: [0, 20 * i + (seed % 7), 0],
        };
  });

/** Everything in one hue, fill only, thick air; with a lamp of the same hue in the second picture. */
function nightFog(r: Random, seed: number): Float32Array {
  const hue = r.between(180, 280);
  const lamp = seed % 2 === 0;
  const air = colour(0.38, 0.05, hue);
  const grey = (L: number): Material => ({
    name: 'grey',
    pigment: grain(plain(colour(L, 0.02, hue)), 0.5, 0.1, seed),
  });
  const scene: Scene = {
    camera: { eye: [0, 1.8, 7], target: [0, 1, -3], fov: 40 },
    bodies: [
      { shape: { kind: 'plane' }, material: grey(0.4) },
      ...smallBodies(r, seed, () => grey(r.between(0.25, 0.7))),
      ...(lamp
        ? [
            {
              shape: { kind: 'sphere', radius: 0.12 },
              at: [0.8, 2.6, -3],
              material: { name: 'lamp', pigment: plain([0.5, 0.5, 0.5]), glow: colour(0.9, 0.04, hue) },
            } satisfies Body,
          ]
        : []),
    ],
    lights: lamp
      ? [{ kind: 'lamp', at: [0.8, 2.6, -3], colour: air, reference: 2, radius: 0.12, halo: 0.05 }]
      : [],
    fill: {
      up: colour(0.5, 0.05, hue),
      down: colour(0.35, 0.05, hue),
      occlusion: { samples: 16, reach: 2, strength: 0.7 },
    },
    haze: { density: 0.12, colour: (_x, y, _z, out) => out.set(air.map((v) => v * (1 + 0.15 * y))) },
    sky: (_x, y, _z, out) => out.set(air.map((v) => v * (1 + 0.15 * y))),
  };
  return render(scene, W, H, { supersample: 2, quality: 0.5 }).colour;
}

/** One pigment in warm light and blue shade: its change could be pigment as well. */
function oneSurface(r: Random, seed: number): Float32Array {
  const wall = seed % 2 === 1;
  const c = colour(0.65, 0.05, r.between(30, 90));
  const pigment = wall ? stone(c, 0.8, seed) : boards(c, { along: 'x', across: 'z', width: 0.5, seed });
  const material: Material = { name: 'one', pigment };
  const scene: Scene = {
    camera: wall
      ? { eye: [0, 1.5, 6], target: [0, 1.5, 0], fov: 30 }
      : { eye: [0, 5, 4.5], target: [0, 0, -0.5], fov: 40 },
    bodies: [
      wall
        ? { shape: { kind: 'box', size: [30, 20, 1] }, material, at: [0, 0, -0.5] }
        : { shape: { kind: 'plane' }, material },
      // Things out of sight that throw the shade.
      {
        shape: { kind: 'box', size: [3, 1.4, 3] },
        material,
        at: wall ? [3.5, 6, 6] : [6, 7, 5],
        turn: [0, 30, 20],
      },
      { shape: { kind: 'sphere', radius: 0.7 }, material, at: wall ? [5, 4.4, 6] : [8, 7, 0] },
    ],
    lights: [
      {
        kind: 'sun',
        towards: wall ? [0.6, 0.6, 1] : [1, 1, 0.3],
        colour: planckian(3200).map((v) => v * 0.7) as unknown as Rgb,
        size: 2,
      },
    ],
    fill: {
      up: planckian(12000).map((v) => v * 0.2) as unknown as Rgb,
      down: planckian(9000).map((v) => v * 0.15) as unknown as Rgb,
    },
    sky: (_x, _y, _z, out) => {
      out.fill(0.02);
    },
  };
  return render(scene, W, H, { supersample: 2 }).colour;
}

/** Coloured bars and discs that glow before the dark, each with its halo. */
function glowing(r: Random): Float32Array {
  const rgb = new Float32Array(W * H * 3).fill(0.004);
  for (let i = 0; i < 14; i++) {
    const c = colour(r.between(0.7, 0.9), r.between(0.08, 0.2), r.between(0, 360));
    const [x, y] = [r.between(60, 840), r.between(60, 540)];
    const shape =
      i % 2 ? disc(x, y, r.between(8, 26)) : slab(x, y, r.between(20, 90), r.between(4, 9), r.between(0, 3));
    for (let j = 0; j < H; j++)
      for (let k = 0; k < W; k++) {
        const d = shape(k, j);
        const g = d < 0 ? 1 : 0.35 * Math.exp(-d / 9) + 0.06 * Math.exp(-d / 60);
        for (let ch = 0; ch < 3; ch++) rgb[(j * W + k) * 3 + ch]! += g * c[ch]!;
      }
  }
  return rgb.map((v) => Math.min(1, v));
}

/** Glowing matter: brightness and colour follow its temperature, no light falls on anything. */
function embers(r: Random, seed: number): Float32Array {
  const rgb = new Float32Array(W * H * 3);
  const cx = r.between(300, 600);
  for (let y = 0; y < H; y++)
    for (let x = 0; x < W; x++) {
      const n = cloud2(x / 70, y / 70, seed, 5);
      const d = Math.hypot((x - cx) / 420, (y - 380) / 260);
      const heat = Math.max(0, 1.5 * n * n * (1.25 - d));
      const p = (y * W + x) * 3;
      rgb[p] = Math.min(1, 0.004 + 1.6 * heat ** 1.5);
      rgb[p + 1] = Math.min(1, 0.003 + 0.9 * heat ** 2.6);
      rgb[p + 2] = Math.min(1, 0.003 + 0.5 * heat ** 4.5);
    }
  return rgb;
}
