/** The renderer's light, against laws of physics. */
import { describe, expect, it } from 'vitest';
import { type Light, plain, type Rgb, render, type Scene, type Vec } from '../../src/scene/index.ts';
import { DARK, noSky, sun, WHITE } from './dark.ts';

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
