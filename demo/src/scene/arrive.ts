/** The light that arrives at a place: keys with their soft shadows, fill with ambient occlusion. */
import { blocker } from './bvh.ts';
import type { Seen } from './seen.ts';
import { luminance, type World } from './world.ts';

/** Rays start this far (times 1 + distance) above a surface, so that they do not meet it again. */
export const BIAS = 1e-4;
/** Farther than anything. */
export const FAR = 1e9;

// Points of a disc: radius² by one additive recurrence on the plastic number (Roberts 2018), angle by the
// other; each place adds its own shift to both. The angles' cosines are kept, so a shift is one turn.
const GOLDEN_1 = 0.7548776662466927;
const GOLDEN_2 = 0.5698402909980532;
const TURNS = 64;
const turnCos = Float64Array.from({ length: TURNS }, (_, s) => Math.cos(2 * Math.PI * GOLDEN_2 * s));
const turnSin = Float64Array.from({ length: TURNS }, (_, s) => Math.sin(2 * Math.PI * GOLDEN_2 * s));

/**
 * Key light at the place `out.position` (rays start just above it): Lambert's cosine, soft shadow by rays to points of the source, inverse
 * square for lamps.
 */
export function keys(
  world: World,
  sx: number,
  sy: number,
  sz: number,
  nx: number,
  ny: number,
  nz: number,
  u: number,
  v: number,
  out: Seen,
): void {
  out.key.fill(0);
  out.keyFull.fill(0);
  let open = 0;
  let all = 0;
  for (const l of world.lights) {
    let lx = l.x;
    let ly = l.y;
    let lz = l.z;
    let reach = FAR;
    let strength = 1;
    if (l.light.kind === 'lamp') {
      lx -= out.position[0]!;
      ly -= out.position[1]!;
      lz -= out.position[2]!;
      reach = Math.sqrt(lx * lx + ly * ly + lz * lz);
      if (reach < 1e-9) continue;
      const inv = 1 / reach;
      lx *= inv;
      ly *= inv;
      lz *= inv;
      strength = (l.light.reference * inv) ** 2;
      if (l.light.reach !== undefined) strength *= Math.max(0, 1 - (reach / l.light.reach) ** 4) ** 2;
      if (l.cone) {
        const cos = -(lx * l.cone.x + ly * l.cone.y + lz * l.cone.z);
        const s = Math.min(1, Math.max(0, (cos - l.cone.outer) / (l.cone.inner - l.cone.outer)));
        strength *= s * s * (3 - 2 * s);
      }
    }
    const colour = l.light.colour;
    const weight = strength * luminance(colour);
    for (let c = 0; c < 3; c++) out.keyFull[c]! += strength * colour[c]!;
    all += weight;
    if (strength === 0) continue;
    const cos = nx * lx + ny * ly + nz * lz;
    const spread = l.light.kind === 'sun' ? l.spread : l.spread / reach;
    if (cos <= -spread) continue;
    // Two directions across the ray to the light.
    const flat = Math.abs(ly) < 0.9;
    let ax = flat ? -lz : 0;
    let ay = flat ? 0 : lz;
    let az = flat ? lx : -ly;
    const an = 1 / Math.sqrt(ax * ax + ay * ay + az * az);
    ax *= an;
    ay *= an;
    az *= an;
    const bx = ly * az - lz * ay;
    const by = lz * ax - lx * az;
    const bz = lx * ay - ly * ax;
    const cv = Math.cos(2 * Math.PI * v);
    const sv = Math.sin(2 * Math.PI * v);
    let lit = 0;
    let free = 0;
    let taken = 0;
    for (let s = 0; s < l.samples; s++) {
      // Where the first few agree, the rest would too.
      if (s === 3 && (free === 0 || free === 3)) break;
      let tx = lx;
      let ty = ly;
      let tz = lz;
      if (spread > 0) {
        const r = spread * Math.sqrt((u + GOLDEN_1 * s) % 1);
        const e = r * (cv * turnCos[s % TURNS]! - sv * turnSin[s % TURNS]!);
        const f = r * (sv * turnCos[s % TURNS]! + cv * turnSin[s % TURNS]!);
        tx += e * ax + f * bx;
        ty += e * ay + f * by;
        tz += e * az + f * bz;
        const n = 1 / Math.sqrt(tx * tx + ty * ty + tz * tz);
        tx *= n;
        ty *= n;
        tz *= n;
      }
      taken++;
      const c = nx * tx + ny * ty + nz * tz;
      if (c <= 0) continue;
      const by2 = blocker(world.tree, sx, sy, sz, tx, ty, tz, BIAS, reach * (1 - 1e-6), l.last);
      if (by2 !== null) l.last = by2;
      else {
        free++;
        lit += c;
      }
    }
    // Where the source is only partly above the surface, what is below it counts as cast away by the surface.
    const k = lit / taken;
    open += (weight * free) / taken;
    for (let c = 0; c < 3; c++) out.key[c]! += k * strength * colour[c]!;
  }
  out.shadow = all > 0 ? open / all : 0;
  const full = luminance(out.keyFull);
  out.k = full > 0 ? Math.min(1, luminance(out.key) / full) : 0;
}

/** Fill light at a place, from above to below by the normal, less where near bodies close it in. */
export function fillAt(
  world: World,
  sx: number,
  sy: number,
  sz: number,
  nx: number,
  ny: number,
  nz: number,
  u: number,
  v: number,
  out: Float64Array,
): void {
  const { fill } = world.scene;
  const w = 0.5 + 0.5 * ny;
  let left = 1;
  if (fill.occlusion) {
    const { samples, reach, strength } = fill.occlusion;
    const n = Math.max(1, Math.round(samples * world.quality));
    const flat = Math.abs(ny) < 0.9;
    let ax = flat ? -nz : 0;
    let ay = flat ? 0 : nz;
    let az = flat ? nx : -ny;
    const an = 1 / Math.sqrt(ax * ax + ay * ay + az * az);
    ax *= an;
    ay *= an;
    az *= an;
    const bx = ny * az - nz * ay;
    const by = nz * ax - nx * az;
    const bz = nx * ay - ny * ax;
    const cu = Math.cos(2 * Math.PI * u);
    const su = Math.sin(2 * Math.PI * u);
    let shut = 0;
    let taken = 0;
    for (let s = 0; s < n; s++) {
      // Open places are most of a picture: where the first few rays get away, the rest is saved.
      if (s === 4 && shut === 0) break;
      taken++;
      const p = (v + GOLDEN_1 * s) % 1;
      const r = Math.sqrt(p);
      const h = Math.sqrt(1 - p);
      const e = r * (cu * turnCos[s % TURNS]! - su * turnSin[s % TURNS]!);
      const f = r * (su * turnCos[s % TURNS]! + cu * turnSin[s % TURNS]!);
      const dx = e * ax + f * bx + h * nx;
      const dy = e * ay + f * by + h * ny;
      const dz = e * az + f * bz + h * nz;
      if (blocker(world.tree, sx, sy, sz, dx, dy, dz, BIAS, reach, null) !== null) shut++;
    }
    left = 1 - (strength * shut) / taken;
  }
  for (let c = 0; c < 3; c++) out[c] = left * (fill.down[c]! + (fill.up[c]! - fill.down[c]!) * w);
}
