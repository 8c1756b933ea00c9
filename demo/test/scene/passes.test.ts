/** The passes fit together, and come out the same every time. */
import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import {
  boards,
  checks,
  hash01,
  joinRows,
  type Passes,
  plain,
  plankRow,
  random,
  render,
  ripples,
  type Scene,
  shed,
  wallWithOpening,
} from '../../src/scene/index.ts';

const scene: Scene = {
  camera: { eye: [0, 1.6, 7], target: [0, 0.8, 0], fov: 42 },
  bodies: [
    {
      shape: {
        kind: 'terrain',
        size: [30, 30],
        cells: [60, 60],
        height: (x, z) => 0.3 * Math.sin(x) * Math.cos(z) - 0.1,
      },
      material: { name: 'ground', pigment: plain([0.3, 0.28, 0.2]) },
      thing: 'ground',
    },
    {
      shape: { kind: 'plane' },
      material: {
        name: 'water',
        pigment: plain([0.03, 0.04, 0.04]),
        mirror: { facing: 0.04, grazing: 0.9, ripple: ripples(0.4, 0.05, 3) },
      },
    },
    ...shed({
      at: [1, 0, -1],
      heading: 25,
      size: [1.6, 1.2, 2],
      roofHeight: 0.8,
      wall: {
        name: 'wall',
        pigment: boards([0.4, 0.3, 0.2], { along: 'y', across: 'x', width: 0.2, seed: 3 }),
        grain: [0, 1, 0],
      },
      roof: { name: 'roof', pigment: checks([0.3, 0.3, 0.3], [0.5, 0.2, 0.1], 0.3) },
      thing: 'shed',
    }),
    ...plankRow({
      at: [-1.5, 0.3, 1],
      length: 1,
      count: 8,
      width: 0.2,
      thickness: 0.05,
      colour: [0.4, 0.35, 0.3],
      seed: 8,
    }),
    {
      shape: { kind: 'sphere', radius: 0.15 },
      at: [-0.5, 1.5, 0],
      material: { name: 'lamp', pigment: plain([0.5, 0.5, 0.5]), glow: [2, 1.5, 0.7] },
    },
  ],
  lights: [
    { kind: 'sun', towards: [-1, 0.7, 0.4], colour: [0.9, 0.7, 0.5], size: 3 },
    { kind: 'lamp', at: [-0.5, 1.5, 0], colour: [0.6, 0.4, 0.1], reference: 1, radius: 0.15, halo: 0.03 },
  ],
  fill: {
    up: [0.15, 0.2, 0.3],
    down: [0.1, 0.08, 0.06],
    occlusion: { samples: 6, reach: 1.5, strength: 0.7 },
  },
  haze: { density: 0.02, height: 4, colour: (_x, _y, _z, out) => out.set([0.5, 0.5, 0.6]) },
  sky: (_x, y, _z, out) => out.set([0.4 - 0.2 * y, 0.5 - 0.2 * y, 0.7]),
};

const [W, H] = [120, 80];
const p = render(scene, W, H);

const floats = (q: Passes) =>
  Object.entries(q).filter((e): e is [string, Float32Array] => e[1] instanceof Float32Array);

const fingerprint = (q: Passes) => {
  const sum = createHash('sha256');
  for (const [name, value] of Object.entries(q)) {
    sum.update(name);
    sum.update(
      ArrayBuffer.isView(value)
        ? new Uint8Array(value.buffer, value.byteOffset, value.byteLength)
        : JSON.stringify(value),
    );
  }
  return sum.digest('hex');
};

describe('passes', () => {
  it('the same numbers twice, and in parts of rows', () => {
    expect(fingerprint(render(scene, W, H))).toBe(fingerprint(p));
    const parts = [
      render(scene, W, H, { rows: [47, H] }),
      render(scene, W, H, { rows: [0, 13] }),
      render(scene, W, H, { rows: [13, 47] }),
    ];
    expect(fingerprint(joinRows(parts))).toBe(fingerprint(p));
  });

  it('no pass holds anything but finite numbers, also with sub-samples', () => {
    for (const q of [p, render(scene, 60, 40, { supersample: 2 }), render(scene, 60, 40, { supersample: 3 })])
      for (const [, data] of floats(q)) expect(data.every(Number.isFinite)).toBe(true);
  });

  it('colour is the sum that the type promises', () => {
    for (let i = 0; i < W * H; i++)
      for (let c = 0; c < 3; c++) {
        const j = i * 3 + c;
        if (p.sky[i]) continue;
        const surface = p.reflectance[j]! * (p.key[j]! + p.fill[j]!) * (1 - p.mirrorShare[i]!);
        const sum = (surface + p.mirror[j]! + p.emissive[j]!) * p.clear[i]! + p.air[j]!;
        expect(Math.abs(p.colour[j]! - sum)).toBeLessThan(1e-5);
      }
  });

  it('ids, sky and k are what they say', () => {
    const seen = new Set(p.body);
    expect([...seen].every((b) => b >= -1 && b < scene.bodies.length)).toBe(true);
    for (let i = 0; i < W * H; i++) {
      expect(p.sky[i] === 1).toBe(p.body[i] === -1);
      expect(p.k[i]!).toBeGreaterThanOrEqual(0);
      expect(p.k[i]!).toBeLessThanOrEqual(1);
      if (p.body[i]! >= 0)
        expect(Math.hypot(p.normal[i * 3]!, p.normal[i * 3 + 1]!, p.normal[i * 3 + 2]!)).toBeCloseTo(1, 5);
    }
    expect(p.things[2]).toBe('shed');
    expect(p.surfaceNames).toContain('water');
  });

  it('grain runs along the boards: upright boards look upright', () => {
    let n = 0;
    for (let i = 0; i < W * H; i++) {
      if (p.body[i] !== 2 || Math.abs(p.normal[i * 3 + 1]!) > 0.5) continue;
      n++;
      expect(Math.abs(p.along[i * 2 + 1]!)).toBeGreaterThan(0.97);
    }
    expect(n).toBeGreaterThan(50);
  });

  it('sub-samples mix the colours at an edge', () => {
    const edge: Scene = {
      ...scene,
      camera: { eye: [0, 0, 10], target: [0, 0, 0], fov: 20 },
      bodies: [
        {
          shape: { kind: 'plane' },
          turn: [90, 0, 0],
          at: [0, 0, 0],
          material: { name: 'half', pigment: (at, out) => out.fill(at.x < 0.0001 ? 0 : 1) },
        },
      ],
      lights: [],
      fill: { up: [1, 1, 1], down: [1, 1, 1] },
    };
    const { haze: _, ...clear } = edge;
    const q = render(clear, 9, 3, { supersample: 4 });
    expect(q.colour[(9 + 2) * 3]).toBeCloseTo(0, 5);
    expect(q.colour[(9 + 6) * 3]).toBeCloseTo(1, 5);
    expect(q.colour[(9 + 4) * 3]).toBeCloseTo(0.5, 1);
  });

  it('the opening of a wall lets the sun through', () => {
    const material = { name: 'wall', pigment: plain([0.5, 0.5, 0.5]) };
    const q = render(
      {
        camera: { eye: [0, 8, 0.001], target: [0, 0, 0], fov: 50 },
        bodies: [
          { shape: { kind: 'plane' }, material },
          ...wallWithOpening({
            at: [0, 0, -3],
            width: 12,
            height: 4,
            thickness: 0.1,
            opening: [-1, 1, 1, 2],
            material,
          }),
        ],
        lights: [{ kind: 'sun', towards: [0, 1, -2], colour: [1, 1, 1], size: 0 }],
        fill: { up: [0, 0, 0], down: [0, 0, 0] },
        sky: scene.sky,
      },
      101,
      101,
    );
    // Opening 1…2 m high, sun at a slope of 1:2 → lit from 2 to 4 m behind the wall: z from −1 to 1.
    const at = (x: number, z: number) => {
      const scale = 101 / (2 * 8 * Math.tan((25 * Math.PI) / 180));
      return q.k[Math.round(50 + z * scale) * 101 + Math.round(50 + x * scale)]!;
    };
    expect(at(0, 0)).toBeGreaterThan(0.4);
    expect(at(0, 1.4)).toBe(0);
    expect(at(0, -1.4)).toBe(0);
    expect(at(1.4, 0)).toBe(0);
  });

  it('says what cannot be rendered', () => {
    expect(() => render(scene, 0, 10)).toThrow(RangeError);
    expect(() => render(scene, 10, 10, { rows: [5, 12] })).toThrow(/rows 5 to 12/);
    expect(() => joinRows([render(scene, 4, 4, { rows: [0, 2] })])).toThrow(/cover/);
  });
});

describe('random numbers', () => {
  it('are even: chi-square of 16 cells stays below the 0.1 % point', () => {
    const r = random(5);
    const cells = new Array<number>(16).fill(0);
    for (let i = 0; i < 16000; i++) cells[Math.floor(r.next() * 16)]!++;
    const chi = cells.reduce((s, n) => s + (n - 1000) ** 2 / 1000, 0);
    // 15 degrees of freedom: 37.70 (table of the chi-square distribution, e.g. NIST handbook 1.3.6.7.4).
    expect(chi).toBeLessThan(37.7);
  });

  it('neighbouring cells do not follow each other', () => {
    let sum = 0;
    for (let x = 0; x < 100; x++)
      for (let y = 0; y < 100; y++) sum += (hash01(x, y) - 0.5) * (hash01(x + 1, y) - 0.5);
    // Correlation of 10 000 independent pairs has a deviation of 0.01.
    expect(Math.abs((sum / 10000) * 12)).toBeLessThan(0.04);
  });

  it('normal deviates have mean 0 and deviation 1', () => {
    const r = random(11);
    const v = Array.from({ length: 10000 }, () => r.normal());
    const mean = v.reduce((a, b) => a + b) / v.length;
    expect(Math.abs(mean)).toBeLessThan(0.04);
    expect(v.reduce((a, b) => a + (b - mean) ** 2, 0) / v.length).toBeCloseTo(1, 1);
  });
});
