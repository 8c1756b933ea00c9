/** Colours of light against published figures, and what they do to log-chromaticities. */
import { describe, expect, it } from 'vitest';
import {
  type Passes,
  plain,
  planckian,
  planckXyz,
  type Rgb,
  render,
  type Scene,
  stone,
} from '../../src/scene/index.ts';
import { noSky } from './dark.ts';

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
