/**
 * The ferry landing as bodies, lights and air. Metres; the eye looks along −z over water at y = 0.
 *
 * Composed, not only built: the jetty leads from the lower left to the lit door, the sheds stand dark against
 * the sky, mud banks frame the water that holds their reflection.
 */
import {
  type Body,
  cloud2,
  hash01,
  type Light,
  noise2,
  type Rgb,
  type Scene,
  type SkyColour,
  type Vec,
} from '../scene/index.ts';
import { FILL, KEY, type Materials, materialsOf } from './materials.ts';
import { at, beam, planking, pole, rope } from './parts.ts';
import { inShed, inShedBox, type Shed, shedBodies } from './sheds.ts';
import { skyOf } from './sky.ts';

/** What the seed decides, so that other evenings and tides can be painted. */
export interface PlaceOptions {
  readonly seed: number;
  /** Width of the picture by its height. */
  readonly aspect: number;
}

/** The scene with the places that the painter needs to know. */
export interface Place {
  readonly scene: Scene;
  /** The lit door and the lamp on the jetty, as points in the world. */
  readonly focus: Vec;
  readonly lamp: Vec;
  readonly doorLamp: Vec;
  /** Wide angle: tangent of half the horizontal view, and the horizon's place as a share of the height. */
  readonly tan: number;
  readonly horizon: number;
  readonly eye: Vec;
  readonly aspect: number;
}

const EYE = 2.35;
const TAN = 0.52;
const HORIZON = 0.545;
const DECK = 1.35;

const strength = (c: Rgb, s: number): Rgb => [c[0] * s, c[1] * s, c[2] * s];
const smooth = (a: number, b: number, t: number) => {
  const s = Math.min(1, Math.max(0, (t - a) / (b - a)));
  return s * s * (3 - 2 * s);
};

/** Builds the landing. */
export function placeOf({ seed, aspect }: PlaceOptions): Place {
  const vary = (k: number) => hash01(k, 17, 0, seed) - 0.5;
  const tide = 0.03 * vary(1);
  const ground = groundOf(seed, tide);
  const wet = (x: number, z: number) => {
    const h = ground(x, -z - NEAR_MID);
    return 0.25 + 0.75 * (1 - smooth(0.005, 0.13, h));
  };
  const m = materialsOf(seed, wet);
  const sheds = shedsOf(m);
  const [, middle] = sheds;
  const focus = inShed(middle!, -0.1, 1, middle!.length / 2 + 0.1);
  const doorLamp = inShed(middle!, -1.25, 2.12, middle!.length / 2 + 0.5);
  const headLamp: Vec = at(2.55, DECK + 2.05, 20.6);
  const bodies: Body[] = [
    ...groundBodies(m, ground, seed),
    ...sheds.flatMap(shedBodies),
    ...doorway(m, middle!, doorLamp),
    ...figure(m, inShed(middle!, -0.22, 0, middle!.length / 2 + 0.75)),
    ...landing(m, seed),
    ...jetty(m, headLamp, seed),
    ...boat(m, seed),
    ...nets(m, ground, seed),
    ...farPoles(m, seed),
  ];
  const third = sheds[0]!;
  const wall = third.length / 2;
  bodies.push(
    inShedBox(third, m.window!, [0.62, 0.62, 0.04], 0.75, 1.5, wall + 0.02),
    inShedBox(third, m.windowDim!, [0.62, 0.2, 0.02], 0.75, 1.71, wall + 0.045),
    inShedBox(third, m.trim!, [0.05, 0.62, 0.05], 0.75, 1.5, wall + 0.05),
    inShedBox(third, m.trim!, [0.62, 0.045, 0.05], 0.75, 1.52, wall + 0.05),
    inShedBox(third, m.trim!, [0.82, 0.09, 0.1], 0.75, 1.15, wall + 0.05),
    // A barred door and a lean of spars against the wall.
    inShedBox(third, m.door!, [1.3, 1.95, 0.07], -0.85, 0.98, wall + 0.03),
    inShedBox(third, m.trim!, [1.3, 0.1, 0.06], -0.85, 0.5, wall + 0.08),
    inShedBox(third, m.trim!, [1.3, 0.1, 0.06], -0.85, 1.5, wall + 0.08),
    inShedBox(third, m.trim!, [0.07, 2.7, 0.07], 1.55, 1.25, wall + 0.25, 0, 6),
    inShedBox(third, m.trim!, [0.06, 2.4, 0.06], 1.75, 1.15, wall + 0.25, 0, -5),
  );
  const sky = skyOf({ seed, glowAt: -13 + 6 * vary(2), clouds: 0.9 + 0.3 * vary(3) });
  const lights: Light[] = [
    {
      kind: 'sun',
      towards: [-0.92, 0.11, -0.16],
      colour: strength(KEY, 1.05),
      size: 12,
      samples: 6,
    },
    { kind: 'lamp', at: doorLamp, colour: strength(KEY, 0.72), reference: 1, radius: 0.16, samples: 6 },
    { kind: 'lamp', at: headLamp, colour: strength(KEY, 1.9), reference: 1, radius: 0.14, samples: 6 },
    // The lit room behind the door, as a wide soft source just outside it.
    {
      kind: 'lamp',
      at: inShed(middle!, 0, 1.15, middle!.length / 2 + 0.5),
      colour: strength(KEY, 0.66),
      reference: 1,
      radius: 0.4,
      samples: 6,
      reach: 9,
    },
  ];
  const fov = (2 * Math.atan(TAN / aspect) * 180) / Math.PI;
  const scene: Scene = {
    camera: { eye: [0, EYE, 0], target: [0, EYE, -10], fov, shift: [0, HORIZON - 0.5] },
    bodies,
    lights,
    fill: {
      up: FILL,
      down: strength(FILL, 0.3),
      occlusion: { samples: 7, reach: 2.2, strength: 0.9 },
    },
    sky,
    haze: { density: 0.0018, height: 7, base: 0, colour: mistOf(sky) },
  };
  return { scene, focus, lamp: headLamp, doorLamp, tan: TAN, horizon: HORIZON, eye: [0, EYE, 0], aspect };
}

/** Mist has the colour of the low sky in its direction, a little less of the band's; kept by azimuth. */
function mistOf(sky: SkyColour): SkyColour {
  const steps = 128;
  const table = new Float64Array((steps + 1) * 3);
  const low = new Float64Array(3);
  const high = new Float64Array(3);
  for (let i = 0; i <= steps; i++) {
    const t = (i / steps - 0.5) * Math.PI;
    sky(Math.sin(t), 0.035, -Math.cos(t), low);
    sky(Math.sin(t), 0.16, -Math.cos(t), high);
    for (let c = 0; c < 3; c++) table[i * 3 + c] = 0.5 * low[c]! + 0.42 * high[c]!;
  }
  return (dx, _dy, dz, out) => {
    const t = Math.min(1, Math.max(0, Math.atan2(dx, -dz) / Math.PI + 0.5)) * steps;
    const i = Math.min(steps - 1, Math.floor(t));
    for (let c = 0; c < 3; c++) {
      const from = table[i * 3 + c]!;
      out[c] = from + (table[i * 3 + 3 + c]! - from) * (t - i);
    }
  };
}

const NEAR_MID = 20;
const NEAR_SIZE = [34, 30] as const;

/** Height of the mud by place (x, far): banks in front and at the left, a channel to the sheds. */
function groundOf(seed: number, tide: number): (x: number, far: number) => number {
  return (x, far) => {
    const broad = cloud2(x / 6.5 + 3, far / 3.6, seed + 31, 3) - 0.5;
    const fine = cloud2(x / 1.5, far / 0.9, seed + 32, 3) - 0.5;
    const edge = 1.6 * (noise2(x / 2.2, 0.5, seed + 33) - 0.5);
    const front = 0.34 * smooth(9.6, 7.2, far + edge + 0.2 * x);
    const right = 0.42 * smooth(3.3, 6.2, x + 0.8 * edge - 0.28 * Math.abs(far - 11)) * smooth(17, 13, far);
    const left = 0.13 * smooth(-1.5, -5, x + 2 * edge - 0.12 * (far - 10)) * smooth(21, 14, far);
    const channel = 0.2 * Math.exp(-(((x - 1.6 - 0.05 * far) / (2.4 + 0.04 * far)) ** 2));
    return 0.5 * broad + 0.1 * fine + front + right + left - channel - 0.075 + tide;
  };
}

function groundBodies(m: Materials, ground: (x: number, far: number) => number, seed: number): Body[] {
  const bars = (x: number, z: number) => {
    const n = cloud2(x / 16, z / 5, seed + 34, 4) - 0.56;
    return n * 0.9 * smooth(0, 0.05, Math.abs(n)) - 0.02;
  };
  const hills = (x: number, z: number) => {
    const slow = cloud2(x / 70 + 9, 0.5, seed + 35, 3);
    const lumps = cloud2(x / 11, z / 14, seed + 36, 3);
    const rim = smooth(34, 12, Math.abs(z));
    const west = 0.35 + 0.65 * smooth(-150, 60, x);
    return rim * (15 * west * slow ** 1.4 + 3 * lumps * slow) - 0.5;
  };
  const tongue = (x: number, z: number) => {
    const end = smooth(-22, 14, x + 14 * (cloud2(z / 9, 0.5, seed + 37, 2) - 0.5));
    const trees = cloud2(x / 3.2, z / 4, seed + 38, 3);
    const rim = smooth(9, 3, Math.abs(z));
    return rim * end * (0.7 + 3.4 * smooth(0.42, 0.75, trees) * smooth(-4, 30, x)) - 0.3;
  };
  return [
    { shape: { kind: 'plane' }, material: m.water!, thing: 'water', shadow: false },
    {
      shape: {
        kind: 'terrain',
        size: NEAR_SIZE,
        cells: [300, 260],
        height: (x, z) => ground(x, -z + NEAR_MID),
      },
      material: { ...m.mud!, mirror: { ...m.mud!.mirror!, cover: m.mud!.mirror!.cover! } },
      at: at(0, 0, NEAR_MID),
      thing: 'mud',
      shadow: false,
    },
    {
      shape: { kind: 'terrain', size: [170, 80], cells: [240, 160], height: bars },
      material: { ...m.mud!, mirror: { ...m.mud!.mirror!, cover: () => 0.7 } },
      at: at(0, 0, 76),
      thing: 'flats',
      shadow: false,
    },
    {
      shape: { kind: 'terrain', size: [120, 24], cells: [240, 24], height: tongue },
      material: m.spit!,
      at: at(38, 0, 105),
      thing: 'spit',
      shadow: false,
    },
    {
      shape: { kind: 'terrain', size: [460, 80], cells: [400, 32], height: hills },
      material: m.shore!,
      at: at(0, 0, 225),
      thing: 'far shore',
      shadow: false,
    },
  ];
}

function shedsOf(m: Materials): Shed[] {
  const common = { trim: m.trim!, piles: m.pile! };
  return [
    {
      ...common,
      thing: 'right shed',
      x: 8.15,
      far: 23.2,
      floor: DECK,
      width: 4.3,
      length: 5.2,
      wall: 2.3,
      rise: 1.5,
      heading: -10,
      walls: m.redWall!,
      roof: m.shingle!,
    },
    {
      ...common,
      thing: 'middle shed',
      x: 4.45,
      far: 25,
      floor: DECK,
      width: 4.0,
      length: 4.8,
      wall: 2.7,
      rise: 1.6,
      heading: 6,
      walls: m.paleWall!,
      roof: m.tin!,
    },
    {
      ...common,
      thing: 'left shed',
      x: 2.3,
      far: 31.5,
      floor: DECK - 0.1,
      width: 4.0,
      length: 3.6,
      wall: 2.2,
      rise: 1.5,
      heading: 82,
      walls: m.slateWall!,
      roof: m.shingle!,
    },
  ];
}

/** The open door of the middle shed, with what stands in its light. */
function doorway(m: Materials, s: Shed, lamp: Vec): Body[] {
  const z = s.length / 2;
  return [
    inShedBox(s, m.doorGlow!, [1.15, 1.95, 0.04], -0.1, 0.98, z + 0.015),
    inShedBox(s, m.trim!, [0.14, 2.1, 0.16], -0.75, 1.05, z + 0.06),
    inShedBox(s, m.trim!, [0.14, 2.1, 0.16], 0.55, 1.05, z + 0.06),
    inShedBox(s, m.trim!, [1.5, 0.15, 0.18], -0.1, 2.05, z + 0.06),
    // The leaf, turned outwards.
    inShedBox(s, m.door!, [1.1, 1.95, 0.06], 1.02, 0.98, z + 0.36, -38),
    // Inside: a barrel and dimmer corners.
    inShedBox(s, m.doorDark!, [0.34, 0.6, 0.03], 0.24, 0.32, z + 0.05),
    inShedBox(s, m.doorDark!, [0.26, 0.1, 0.03], 0.24, 0.66, z + 0.05),
    inShedBox(s, m.doorDim!, [0.3, 1.9, 0.02], -0.52, 0.96, z + 0.04),
    inShedBox(s, m.doorDim!, [1.1, 0.42, 0.02], -0.1, 1.76, z + 0.042),
    // Lamp on its bracket.
    {
      shape: { kind: 'sphere', radius: 0.13 },
      material: m.lampGlass!,
      at: lamp,
      shadow: false,
      thing: 'door lamp',
    },
    inShedBox(s, m.rail!, [0.05, 0.05, 0.6], -1.25, 2.36, z + 0.25),
    { ...inShedBox(s, m.dark!, [0.34, 0.06, 0.34], -1.25, 2.32, z + 0.5), shadow: false },
  ];
}

/** Somebody who has come out of the door: a coat, a cap, a bucket; a few bodies, as a painter would set it down. */
function figure(m: Materials, foot: Vec): Body[] {
  const [x, y, z] = foot;
  const limb = (a: Vec, b: Vec, size: number): Body => ({
    ...beam(
      m.coat!,
      'figure',
      [x + a[0], y + a[1], -z - a[2]],
      [x + b[0], y + b[1], -z - b[2]],
      [size, size],
    ),
  });
  const round = (
    radius: number,
    height: number,
    top: number,
    dx: number,
    up: number,
    material = m.coat!,
  ): Body => ({
    shape: { kind: 'cylinder', radius, height, top },
    material,
    at: [x + dx, y + up, z],
    thing: 'figure',
  });
  return [
    limb([-0.1, 0, 0.03], [-0.08, 0.8, 0], 0.14),
    limb([0.11, 0, -0.06], [0.07, 0.8, 0], 0.14),
    round(0.215, 0.5, 0.175, 0, 0.62),
    round(0.18, 0.36, 0.12, 0.01, 1.08),
    {
      shape: { kind: 'sphere', radius: 0.115 },
      material: m.skin!,
      at: [x + 0.015, y + 1.545, z],
      thing: 'figure',
    },
    round(0.135, 0.07, 0.1, 0.02, 1.6),
    limb([-0.16, 1.38, 0], [-0.235, 0.84, 0.05], 0.085),
    limb([0.17, 1.38, 0], [0.215, 0.86, 0.1], 0.085),
    round(0.085, 0.2, 0.11, -0.25, 0.5, m.trim!),
  ];
}

/** The floor the sheds stand on, between them and the jetty. */
function landing(m: Materials, seed: number): Body[] {
  const out: Body[] = [
    ...planking(
      m.planks!,
      'landing',
      at(1.75, DECK, 20.9).map(Math.abs) as unknown as Vec,
      [10.4, DECK, 19.6],
      1.7,
      0.2,
      seed + 41,
    ),
    ...planking(m.planks!, 'landing', [2.6, DECK, 22], [6.6, DECK, 22.2], 2.3, 0.2, seed + 42),
    beam(m.beam!, 'landing', [1.8, DECK - 0.17, 20.1], [10.4, DECK - 0.17, 18.8], [0.16, 0.24]),
    beam(m.beam!, 'landing', [1.8, DECK - 0.55, 20.2], [10.4, DECK - 0.6, 18.9], [0.09, 0.12]),
  ];
  for (let i = 0; i <= 8; i++) {
    const t = i / 8;
    const r = hash01(i, 4, 1, seed) - 0.5;
    out.push(
      pole(
        m.pile!,
        'landing',
        1.9 + 8.4 * t,
        20.05 - 1.25 * t,
        -0.7,
        i % 3 === 1 ? DECK + 0.85 + 0.3 * r : DECK,
        0.115,
        [2 * r, 3 * r],
      ),
    );
  }
  // Crates, a barrel and a stack of pots on the landing.
  const box = (size: Vec, x: number, far: number, y: number, turn: number): Body => ({
    shape: { kind: 'box', size },
    material: m.trim!,
    at: at(x, DECK + y, far),
    turn: [0, turn, 0],
    thing: 'crates',
  });
  out.push(
    box([0.8, 0.5, 0.6], 7.1, 19.7, 0.25, 14),
    box([0.7, 0.45, 0.5], 7.2, 19.7, 0.73, -9),
    box([0.6, 0.5, 0.6], 8.1, 19.6, 0.25, 30),
  );
  out.push({
    shape: { kind: 'cylinder', radius: 0.34, height: 0.85 },
    material: m.beam!,
    at: at(6.2, DECK, 20.4),
    thing: 'crates',
  });
  return out;
}

/** The jetty from the lower left to the landing, with posts, a rope rail and the lamp at its head. */
function jetty(m: Materials, lamp: Vec, seed: number): Body[] {
  const a: Vec = [-3.05, DECK, 2.6];
  const b: Vec = [2.75, DECK, 20.6];
  const along = (t: number, side: number, y: number): Vec => {
    const dx = b[0] - a[0];
    const dz = b[2] - a[2];
    const l = Math.hypot(dx, dz);
    return [a[0] + dx * t + (side * dz) / l, y, a[2] + dz * t - (side * dx) / l];
  };
  const out = planking(m.planks!, 'jetty', a, b, 1.55, 0.21, seed + 51);
  for (const side of [-0.68, 0.68])
    out.push(beam(m.beam!, 'jetty', along(0, side, DECK - 0.17), along(1, side, DECK - 0.17), [0.14, 0.22]));
  const bays = 9;
  for (let i = 1; i <= bays; i++) {
    const t = i / bays - 0.02;
    const r = (k: number) => hash01(i, k, 2, seed) - 0.5;
    const tall = DECK + 0.95 + 0.25 * r(1);
    const l = along(t, -0.8, 0);
    const p = along(t, 0.8, 0);
    out.push(pole(m.pile!, 'jetty', l[0], l[2], -0.7, tall, 0.075, [2 * r(2), 3 * r(3)]));
    out.push(
      pole(m.pile!, 'jetty', p[0], p[2], -0.7, i % 2 ? DECK + 0.3 + 0.3 * r(6) : DECK - 0.06, 0.085, [
        2 * r(4),
        3 * r(5),
      ]),
    );
    out.push(beam(m.beam!, 'jetty', along(t, -0.95, DECK - 0.35), along(t, 0.95, DECK - 0.35), [0.12, 0.18]));
    if (i > 1) {
      const before = along((i - 1) / bays - 0.02, -0.8, 0);
      out.push(
        ...rope(
          m.rope!,
          'jetty',
          [before[0], DECK + 0.85, before[2]],
          [l[0], DECK + 0.85, l[2]],
          0.16 + 0.08 * r(7),
          0.022,
        ),
      );
    }
    if (i % 2 === 0)
      out.push(beam(m.beam!, 'jetty', along(t, -0.8, 0.25), along(t, 0.8, DECK - 0.3), [0.08, 0.12]));
  }
  out.push(pole(m.pole!, 'lamp post', lamp[0] + 0.16, -lamp[2], DECK - 1.6, lamp[1] + 0.22, 0.06));
  out.push({
    shape: { kind: 'sphere', radius: 0.13 },
    material: m.lampGlass!,
    at: lamp,
    shadow: false,
    thing: 'head lamp',
  });
  out.push({
    shape: { kind: 'cylinder', radius: 0.2, height: 0.12, top: 0.04 },
    material: m.dark!,
    at: [lamp[0], lamp[1] + 0.13, lamp[2]],
    shadow: false,
    thing: 'lamp post',
  });
  return out;
}

/** A flat boat between jetty and sheds: bottom, two sides, raked bow and stern, thwarts, oars. */
function boat(m: Materials, seed: number): Body[] {
  const v = (k: number) => hash01(k, 23, 0, seed) - 0.5;
  const x = -6.1 + 0.8 * v(1);
  const far = 19 + v(2);
  const heading = 66 + 14 * v(3);
  const t = (heading * Math.PI) / 180;
  const put = (lx: number, ly: number, lz: number): Vec => [
    x + Math.cos(t) * lx + Math.sin(t) * lz,
    ly + 0.05,
    -far - Math.sin(t) * lx + Math.cos(t) * lz,
  ];
  const part = (
    material: Body['material'],
    size: Vec,
    lx: number,
    ly: number,
    lz: number,
    pitch = 0,
    turn = 0,
    roll = 0,
  ): Body => ({
    shape: { kind: 'box', size },
    material,
    at: put(lx, ly, lz),
    turn: [pitch, heading + turn, roll],
    thing: 'boat',
  });
  return [
    part(m.inside!, [1.1, 0.06, 3.1], 0, 0.07, 0),
    part(m.hull!, [0.06, 0.46, 3.1], -0.62, 0.26, 0, 0, 0, 12),
    part(m.hull!, [0.06, 0.46, 3.1], 0.62, 0.26, 0, 0, 0, -12),
    part(m.inside!, [0.05, 0.4, 3], -0.56, 0.28, 0, 0, 0, 12),
    part(m.inside!, [0.05, 0.4, 3], 0.56, 0.28, 0, 0, 0, -12),
    // Raked ends.
    part(m.hull!, [1.16, 0.06, 0.85], 0, 0.3, 1.85, -28),
    part(m.hull!, [1.16, 0.06, 0.6], 0, 0.28, -1.75, 34),
    part(m.trim!, [0.09, 0.06, 3.2], -0.68, 0.5, 0),
    part(m.trim!, [0.09, 0.06, 3.2], 0.68, 0.5, 0),
    part(m.trim!, [1.25, 0.06, 0.26], 0, 0.38, 0.55),
    part(m.trim!, [1.25, 0.06, 0.26], 0, 0.38, -0.75),
    part(m.rail!, [0.05, 0.05, 2.6], 0.2, 0.46, -0.1, 3, 7),
    ...rope(m.rope!, 'mooring', [...tuple(put(0, 0.5, -2))], [-0.06, DECK + 0.35, 14.45], 0.55, 0.016),
  ];
}

/** (x, y, z) of the world as (x, y, far). */
const tuple = (p: Vec): Vec => [p[0], p[1], -p[2]];

/** Nets hung to dry between poles on the bank at the right: gathered folds, thin at their lower ends. */
function nets(m: Materials, ground: (x: number, far: number) => number, seed: number): Body[] {
  const out: Body[] = [];
  const v = (k: number) => hash01(k, 29, 0, seed) - 0.5;
  const row: [number, number, number][] = [
    [3.9 + 0.2 * v(1), 11.6, 2.5],
    [4.95 + 0.2 * v(2), 10.5, 2.85],
    [5.7 + 0.2 * v(3), 9, 2.7],
  ];
  row.forEach(([x, far, top], i) => {
    const lean: [number, number] = [5 * v(10 + i), 6 * v(20 + i)];
    out.push(pole(m.pole!, 'net poles', x, far, ground(x, far) - 0.3, top, 0.055, lean));
  });
  for (let i = 0; i + 1 < row.length; i++) {
    const [x0, f0, t0] = row[i]!;
    const [x1, f1, t1] = row[i + 1]!;
    const place = (t: number, y: number): Vec => [x0 + (x1 - x0) * t, y, f0 + (f1 - f0) * t];
    const line = (t: number) => t0 + (t1 - t0) * t - 0.1 - (i === 0 ? 1.5 : 1.2) * t * (1 - t);
    out.push(
      ...rope(m.rope!, 'net poles', place(0, line(0)), place(1, line(1)), i === 0 ? 0.375 : 0.3, 0.022),
    );
    // Meshes: two slanting families of threads over a gathered drape.
    const drop = (t: number) =>
      line(t) -
      0.42 -
      0.55 * Math.abs(Math.sin(t * Math.PI * 2.5 + 0.6 + i)) ** 1.5 -
      0.25 * (noise2(t * 6, i, seed + 61) - 0.5);
    const drape = (t: number, down: number): Vec => {
      // Gathered where it is tied, wider lower down, swinging a little out of its plane.
      const tie = 0.045 * Math.sin(t * Math.PI * 2 * 4 + i) * (1 - 0.4 * down);
      const s = Math.min(1, Math.max(0, t + tie));
      const [x, , far] = place(s, 0);
      const swing = 0.12 * down * Math.sin(t * 17 + 2 * i);
      return [x + swing, line(s) - down * drop(t), far - 0.6 * swing];
    };
    const threads = 26;
    const steps = 7;
    for (let f = -7; f < threads; f++)
      for (const slant of [0.27, -0.27]) {
        let before: Vec | null = null;
        for (let k = 0; k <= steps; k++) {
          const down = k / steps;
          const t = (f + 0.5) / (threads - 7) + (slant > 0 ? slant * down : 0.27 + slant * down);
          const point = t < 0 || t > 1 ? null : drape(t, down);
          if (before && point)
            out.push({ ...beam(m.net!, 'nets', before, point, [0.014, 0.014]), shadow: false });
          before = point;
        }
      }
    // The lower edge, heavier, with its lead line.
    for (let k = 0; k < 16; k++)
      out.push({
        ...beam(m.net!, 'nets', drape(k / 16, 1), drape((k + 1) / 16, 1), [0.035, 0.035]),
        shadow: false,
      });
    for (let s = 0; s < 6; s++) {
      const t = (s + 0.5) / 6;
      const p = place(t, line(t) - 0.02);
      out.push({
        shape: { kind: 'sphere', radius: 0.055 },
        material: m.float!,
        at: [p[0], p[1], -p[2] + 0.05],
        thing: 'nets',
      });
    }
  }
  // Heaps of net at the foot.
  const heaps: [number, number, number][] = [
    [4.5, 10.6, 0.55],
    [4.95, 10.2, 0.42],
    [5.3, 9.4, 0.5],
  ];
  for (const [x, far, radius] of heaps)
    out.push({
      shape: { kind: 'sphere', radius },
      material: m.net!,
      at: at(x, ground(x, far) - radius * 0.45, far),
      thing: 'nets',
    });
  return out;
}

/** Withies and net poles out on the flats: small uprights that measure the distance. */
function farPoles(m: Materials, seed: number): Body[] {
  const out: Body[] = [];
  for (let i = 0; i < 11; i++) {
    const r = (k: number) => hash01(i, k, 6, seed);
    const far = 34 + 3.4 * i + 3 * r(1);
    const x = -14 - 1.2 * i + 4 * r(2);
    out.push(pole(m.pole!, 'withies', x, far, -0.4, 1.1 + 1.3 * r(3), 0.06, [0, 12 * (r(4) - 0.5)]));
  }
  return out;
}
