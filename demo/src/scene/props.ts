/** Things made of several bodies. */
import { boards, grain } from './pigments.ts';
import { random } from './random.ts';
import type { Body, Material, Rgb, Vec } from './types.ts';

/** A row of planks laid side by side along z, each a little different: the top lies at y = 0, length runs along x. */
export function plankRow(options: {
  readonly at: Vec;
  readonly heading?: number;
  readonly length: number;
  readonly count: number;
  readonly width: number;
  readonly thickness: number;
  readonly gap?: number;
  readonly colour: Rgb;
  readonly seed: number;
  readonly thing?: string;
  /** How uneven: 0 (new) to 1 (old). */
  readonly wear?: number;
  readonly mirror?: Material['mirror'];
}): Body[] {
  const {
    at,
    heading = 0,
    length,
    count,
    width,
    thickness,
    gap = width * 0.08,
    colour,
    seed,
    wear = 0.3,
  } = options;
  const r = random(seed);
  const angle = (heading * Math.PI) / 180;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return Array.from({ length: count }, (_, i) => {
    const z = (i - (count - 1) / 2) * (width + gap);
    const x = wear * 0.2 * length * 0.1 * r.normal();
    const y = -thickness / 2 + wear * thickness * 0.2 * r.normal();
    const tone = 1 + 0.25 * wear * r.normal();
    const own = colour.map((v) => Math.min(0.9, Math.max(0.01, v * tone))) as unknown as Rgb;
    return {
      shape: { kind: 'box', size: [length * (1 - 0.04 * wear * r.next()), thickness, width] },
      material: {
        name: 'plank',
        pigment: grain(
          boards(own, { along: 'x', across: 'z', width: width / 3, seed: seed + i, tone: 0.06, joint: 0 }),
          width * 2,
          0.15,
          seed + i,
        ),
        grain: [1, 0, 0],
        ...(options.mirror ? { mirror: options.mirror } : {}),
      },
      at: [at[0] + c * x + s * z, at[1] + y, at[2] - s * x + c * z],
      turn: [wear * 1.5 * r.normal(), heading + wear * 0.8 * r.normal(), wear * 0.5 * r.normal()],
      ...(options.thing ? { thing: options.thing } : {}),
    } satisfies Body;
  });
}

/** A shed: four walls as a box, a gabled roof with eaves; the base stands on `at`, the ridge runs along its z. */
export function shed(options: {
  readonly at: Vec;
  readonly heading?: number;
  /** Width, height of the walls, length. */
  readonly size: Vec;
  readonly roofHeight: number;
  readonly eaves?: number;
  readonly wall: Material;
  readonly roof: Material;
  readonly thing?: string;
}): Body[] {
  const { at, heading = 0, size, roofHeight, eaves = 0.15, wall, roof } = options;
  const thing = options.thing ? { thing: options.thing } : {};
  return [
    {
      shape: { kind: 'box', size },
      material: wall,
      at: [at[0], at[1] + size[1] / 2, at[2]],
      turn: [0, heading, 0],
      ...thing,
    },
    {
      shape: { kind: 'roof', size: [size[0] + 2 * eaves, roofHeight, size[2] + 2 * eaves] },
      material: roof,
      at: [at[0], at[1] + size[1], at[2]],
      turn: [0, heading, 0],
      ...thing,
    },
  ];
}

/** A wall across x with a rectangular opening: four boxes. The base's middle stands on `at`. */
export function wallWithOpening(options: {
  readonly at: Vec;
  readonly heading?: number;
  readonly width: number;
  readonly height: number;
  readonly thickness: number;
  /** Left, right, bottom and top of the opening, from the base's middle. */
  readonly opening: readonly [number, number, number, number];
  readonly material: Material;
  readonly thing?: string;
}): Body[] {
  const { at, heading = 0, width, height, thickness, opening, material } = options;
  const [left, right, bottom, top] = opening;
  const angle = (heading * Math.PI) / 180;
  const part = (x0: number, x1: number, y0: number, y1: number): Body => {
    const x = (x0 + x1) / 2;
    return {
      shape: { kind: 'box', size: [x1 - x0, y1 - y0, thickness] },
      material,
      at: [at[0] + Math.cos(angle) * x, at[1] + (y0 + y1) / 2, at[2] - Math.sin(angle) * x],
      turn: [0, heading, 0],
      ...(options.thing ? { thing: options.thing } : {}),
    };
  };
  return [
    part(-width / 2, left, 0, height),
    part(right, width / 2, 0, height),
    ...(bottom > 0 ? [part(left, right, 0, bottom)] : []),
    ...(top < height ? [part(left, right, top, height)] : []),
  ];
}
