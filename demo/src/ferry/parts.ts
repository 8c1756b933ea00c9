/** Small parts that the landing is built of. Places are x to the right, y up, `far` away from the eye (−z). */
import { type Body, hash01, type Material, type Vec } from '../scene/index.ts';

/** Height of jetty and landing over the water. */
export const DECK = 1.35;

export const at = (x: number, y: number, far: number): Vec => [x, y, -far];

/** An upright round pole standing on `bottom`, leaning by degrees. */
export function pole(
  material: Material,
  thing: string,
  x: number,
  far: number,
  bottom: number,
  top: number,
  radius: number,
  lean: readonly [number, number] = [0, 0],
): Body {
  return {
    shape: { kind: 'cylinder', radius, height: top - bottom, top: radius * 0.86 },
    material,
    at: at(x, bottom, far),
    turn: [lean[0], 0, lean[1]],
    thing,
  };
}

/** A beam between two points (x, y, far), `size` = thickness across and up. */
export function beam(
  material: Material,
  thing: string,
  a: Vec,
  b: Vec,
  size: readonly [number, number],
): Body {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const dz = -(b[2] - a[2]);
  const flat = Math.hypot(dx, dz);
  const length = Math.hypot(flat, dy);
  const degrees = 180 / Math.PI;
  // The box's length lies along z: first tilt about x, then head about y.
  return {
    shape: { kind: 'box', size: [size[0], size[1], length] },
    material,
    at: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, -(a[2] + b[2]) / 2],
    turn: [-Math.atan2(dy, flat) * degrees, Math.atan2(dx, dz) * degrees, 0],
    thing,
  };
}

/** A slack rope in short beams; `sag` is how far its middle hangs down. */
export function rope(material: Material, thing: string, a: Vec, b: Vec, sag: number, radius = 0.02): Body[] {
  const parts = 8;
  const point = (t: number): Vec => [
    a[0] + (b[0] - a[0]) * t,
    a[1] + (b[1] - a[1]) * t - 4 * sag * t * (1 - t),
    a[2] + (b[2] - a[2]) * t,
  ];
  return Array.from({ length: parts }, (_, i) => ({
    ...beam(material, thing, point(i / parts), point((i + 1) / parts), [radius * 2, radius * 2]),
    shadow: false,
  }));
}

/**
 * Planks laid across a line from `a` to `b` (x, y of the top, far), each with its own small irregularity.
 *
 * One slab below them throws the shadow of all: a hundred bodies less for every ray to a light.
 */
export function planking(
  material: Material,
  thing: string,
  a: Vec,
  b: Vec,
  width: number,
  plank: number,
  seed: number,
): Body[] {
  const dx = b[0] - a[0];
  const dz = -(b[2] - a[2]);
  const length = Math.hypot(dx, dz);
  const heading = (Math.atan2(dx, dz) * 180) / Math.PI;
  const count = Math.floor(length / plank);
  const out: Body[] = [
    {
      shape: { kind: 'box', size: [width * 0.97, 0.03, length] },
      material,
      at: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2 - 0.09, -(a[2] + b[2]) / 2],
      turn: [0, heading, 0],
      thing,
    },
  ];
  for (let i = 0; i < count; i++) {
    const t = (i + 0.5) / count;
    const r = (k: number) => hash01(i, k, 3, seed) - 0.5;
    if (hash01(i, 9, 3, seed) < 0.008) continue;
    out.push({
      shape: { kind: 'box', size: [width * (1 + 0.08 * r(1)), 0.06, plank * (0.925 + 0.07 * r(2))] },
      material,
      at: [
        a[0] + (b[0] - a[0]) * t + 0.05 * r(3),
        a[1] + (b[1] - a[1]) * t - 0.03 + 0.014 * r(4),
        -(a[2] + (b[2] - a[2]) * t),
      ],
      turn: [0, heading + 1.6 * r(5), 0.8 * r(6)],
      thing,
      shadow: false,
    });
  }
  return out;
}
