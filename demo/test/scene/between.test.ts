/** What stands between the light and the eye: mirrors and air, against laws of physics. */
import { describe, expect, it } from 'vitest';
import { plain, render, type Scene } from '../../src/scene/index.ts';
import { DARK, noSky, sun, WHITE } from './dark.ts';

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
