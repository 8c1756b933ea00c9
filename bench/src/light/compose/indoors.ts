/** Closed places without a sky: a table, a studio of blocks, the corner of a room. */
import { type Body, type Light, type Vec, wallWithOpening } from '@halflight/demo/scene';
import type { Kit } from '../kit.ts';
import { aim } from '../kit.ts';
import { ball, behind, box, type Composed, fillOf, NO_SKY, plane, post, someThing } from './parts.ts';

/** Things on a cloth-covered table before a wall. */
export function stillLife(kit: Kit): Composed {
  const r = kit.random;
  const bodies: Body[] = [
    box(
      'table',
      [0, -3, 0],
      [9, 3, 4],
      0,
      kit.skin('cloth', 1.2, r.pick(['stripes', 'boards', 'plain', 'checks'])),
    ),
    box(
      'backdrop',
      [0, -2, -3.2],
      [24, 9, 0.3],
      0,
      kit.skin('wall', 2, r.pick(['plain', 'grain', 'patches'])),
    ),
  ];
  const spots: Vec[] = [
    [-1.9, 0, -0.6],
    [-0.6, 0, -1.1],
    [0.8, 0, -0.8],
    [2, 0, -0.3],
    [-1.1, 0, 0.6],
    [0.3, 0, 0.7],
    [1.6, 0, 0.9],
  ];
  for (const [i, s] of spots.entries()) {
    const at: Vec = [s[0] + r.between(-0.2, 0.2), 0, s[2] + r.between(-0.2, 0.2)];
    const size = r.between(0.7, 1.1);
    bodies.push(...someThing(kit, `thing-${i}`, at, size));
  }
  // A tall box with a small ball wholly in its shade.
  const tall: Vec = [r.between(-2.6, 2.6), 0, -1.6];
  bodies.push(box('tall', tall, [1.1, r.between(1.5, 2.2), 0.9], r.between(0, 90), kit.skin('tall', 1)));
  bodies.push(ball('hidden', behind(kit.sun, tall, 0.95), 0.28, kit.skin('hidden', 0.4, 'plain')));
  return {
    bodies,
    camera: { eye: [r.between(-0.8, 0.8), r.between(1.7, 2.6), 7.2], target: [0, 0.45, -0.4], fov: 31 },
    lights: kit.suns,
    fill: fillOf(kit, 1.5),
    sky: NO_SKY,
    size: [900, 600],
  };
}

/** A studio: many plain blocks, balls and cones on a sweep, lit by lamps that fall off. */
export function blocks(kit: Kit): Composed {
  const r = kit.random;
  const bodies: Body[] = [
    plane('ground', kit.skin('floor', 2.5, r.pick(['grain', 'plain', 'checks']))),
    box('backdrop', [0, 0, -5.5], [40, 12, 0.4], 0, kit.skin('backdrop', 3, 'grain')),
  ];
  for (let i = 0; i < 13; i++) {
    const at: Vec = [
      ((i % 5) - 2) * 1.5 + r.between(-0.35, 0.35),
      0,
      -Math.floor(i / 5) * 1.6 + r.between(-0.3, 0.3),
    ];
    const size = r.between(0.7, 1.15);
    const skin = kit.skin(`block-${i}`, size);
    const kind = r.whole(0, 4);
    if (kind === 0) bodies.push(ball(`block-${i}`, at, size / 2, skin));
    else if (kind === 1) bodies.push(post(`block-${i}`, at, size * 0.45, size * 1.1, skin, 0.02));
    else {
      bodies.push(box(`block-${i}`, at, [size, size, size], r.between(0, 90), skin));
      if (kind === 3)
        bodies.push(
          box(
            `upper-${i}`,
            [at[0], size, at[2]],
            [size * 0.6, size * 0.6, size * 0.6],
            r.between(0, 90),
            kit.skin(`upper-${i}`, size * 0.6),
          ),
        );
    }
  }
  // Lamps stand where the keys point, far enough that the fall-off is moderate.
  const lights: Light[] = kit.light.keys.map((colour, i) => {
    const dir = i === 0 ? kit.sun : aim(r.between(-90, 90), r.between(30, 50));
    const far = r.between(8, 12);
    return {
      kind: 'lamp',
      at: [dir[0] * far, dir[1] * far + 0.5, dir[2] * far],
      colour,
      reference: far - 1,
      radius: r.between(0.15, 0.5),
    };
  });
  return {
    bodies,
    camera: { eye: [r.between(-1.5, 1.5), r.between(2.6, 4), 8.5], target: [0, 0.6, -1.2], fov: 34 },
    lights,
    fill: fillOf(kit, 1.5),
    sky: NO_SKY,
    size: [900, 600],
  };
}

/** The corner of a room: the key comes through a window in the side wall, most of the room is in the fill. */
export function roomCorner(kit: Kit): Composed {
  const r = kit.random;
  const sun = aim(-r.between(66, 98), r.between(24, 36));
  const left = -3.6;
  const wall = kit.skin('wall', 1.8, r.pick(['grain', 'stone', 'plain']));
  const bodies: Body[] = [
    plane('ground', kit.skin('floor', 2, r.pick(['boards', 'checks', 'stone']))),
    box('wall', [0, 0, -3.4], [12, 5, 0.3], 0, wall),
    box('wall', [4.2, 0, 0], [0.3, 5, 12], 0, wall),
    ...wallWithOpening({
      at: [left, 0, 0],
      heading: 90,
      width: 12,
      height: 5,
      thickness: 0.3,
      opening: [-2.2, 2.8, 0.6, 3.7],
      material: wall,
      thing: 'wall',
    }),
    box('wall', [0, 4.4, 0], [12, 0.3, 14], 0, wall),
  ];
  const spots: Vec[] = [
    [-1.6, 0, -1.9],
    [0.2, 0, -2.2],
    [2, 0, -1.7],
    [-0.7, 0, -0.3],
    [1.2, 0, -0.2],
    [2.9, 0, 0.4],
    [-2.3, 0, 0.2],
  ];
  for (const [i, s] of spots.entries())
    bodies.push(
      ...someThing(
        kit,
        `thing-${i}`,
        [s[0] + r.between(-0.25, 0.25), 0, s[2] + r.between(-0.25, 0.25)],
        r.between(0.75, 1.3),
      ),
    );
  return {
    bodies,
    camera: { eye: [r.between(-0.4, 0.8), r.between(1.7, 2.3), 6.2], target: [0.2, 1.25, -1], fov: 42 },
    lights: kit.suns.map((l, i) => (l.kind === 'sun' ? { ...l, towards: i === 0 ? sun : aim(-70, 50) } : l)),
    fill: fillOf(kit, 2.5),
    sky: NO_SKY,
    size: [900, 675],
  };
}

/** A shelf seen from the front: things in open compartments, each with its own pigment. */
export function shelf(kit: Kit): Composed {
  const r = kit.random;
  const sun = aim((r.next() < 0.5 ? -1 : 1) * r.between(30, 55), r.between(25, 45));
  const wood = kit.skin('shelf', 1.2, r.pick(['boards', 'grain', 'plain']));
  const bodies: Body[] = [
    box(
      'backdrop',
      [0, -1, -0.75],
      [16, 9, 0.2],
      0,
      kit.skin('backdrop', 2, r.pick(['stone', 'patches', 'plain', 'stripes'])),
    ),
    plane('ground', kit.skin('floor', 2, 'boards'), -0.4),
  ];
  const rows = 3;
  const columns = r.whole(3, 5);
  const w = 6 / columns;
  for (let j = 0; j <= rows; j++) bodies.push(box('shelf', [0, j * 1.3, 0], [6.1, 0.1, 1.2], 0, wood));
  for (let i = 0; i <= columns; i++)
    bodies.push(box('shelf', [-3 + i * w, 0, 0], [0.1, 1.3 * rows, 1.2], 0, wood));
  for (let j = 0; j < rows; j++)
    for (let i = 0; i < columns; i++) {
      if (r.next() < 0.15) continue;
      const at: Vec = [-3 + (i + 0.5) * w + r.between(-0.15, 0.15), j * 1.3 + 0.1, r.between(-0.1, 0.25)];
      bodies.push(...someThing(kit, `thing-${j}-${i}`, at, r.between(0.55, 0.8)));
    }
  return {
    bodies,
    camera: { eye: [r.between(-1.4, 1.4), r.between(1.6, 2.6), 8.6], target: [0, 1.85, 0], fov: 30 },
    lights: kit.suns.map((l, i) => (l.kind === 'sun' && i === 0 ? { ...l, towards: sun } : l)),
    fill: fillOf(kit, 1),
    sky: NO_SKY,
    size: [900, 600],
  };
}
