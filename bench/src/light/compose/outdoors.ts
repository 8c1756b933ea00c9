/** Open places: a street, hilly ground, a court of columns, a market, a shore. */
import { type Body, cloud2, plankRow, ripples, shed, type Vec } from '@halflight/demo/scene';
import type { Kit } from '../kit.ts';
import { ball, behind, box, type Composed, fillOf, plane, post, skyOf, someThing } from './parts.ts';

/** Houses on both sides of a street, with crates and barrels before them. */
export function street(kit: Kit): Composed {
  const r = kit.random;
  const bodies: Body[] = [plane('ground', kit.skin('paving', 2.4, r.pick(['stone', 'grain', 'checks'])))];
  for (let i = 0; i < 8; i++) {
    const side = i % 2 ? 1 : -1;
    const z = -Math.floor(i / 2) * r.between(3.6, 4.4) - 1;
    const size: Vec = [r.between(2.2, 3.2), r.between(1.8, 3.6), r.between(2.6, 3.6)];
    const name = `house-${i}`;
    bodies.push(
      ...shed({
        at: [side * r.between(3.6, 4.6), 0, z],
        heading: r.next() < 0.5 ? 90 : 0,
        size,
        roofHeight: r.between(0.7, 1.5),
        eaves: 0.25,
        wall: kit.skin(`${name}-wall`, 2.2),
        roof: kit.skin(`${name}-roof`, 1.2, r.pick(['boards', 'stripes', 'grain', 'plain'])),
        thing: name,
      }),
    );
  }
  for (let i = 0; i < 6; i++) {
    const at: Vec = [r.between(-2.2, 2.2), 0, r.between(-7, 0.5)];
    bodies.push(...someThing(kit, `thing-${i}`, at, r.between(0.7, 1.1)));
  }
  return {
    bodies,
    camera: {
      eye: [r.between(-0.8, 0.8), r.between(1.7, 3), 6.5],
      target: [r.between(-0.4, 0.4), 1.5, -5],
      fov: 40,
    },
    lights: kit.suns,
    fill: fillOf(kit, 2.5),
    sky: skyOf(kit),
    size: [900, 600],
  };
}

/** Rocks, huts and cones on hilly ground. */
export function hills(kit: Kit): Composed {
  const r = kit.random;
  const seed = r.whole(1, 1e6);
  const height = (x: number, z: number) => 3.2 * (cloud2(x / 7 + 40, z / 7 + 40, seed, 4) - 0.5) - 0.02 * z;
  const middle = -18;
  const bodies: Body[] = [
    {
      shape: { kind: 'terrain', size: [60, 60], cells: [220, 220], height: (x, z) => height(x, z + middle) },
      at: [0, 0, middle],
      material: kit.skin('earth', 4, r.pick(['patches', 'grain'])),
      thing: 'ground',
    },
  ];
  for (let i = 0; i < 12; i++) {
    const z = 1.5 - i * r.between(0.8, 1.3);
    const x = r.between(-1, 1) * (2.6 + 0.35 * (6 - z));
    bodies.push(...someThing(kit, `thing-${i}`, [x, height(x, z) - 0.15, z], r.between(0.9, 1.7)));
  }
  return {
    bodies,
    camera: {
      eye: [0, Math.max(height(0, 8), height(0, 6)) + r.between(1.8, 2.6), 8],
      target: [0, height(0, -2) + 0.6, -3],
      fov: 40,
    },
    lights: kit.suns,
    fill: fillOf(kit, 2),
    sky: skyOf(kit),
    size: [900, 560],
  };
}

/** A court with rows of columns under beams, a wall behind, broken pieces on the floor. */
export function columns(kit: Kit): Composed {
  const r = kit.random;
  const bodies: Body[] = [
    plane('ground', kit.skin('floor', 2, r.pick(['stone', 'checks', 'patches']))),
    box('wall', [0, 0, -9], [18, r.between(2.5, 4.5), 0.6], 0, kit.skin('wall', 2.2, 'stone')),
  ];
  for (let row = 0; row < 2; row++) {
    const z = -2 - row * 3.4;
    const n = r.whole(4, 6);
    for (let i = 0; i < n; i++) {
      const x = (i - (n - 1) / 2) * 2 + r.between(-0.1, 0.1);
      const skin = kit.skin(`column-${row}-${i}`, 1.2);
      const name = `column-${row}-${i}`;
      bodies.push(post(name, [x, 0.25, z], r.between(0.3, 0.42), 2.6, skin, 0.3));
      bodies.push(box(name, [x, 0, z], [1, 0.25, 1], 0, skin));
    }
    bodies.push(box(`beam-${row}`, [0, 2.85, z], [n * 2 + 0.4, 0.45, 0.8], 0, kit.skin(`beam-${row}`, 1.4)));
  }
  for (let i = 0; i < 5; i++)
    bodies.push(
      ...someThing(kit, `piece-${i}`, [r.between(-3.6, 3.6), 0, r.between(-0.8, 2)], r.between(0.6, 1.1)),
    );
  return {
    bodies,
    camera: { eye: [r.between(-2, 2), r.between(1.6, 2.4), 7], target: [0, 1.35, -3], fov: 40 },
    lights: kit.suns,
    fill: fillOf(kit, 2),
    sky: skyOf(kit),
    size: [900, 600],
  };
}

/** Stalls under striped awnings with crates, baskets and balls. */
export function market(kit: Kit): Composed {
  const r = kit.random;
  const bodies: Body[] = [plane('ground', kit.skin('square', 1.6, r.pick(['stone', 'grain', 'boards'])))];
  for (let i = 0; i < 4; i++) {
    const x = (i - 1.5) * 3 + r.between(-0.3, 0.3);
    const z = -1.5 - (i % 2) * 2.6;
    const name = `stall-${i}`;
    const pole = kit.skin(`${name}-pole`, 0.5, 'plain');
    for (const [a, b] of [
      [-1, -0.8],
      [1, -0.8],
      [-1, 0.8],
      [1, 0.8],
    ] as const)
      bodies.push(post(name, [x + a, 0, z + b], 0.06, 2.1, pole));
    bodies.push({
      shape: { kind: 'roof', size: [2.5, 0.6, 2.1] },
      material: kit.skin(`${name}-awning`, 1.2, r.pick(['stripes', 'stripes', 'plain', 'checks'])),
      at: [x, 2.1, z],
      turn: [0, r.next() < 0.5 ? 90 : 0, 0],
      thing: name,
    });
    bodies.push(box(`counter-${i}`, [x, 0, z], [1.9, 0.8, 0.9], 0, kit.skin(`counter-${i}`, 1)));
    for (let k = 0; k < 3; k++) {
      const at: Vec = [x - 0.6 + k * 0.6, 0.8, z + r.between(-0.15, 0.15)];
      const skin = kit.skin(`ware-${i}-${k}`, 0.4, r.pick(['plain', 'segments', 'grain']));
      bodies.push(
        r.next() < 0.5
          ? ball(`ware-${i}-${k}`, at, 0.22, skin)
          : box(`ware-${i}-${k}`, at, [0.42, 0.3, 0.4], r.between(0, 40), skin),
      );
    }
  }
  for (let i = 0; i < 6; i++)
    bodies.push(
      ...someThing(kit, `crate-${i}`, [r.between(-4, 4), 0, r.between(0.2, 2.4)], r.between(0.55, 0.95)),
    );
  bodies.push(
    box(
      'house',
      [r.between(-3, 3), 0, -9],
      [5, r.between(3, 5), 3],
      r.between(-20, 20),
      kit.skin('house', 2.4),
    ),
  );
  return {
    bodies,
    camera: { eye: [r.between(-1, 1), r.between(1.9, 2.8), 8], target: [0, 1.1, -1.5], fov: 38 },
    lights: kit.suns,
    fill: fillOf(kit, 1.8),
    sky: skyOf(kit),
    size: [900, 600],
  };
}

/** A shore: still water that mirrors, a plank landing, sheds on piles, poles, far blocks of land. */
export function shore(kit: Kit): Composed {
  const r = kit.random;
  const water = kit.skin('water', 3, 'plain');
  const bodies: Body[] = [
    {
      shape: { kind: 'plane' },
      material: {
        ...water,
        pigment: (_at, out) => {
          out.set([0.04, 0.06, 0.06]);
        },
        mirror: { facing: 0.04, grazing: 0.9, ripple: ripples(0.5, r.between(0.01, 0.03), kit.seed, 2) },
      },
      thing: 'water',
    },
    {
      shape: {
        kind: 'terrain',
        size: [30, 14],
        cells: [120, 60],
        height: (x, z) => 1.6 * cloud2(x / 5 + 9, z / 5 + 9, kit.seed, 4) - 0.75,
      },
      material: kit.skin('bank', 3, 'patches'),
      at: [0, 0, -2],
      thing: 'ground',
    },
    ...plankRow({
      at: [r.between(-2.5, -0.5), 0.55, 2.2],
      heading: 90 + r.between(-20, 20),
      length: 1.5,
      count: 16,
      width: 0.24,
      thickness: 0.08,
      colour: kit.pigments[0]!,
      seed: kit.seed,
      thing: 'landing',
      wear: 0.4,
    }),
  ];
  for (let i = 0; i < 3; i++) {
    const x = -4 + i * 3.6 + r.between(-0.5, 0.5);
    const z = -2 - r.between(0, 3);
    const name = `shed-${i}`;
    bodies.push(
      ...shed({
        at: [x, 0.7, z],
        heading: r.between(-40, 40),
        size: [1.8, r.between(1.3, 1.9), 2.2],
        roofHeight: r.between(0.7, 1.1),
        eaves: 0.2,
        wall: kit.skin(`${name}-wall`, 1.6, r.pick(['boards', 'boards', 'grain', 'patches'])),
        roof: kit.skin(`${name}-roof`, 1.1, r.pick(['boards', 'plain', 'grain'])),
        thing: name,
      }),
    );
    bodies.push(ball(`float-${i}`, behind(kit.sun, [x, 0.35, z], 1.9), 0.35, kit.skin(`float-${i}`, 0.5)));
  }
  for (let i = 0; i < 7; i++)
    bodies.push(
      post(
        `pole-${i}`,
        [r.between(-5, 5), -0.5, r.between(-1, 3)],
        r.between(0.07, 0.14),
        r.between(1.5, 2.8),
        kit.skin(`pole-${i}`, 0.8, r.pick(['plain', 'grain', 'boards'])),
      ),
    );
  for (let i = 0; i < 5; i++)
    bodies.push(
      ...someThing(kit, `thing-${i}`, [r.between(-4.5, 4.5), 0.2, r.between(-1, 2.5)], r.between(0.6, 1.1)),
    );
  return {
    bodies,
    camera: { eye: [r.between(-1.5, 1.5), r.between(1.8, 2.8), 8.5], target: [0, 0.9, -2], fov: 38 },
    lights: kit.suns,
    fill: fillOf(kit, 2),
    sky: skyOf(kit),
    size: [900, 560],
  };
}
