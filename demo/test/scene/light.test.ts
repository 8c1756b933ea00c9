/** The renderer's light, against laws of physics and published figures. */
import { describe, expect, it } from 'vitest';
import {
  type Light,
  type Passes,
  plain,
  planckian,
  planckXyz,
  type Rgb,
  render,
  type Scene,
  stone,
  type Vec,
} from '../../src/scene/index.ts';

const WHITE: Rgb = [1, 1, 1];
const DARK = { up: [0, 0, 0], down: [0, 0, 0] } as const;
const noSky: Scene['sky'] = (_x, _y, _z, out) => {
  out.fill(0);
};

/** A plane seen from straight above, lit by the given lights; the value of the middle pixel. */
function middle(lights: readonly Light[], more: Partial<Scene> = {}): Rgb {
  const p = render(
    {
      camera: { eye: [0, 10, 0.001], target: [0, 0, 0], fov: 10 },
      bodies: [{ shape: { kind: 'plane' }, material: { name: 'white', pigment: plain(WHITE) } }],
      lights,
      fill: DARK,
      sky: noSky,
      ...more,
    },
    3,
    3,
  );
  return [p.colour[12]!, p.colour[13]!, p.colour[14]!];
}

const sun = (towards: Vec, colour: Rgb = WHITE, size = 0): Light => ({ kind: 'sun', towards, colour, size });

describe('light', () => {
  // Lambert, Photometria 1760: the light received goes with the cosine of the angle of incidence.
  it.each([0, 20, 45, 60, 80, 89])('cosine law at %i°', (degrees) => {
    const a = (degrees * Math.PI) / 180;
    const [r, g, b] = middle([sun([Math.sin(a), Math.cos(a), 0], [1, 0.5, 0.25])]);
    expect(r).toBeCloseTo(Math.cos(a), 6);
    expect(g).toBeCloseTo(0.5 * Math.cos(a), 6);
    expect(b).toBeCloseTo(0.25 * Math.cos(a), 6);
  });

  it('nothing from below the surface', () => {
    expect(middle([sun([0, -1, 0.1])])).toEqual([0, 0, 0]);
  });

  // Inverse square law of a small source.
  it.each([1, 2, 4, 7])('lamp at distance %i', (distance) => {
    const lamp: Light = { kind: 'lamp', at: [0, distance, 0], colour: WHITE, reference: 2 };
    expect(middle([lamp])[0]).toBeCloseTo((2 / distance) ** 2, 5);
  });

  it('cone: full inside, nothing outside', () => {
    const lamp = (inner: number, outer: number, at: Vec): Light => ({
      kind: 'lamp',
      at,
      colour: WHITE,
      reference: 5,
      cone: { towards: [0, -1, 0], inner, outer },
    });
    expect(middle([lamp(10, 20, [0, 5, 0])])[0]).toBeCloseTo(1, 5);
    // 45° off the axis.
    expect(middle([lamp(10, 20, [5, 5, 0])])[0]).toBe(0);
    expect(middle([lamp(50, 60, [5, 5, 0])])[0]).toBeCloseTo(0.5 * Math.SQRT1_2, 5);
  });

  it('keys and fill add up; reflectance multiplies', () => {
    const [r] = middle([sun([0, 1, 0], [0.3, 0, 0]), sun([0.6, 0.8, 0], [0.5, 0, 0])], {
      fill: { up: [0.1, 0, 0], down: [0.9, 0, 0] },
      bodies: [{ shape: { kind: 'plane' }, material: { name: 'grey', pigment: plain([0.5, 1, 1]) } }],
    });
    expect(r).toBeCloseTo(0.5 * (0.3 + 0.8 * 0.5 + 0.1), 6);
  });

  it('soft shadow: half the disc behind an edge leaves half the light', () => {
    // A box whose edge stands right in the line to the sun's centre.
    const blind = { kind: 'box', size: [20, 0.01, 20] } as const;
    let sum = 0;
    const p = render(
      {
        camera: { eye: [0, 3, 0.001], target: [0, 0, 0], fov: 4 },
        bodies: [
          { shape: { kind: 'plane' }, material: { name: 'white', pigment: plain(WHITE) } },
          { shape: blind, material: { name: 'blind', pigment: plain(WHITE) }, at: [10, 5, 0] },
        ],
        lights: [{ kind: 'sun', towards: [0, 1, 0], colour: WHITE, size: 10, samples: 64 }],
        fill: DARK,
        sky: noSky,
      },
      20,
      20,
    );
    for (let i = 0; i < 400; i++) sum += p.k[i]!;
    expect(sum / 400).toBeCloseTo(0.5, 1);
    // Penumbra: 5 m above, disc of 10° → 0.87 m wide; the left edge of this 0.2 m field has more than the right.
    expect(p.k[10 * 20]!).toBeGreaterThan(p.k[10 * 20 + 19]!);
  });
});

describe('mirror', () => {
  /** A mirror on the ground with a red glowing ball standing before a wall; `y` is the eye's height. */
  const pond = (y: number): Scene => ({
    camera: { eye: [0, y, 10], target: [0, 0, 0], fov: 60 },
    bodies: [
      {
        shape: { kind: 'plane' },
        material: { name: 'pond', pigment: plain([0, 0, 0]), mirror: { facing: 1, grazing: 1 } },
      },
      {
        shape: { kind: 'sphere', radius: 0.3 },
        at: [1, 2, -5],
        material: { name: 'ball', pigment: plain([0, 0, 0]), glow: [1, 0, 0] },
      },
    ],
    lights: [],
    fill: DARK,
    sky: noSky,
  });

  // Reflection law (Euclid's Catoptrics): the mirrored picture of a point is seen towards the point's image
  // below the mirror, here (1, −2, −5).
  it.each([1.5, 3, 6])('image stands as far below as the thing above, eye at %f', (y) => {
    const size = 201;
    const p = render(pond(y), size, size);
    let [sx, sy, n] = [0, 0, 0];
    for (let i = 0; i < size * size; i++)
      if (p.mirror[i * 3]! > 0.5) {
        sx += i % size;
        sy += Math.floor(i / size);
        n++;
      }
    expect(n).toBeGreaterThan(10);
    // Projection of (1, −2, −5) by the same pinhole, written out by hand.
    const f = 1 / Math.tan(Math.PI / 6);
    const l = Math.hypot(y, 10);
    const [fy, fz] = [-y / l, -10 / l];
    const [px, py, pz] = [1, -2 - y, -15];
    const z = py * fy + pz * fz;
    const up = py * -fz + pz * fy;
    expect(sx / n).toBeCloseTo(size / 2 - 0.5 + (px / z) * f * (size / 2), 0);
    expect(sy / n).toBeCloseTo(size / 2 - 0.5 - (up / z) * f * (size / 2), 0);
  });

  // Schlick 1994: F(θ) = F₀ + (1 − F₀)(1 − cos θ)⁵.
  it.each([0, 30, 60, 80])('share at %i° from upright follows Schlick', (degrees) => {
    const a = (degrees * Math.PI) / 180;
    const scene: Scene = {
      ...pond(1),
      camera: { eye: [0, 5 * Math.cos(a) + 1e-9, 5 * Math.sin(a) + 1e-6], target: [0, 0, 0], fov: 5 },
      bodies: [
        {
          shape: { kind: 'plane' },
          material: { name: 'pond', pigment: plain([0, 0, 0]), mirror: { facing: 0.02, grazing: 1 } },
        },
      ],
    };
    const share = render(scene, 1, 1).mirrorShare[0]!;
    expect(share).toBeCloseTo(0.02 + 0.98 * (1 - Math.cos(a)) ** 5, 4);
  });
});

describe('air', () => {
  // Bouguer 1729, Koschmieder 1924: what is left falls off exponentially, the rest is the air's own light.
  it.each([5, 20, 60])('at distance %i', (distance) => {
    const p = render(
      {
        camera: { eye: [0, 0, distance], target: [0, 0, 0], fov: 1 },
        bodies: [
          { shape: { kind: 'box', size: [50, 50, 1e-6] }, material: { name: 'wall', pigment: plain(WHITE) } },
        ],
        lights: [sun([0, 0, 1])],
        fill: DARK,
        sky: noSky,
        haze: { density: 0.05, colour: (_x, _y, _z, out) => out.set([0.2, 0.3, 0.4]) },
      },
      1,
      1,
    );
    const left = Math.exp(-0.05 * distance);
    expect(p.colour[0]).toBeCloseTo(left + 0.2 * (1 - left), 5);
    expect(p.colour[2]).toBeCloseTo(left + 0.4 * (1 - left), 5);
  });

  it('haze that thins with height: the slanted integral, against a sum of thin layers', () => {
    const scene: Scene = {
      camera: { eye: [0, 8, 20], target: [0, 1, 0], fov: 1 },
      bodies: [
        { shape: { kind: 'box', size: [50, 50, 1e-6] }, material: { name: 'wall', pigment: plain(WHITE) } },
      ],
      lights: [],
      fill: DARK,
      sky: noSky,
      haze: { density: 0.08, height: 3, base: 0.5, colour: (_x, _y, _z, out) => out.fill(0) },
    };
    const way = Math.hypot(7, 20);
    let depth = 0;
    const steps = 20000;
    for (let i = 0; i < steps; i++) {
      const s = (i + 0.5) / steps;
      depth += (0.08 * Math.exp(-(8 - 7 * s - 0.5) / 3) * way) / steps;
    }
    expect(render(scene, 1, 1).clear[0]).toBeCloseTo(Math.exp(-depth), 4);
  });
});

describe('colours of light', () => {
  // CIE 15:2004: illuminant A is a Planckian radiator at 2856 K, chromaticity (0.44757, 0.40745).
  it('A from Planck’s law', () => {
    const [x, y, z] = planckXyz(2856);
    // The fits of the matching functions are good to about 0.0015 here.
    expect(Math.abs(x / (x + y + z) - 0.44757)).toBeLessThan(0.0015);
    expect(Math.abs(y / (x + y + z) - 0.40745)).toBeLessThan(0.0015);
  });

  // Kim et al. 2002 (US 7024034) cubic of the Planckian locus, as printed in many handbooks.
  it.each([2500, 4000, 6500, 10000, 20000])('locus at %i K against the published cubic', (T) => {
    const x =
      T < 4000
        ? -0.2661239e9 / T ** 3 - 0.2343589e6 / T ** 2 + 0.8776956e3 / T + 0.17991
        : -3.0258469e9 / T ** 3 + 2.1070379e6 / T ** 2 + 0.2226347e3 / T + 0.24039;
    const [X, Y, Z] = planckXyz(T);
    expect(Math.abs(X / (X + Y + Z) - x)).toBeLessThan(0.0015);
  });
});

// Finlayson, Hordley, Lu, Drew 2006 (PAMI 28:1): under lights near the Planckian locus log-chromaticities of a
// surface move along one direction when the light changes; projected across it, the picture is free of shadows.
describe('invariant picture after Finlayson et al. 2006', () => {
  const scene: Scene = {
    camera: { eye: [0, 2.2, 7], target: [0, 0.6, 0], fov: 40 },
    bodies: [
      { shape: { kind: 'plane' }, material: { name: 'ground', pigment: stone([0.5, 0.45, 0.4], 0.8, 5) } },
      {
        shape: { kind: 'sphere', radius: 0.8 },
        at: [-1.4, 0.8, 0],
        material: { name: 'ball', pigment: plain([0.6, 0.25, 0.2]) },
      },
      {
        shape: { kind: 'box', size: [1.2, 1.6, 1.2] },
        at: [1, 0.8, -0.5],
        turn: [0, 30, 0],
        material: { name: 'box', pigment: plain([0.2, 0.4, 0.3]) },
      },
    ],
    lights: [{ kind: 'sun', towards: [1, 0.8, 0.5], colour: planckian(4200), size: 2 }],
    fill: {
      up: planckian(9000).map((v) => v * 0.3) as unknown as Rgb,
      down: planckian(9000).map((v) => v * 0.3) as unknown as Rgb,
    },
    sky: noSky,
  };
  const p = render(scene, 240, 160);

  const chroma = (q: Passes, i: number): [number, number] => {
    const [r, g, b] = [0, 1, 2].map((c) => Math.log(q.colour[i * 3 + c]!)) as [number, number, number];
    return [(r - g) / Math.SQRT2, (r + g - 2 * b) / Math.sqrt(6)];
  };

  const direction = (): [number, number] => {
    // From the two lights themselves, not from the picture.
    const all = planckian(4200).map((v, c) => v + 0.3 * planckian(9000)[c]!);
    const fill = planckian(9000);
    const [r, g, b] = [0, 1, 2].map((c) => Math.log(all[c]! / fill[c]!)) as [number, number, number];
    const d: [number, number] = [(r - g) / Math.SQRT2, (r + g - 2 * b) / Math.sqrt(6)];
    const l = Math.hypot(...d);
    return [d[0] / l, d[1] / l];
  };

  it.each([
    ['ball', 1],
    ['box', 2],
  ])('%s: spread along the light’s direction, hardly any across', (_name, body) => {
    const [dx, dy] = direction();
    const along: number[] = [];
    const across: number[] = [];
    for (let i = 0; i < p.body.length; i++) {
      if (p.body[i] !== body) continue;
      const [x, y] = chroma(p, i);
      along.push(x * dx + y * dy);
      across.push(-x * dy + y * dx);
    }
    const range = (v: number[]) => Math.max(...v) - Math.min(...v);
    expect(range(along)).toBeGreaterThan(0.25);
    // The curve between two lights bends a little off the straight line (readings: "the same curve").
    expect(range(across)).toBeLessThan(0.06 * range(along));
  });

  it('every place moves along ln(kK + A)', () => {
    const K = planckian(4200);
    const A = planckian(9000).map((v) => 0.3 * v);
    const rho = [0.6, 0.25, 0.2];
    let checked = 0;
    for (let i = 0; i < p.body.length; i++) {
      if (p.body[i] !== 1) continue;
      checked++;
      for (let c = 0; c < 3; c++)
        expect(p.colour[i * 3 + c]).toBeCloseTo(rho[c]! * (p.k[i]! * K[c]! + A[c]!), 5);
    }
    expect(checked).toBeGreaterThan(500);
  });
});
