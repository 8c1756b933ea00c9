/** What the eye sees along one ray: pigment, light that arrives, mirror, air. */
import { airBetween, halo } from './air.ts';
import { BIAS, FAR, fillAt, keys } from './arrive.ts';
import { type Hit, nearest } from './bvh.ts';
import { clear, type Seen, seenOf } from './seen.ts';
import { localNormal } from './solid.ts';
import type { Material, Spot } from './types.ts';
import type { World } from './world.ts';

const hit: Hit = { t: 0, solid: null };
const spot: Spot = { x: 0, y: 0, z: 0, nx: 0, ny: 0, nz: 0 };
const three = new Float64Array(3);
const inner = seenOf();

/**
 * Follows a ray (unit direction) and writes what it sees. `u`, `v` (0…1) shift the sample patterns, so that
 * neighbouring pixels take different ones.
 */
export function look(
  world: World,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  u: number,
  v: number,
  out: Seen,
  depth = 0,
): void {
  const { scene } = world;
  if (!nearest(world.tree, ox, oy, oz, dx, dy, dz, BIAS, FAR, hit)) {
    clear(out);
    scene.sky(dx, dy, dz, out.colour);
    halo(world, ox, oy, oz, dx, dy, dz, FAR, out);
    for (let c = 0; c < 3; c++) out.colour[c]! += out.air[c]!;
    return;
  }
  const solid = hit.solid!;
  const t = hit.t;
  const material = world.materials[solid.surface]!;
  const px = ox + t * dx;
  const py = oy + t * dy;
  const pz = oz + t * dz;
  out.solid = solid;
  out.t = t;
  out.position[0] = px;
  out.position[1] = py;
  out.position[2] = pz;

  // Into the body's own coordinates for normal and pigment.
  const m = solid.turn;
  const rx = px - solid.px;
  const ry = py - solid.py;
  const rz = pz - solid.pz;
  spot.x = m[0]! * rx + m[3]! * ry + m[6]! * rz;
  spot.y = m[1]! * rx + m[4]! * ry + m[7]! * rz;
  spot.z = m[2]! * rx + m[5]! * ry + m[8]! * rz;
  localNormal(solid, spot.x, spot.y, spot.z, three);
  spot.nx = three[0]!;
  spot.ny = three[1]!;
  spot.nz = three[2]!;
  let nx = m[0]! * spot.nx + m[1]! * spot.ny + m[2]! * spot.nz;
  let ny = m[3]! * spot.nx + m[4]! * spot.ny + m[5]! * spot.nz;
  let nz = m[6]! * spot.nx + m[7]! * spot.ny + m[8]! * spot.nz;
  if (nx * dx + ny * dy + nz * dz > 0) {
    nx = -nx;
    ny = -ny;
    nz = -nz;
  }
  out.normal[0] = nx;
  out.normal[1] = ny;
  out.normal[2] = nz;
  material.pigment(spot, out.reflectance);
  const lx = spot.x;
  const lz = spot.z;
  grainOf(material, m, nx, ny, nz, out.along);

  const eps = BIAS * (1 + t);
  const sx = px + nx * eps;
  const sy = py + ny * eps;
  const sz = pz + nz * eps;
  keys(world, sx, sy, sz, nx, ny, nz, u, v, out);
  fillAt(world, sx, sy, sz, nx, ny, nz, u, v, out.fill);

  // Mirror.
  out.mirrorShare = 0;
  out.mirror.fill(0);
  if (material.mirror && depth === 0) {
    let mx = nx;
    let my = ny;
    let mz = nz;
    if (material.mirror.ripple) {
      material.mirror.ripple(lx, lz, three);
      mx += m[0]! * three[0]! + m[2]! * three[2]!;
      my += m[3]! * three[0]! + m[5]! * three[2]!;
      mz += m[6]! * three[0]! + m[8]! * three[2]!;
      const l = 1 / Math.hypot(mx, my, mz);
      mx *= l;
      my *= l;
      mz *= l;
    }
    let facing = -(dx * mx + dy * my + dz * mz);
    if (facing < 0.02) {
      // The ripple turned away from the eye: use the flat surface.
      mx = nx;
      my = ny;
      mz = nz;
      facing = -(dx * mx + dy * my + dz * mz);
    }
    const share =
      (material.mirror.facing + (material.mirror.grazing - material.mirror.facing) * (1 - facing) ** 5) *
      (material.mirror.cover ? material.mirror.cover(lx, lz) : 1);
    if (share > 0.001) {
      let qx = dx + 2 * facing * mx;
      let qy = dy + 2 * facing * my;
      let qz = dz + 2 * facing * mz;
      // A ripple must not send the mirrored ray into the surface.
      const down = qx * nx + qy * ny + qz * nz;
      if (down < 0.005) {
        qx += (0.005 - down) * nx;
        qy += (0.005 - down) * ny;
        qz += (0.005 - down) * nz;
        const l = 1 / Math.hypot(qx, qy, qz);
        qx *= l;
        qy *= l;
        qz *= l;
      }
      look(world, sx, sy, sz, qx, qy, qz, u, v, inner, depth + 1);
      out.mirrorShare = share;
      for (let c = 0; c < 3; c++) out.mirror[c] = share * inner.colour[c]!;
    }
  }

  airBetween(world, ox, oy, oz, dx, dy, dz, t, out);
  const glow = material.glow;
  for (let c = 0; c < 3; c++) {
    out.emissive[c] = glow ? glow[c]! : 0;
    out.colour[c] =
      (out.reflectance[c]! * (out.key[c]! + out.fill[c]!) * (1 - out.mirrorShare) +
        out.mirror[c]! +
        out.emissive[c]!) *
        out.clear +
      out.air[c]!;
  }
}

/** The grain's direction in the world, laid into the surface. */
function grainOf(
  material: Material,
  m: Float64Array,
  nx: number,
  ny: number,
  nz: number,
  out: Float64Array,
): void {
  out.fill(0);
  const g = material.grain;
  if (!g) return;
  const x = m[0]! * g[0] + m[1]! * g[1] + m[2]! * g[2];
  const y = m[3]! * g[0] + m[4]! * g[1] + m[5]! * g[2];
  const z = m[6]! * g[0] + m[7]! * g[1] + m[8]! * g[2];
  const off = x * nx + y * ny + z * nz;
  out[0] = x - off * nx;
  out[1] = y - off * ny;
  out[2] = z - off * nz;
}
