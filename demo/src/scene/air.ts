/** The air between the eye and what it sees. */
import type { Seen } from './seen.ts';
import type { World } from './world.ts';

/** Haze and halos between the eye and a surface. */
export function airBetween(
  world: World,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  t: number,
  out: Seen,
): void {
  out.clear = 1;
  out.air.fill(0);
  const haze = world.scene.haze;
  if (haze) {
    let depth = haze.density * t;
    if (haze.height !== undefined) {
      // ∫ exp(−(y₀ + s·dy − base)/H) ds
      const start = Math.exp(-(oy - (haze.base ?? 0)) / haze.height);
      const rise = dy / haze.height;
      const x = rise * t;
      depth = haze.density * start * (Math.abs(x) < 1e-6 ? t : (1 - Math.exp(-x)) / rise);
    }
    out.clear = Math.exp(-depth);
    haze.colour(dx, dy, dz, out.air);
    for (let c = 0; c < 3; c++) out.air[c]! *= 1 - out.clear;
  }
  halo(world, ox, oy, oz, dx, dy, dz, t, out);
}

/** Light of lamps scattered towards the eye on the way: ∫ ds / (h² + (s − s₀)²), unshadowed. */
export function halo(
  world: World,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  t: number,
  out: Seen,
): void {
  for (const l of world.lights) {
    if (l.light.kind !== 'lamp' || !l.light.halo) continue;
    const ex = l.x - ox;
    const ey = l.y - oy;
    const ez = l.z - oz;
    const s0 = ex * dx + ey * dy + ez * dz;
    // Nearest distance of the ray, not less than the lamp's own size.
    const h = Math.max(
      Math.sqrt(Math.max(0, ex * ex + ey * ey + ez * ez - s0 * s0)),
      Math.max(l.spread, 1e-3),
    );
    const way = (Math.atan((Math.min(t, 1e6) - s0) / h) + Math.atan(s0 / h)) / h;
    const f = l.light.halo * l.light.reference * way;
    for (let c = 0; c < 3; c++) out.air[c]! += f * l.light.colour[c]!;
  }
}
