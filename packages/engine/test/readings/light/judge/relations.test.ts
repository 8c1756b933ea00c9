import { describe, expect, test } from 'vitest';
import { relationsOf } from '../../../../src/readings/light/judge/relations.ts';
import { logColour } from '../../../../src/readings/light/logColour.ts';

/**
 * Under key K and fill A a diffuse surface sends ρ·(kK + A) (Finlayson, Hordley, Lu & Drew 2006, section 2); shade
 * that only darkens is the lit colour times less than one; in the opposite light K/A is s²/q.
 */
const LIGHTS: Record<string, [key: number[], fill: number[]]> = {
  'warm over blue': [
    [1, 0.57, 0.27],
    [0.2, 0.21, 0.39],
  ],
  'cool over earthy': [
    [0.5, 0.62, 1],
    [0.3, 0.22, 0.15],
  ],
  'green over violet': [
    [0.5, 1, 0.45],
    [0.3, 0.15, 0.35],
  ],
};
const PIGMENTS = [
  [0.6, 0.6, 0.6],
  [0.5, 0.2, 0.08],
  [0.1, 0.25, 0.4],
];

describe.each(Object.entries(LIGHTS))('%s', (_, [key, fill]) => {
  const q = key.map((k, c) => k / fill[c]) as [number, number, number];
  const s2 = (q[0] * q[1] * q[2]) ** (2 / 3);
  const relations = relationsOf(q);
  const said = (lit: number[], dark: number[]) => {
    const a = logColour(lit[0], lit[1], lit[2]);
    const b = logColour(dark[0], dark[1], dark[2]);
    const out = new Float64Array(3);
    relations.tell(out, a.x - b.x, a.y - b.y, a.l - b.l);
    return [...out];
  };

  test.each(PIGMENTS.map((rho) => [rho]))('pigment %j', (rho) => {
    const lit = rho.map((r, c) => r * (key[c] + fill[c]));
    const shade = rho.map((r, c) => r * fill[c]);
    const dark = Math.cbrt(shade.reduce((p, v, c) => (p * v) / lit[c], 1));
    const black = lit.map((v) => v * dark);
    const turned = rho.map((r, c) => r * fill[c] * (1 + s2 / q[c]));

    const [follows, darkens, against] = said(lit, shade);
    expect(follows).toBeGreaterThan(0.9);
    expect(Math.max(darkens, against)).toBeLessThan(0.2);

    const plain = said(lit, black);
    expect(plain[1]).toBeGreaterThan(0.99);
    expect(plain[0]).toBeLessThan(0.3);

    const swapped = said(turned, shade);
    expect(swapped[2]).toBeGreaterThan(0.9);
    expect(swapped[0]).toBeLessThan(0.2);
  });

  test('has the drop and turn of ln(1 + K/A)', () => {
    const full = q.map((v) => Math.log(1 + v));
    expect(relations.drop).toBeCloseTo((full[0] + full[1] + full[2]) / 3, 12);
    expect(relations.turn).toBeCloseTo(
      Math.hypot((full[0] - full[1]) / Math.SQRT2, (full[0] + full[1] - 2 * full[2]) / Math.sqrt(6)),
      12,
    );
  });
});

test('a light without colour has no turn, and all of it are numbers', () => {
  const { turn, ux, uy, drop } = relationsOf([1, 1, 1]);
  expect([turn, ux, uy]).toEqual([0, 0, 0]);
  expect(drop).toBeCloseTo(Math.LN2, 12);
});
