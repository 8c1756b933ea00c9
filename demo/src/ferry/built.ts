/** What people built: the three sheds, the lit doorway, the landing floor, the jetty. */
import { type Body, hash01, type Vec } from '../scene/index.ts';
import type { Materials } from './materials.ts';
import { at, beam, DECK, planking, pole, rope } from './parts.ts';
import { inShedBox, type Shed } from './sheds.ts';

/** Right, middle (with the lit door) and left shed. */
export function shedsOf(m: Materials): Shed[] {
  const common = { trim: m.trim!, piles: m.pile! };
  return [
    {
      ...common,
      trim: m.redTrim!,
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
      heading: 12,
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
export function doorway(m: Materials, s: Shed, lamp: Vec): Body[] {
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

/** The floor the sheds stand on, between them and the jetty. */
export function landing(m: Materials, seed: number): Body[] {
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
    material: m.crate!,
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
    material: m.barrel!,
    at: at(6.2, DECK, 20.4),
    thing: 'crates',
  });
  return out;
}

/** The jetty from the lower left to the landing, with posts, a rope rail and the lamp at its head. */
export function jetty(m: Materials, lamp: Vec, seed: number): Body[] {
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
