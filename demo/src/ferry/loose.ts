/** What comes and goes: a figure, a boat, nets on poles, withies out on the flats. */
import { type Body, hash01, noise2, type Vec } from '../scene/index.ts';
import type { Ground } from './ground.ts';
import type { Materials } from './materials.ts';
import { at, beam, DECK, pole, rope } from './parts.ts';

/** Somebody who has come out of the door: a coat, a cap, a bucket; a few bodies, as a painter would set it down. */
export function figure(m: Materials, foot: Vec): Body[] {
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
      at: [x + 0.015, y + 1.53, z],
      thing: 'figure',
    },
    round(0.125, 0.11, 0.095, 0.015, 1.575),
    limb([-0.16, 1.38, 0], [-0.235, 0.84, 0.05], 0.085),
    limb([0.17, 1.38, 0], [0.215, 0.86, 0.1], 0.085),
    round(0.085, 0.2, 0.11, -0.25, 0.5, m.trim!),
  ];
}

/** A flat boat between jetty and sheds: bottom, two sides, raked bow and stern, thwarts, oars. */
export function boat(m: Materials, seed: number): Body[] {
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
export function nets(m: Materials, ground: Ground, seed: number): Body[] {
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
export function farPoles(m: Materials, seed: number): Body[] {
  const out: Body[] = [];
  for (let i = 0; i < 11; i++) {
    const r = (k: number) => hash01(i, k, 6, seed);
    const far = 34 + 3.4 * i + 3 * r(1);
    const x = -14 - 1.2 * i + 4 * r(2);
    out.push(pole(m.pole!, 'withies', x, far, -0.4, 1.1 + 1.3 * r(3), 0.06, [0, 12 * (r(4) - 0.5)]));
  }
  return out;
}
