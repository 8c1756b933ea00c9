/** What the eye sees along one ray: pigment, key, fill, mirror, air. */
import { blocker, type Hit, nearest, type Tree, treeOf } from './bvh.ts';
import { localNormal, type Solid, solidOf } from './shapes.ts';
import type { Light, Material, Scene, Spot, Vec } from './types.ts';

/** A scene made ready for rays. */
export interface World {
  readonly scene: Scene;
  readonly tree: Tree;
  readonly materials: readonly Material[];
  readonly lights: readonly ReadyLight[];
  readonly quality: number;
}

interface ReadyLight {
  readonly light: Light;
  /** Unit vector towards a sun, or the lamp's place. */
  readonly x: number;
  readonly y: number;
  readonly z: number;
  /** Tangent of the half angle, or the radius. */
  readonly spread: number;
  readonly samples: number;
  readonly cone: { x: number; y: number; z: number; inner: number; outer: number } | null;
  last: Solid | null;
}

/** Everything about the first surface along a ray; reused from ray to ray. */
export interface Seen {
  solid: Solid | null;
  t: number;
  readonly colour: Float64Array;
  readonly reflectance: Float64Array;
  readonly key: Float64Array;
  readonly keyFull: Float64Array;
  readonly fill: Float64Array;
  readonly normal: Float64Array;
  readonly position: Float64Array;
  readonly emissive: Float64Array;
  readonly mirror: Float64Array;
  readonly air: Float64Array;
  readonly along: Float64Array;
  k: number;
  shadow: number;
  mirrorShare: number;
  clear: number;
}

export function seenOf(): Seen {
  const v = () => new Float64Array(3);
  return {
    solid: null,
    t: 0,
    colour: v(),
    reflectance: v(),
    key: v(),
    keyFull: v(),
    fill: v(),
    normal: v(),
    position: v(),
    emissive: v(),
    mirror: v(),
    air: v(),
    along: v(),
    k: 0,
    shadow: 0,
    mirrorShare: 0,
    clear: 1,
  };
}

/** Relative luminance of linear sRGB (IEC 61966-2-1). */
export function luminance(c: ArrayLike<number>): number {
  return 0.2126 * c[0]! + 0.7152 * c[1]! + 0.0722 * c[2]!;
}

function unit(v: Vec): Vec {
  const l = Math.hypot(...v);
  if (!(l > 0)) throw new RangeError('A direction must not have the length zero.');
  return [v[0] / l, v[1] / l, v[2] / l];
}

/** Makes a scene ready. `quality` multiplies the sample counts. */
export function worldOf(scene: Scene, quality = 1): World {
  const materials: Material[] = [];
  const order = new Map<Material, number>();
  const solids = scene.bodies.map((body, i) => {
    let surface = order.get(body.material);
    if (surface === undefined) {
      surface = materials.length;
      order.set(body.material, surface);
      materials.push(body.material);
    }
    return solidOf(body, i, surface);
  });
  const lights = scene.lights.map((light): ReadyLight => {
    const samples = Math.max(1, Math.round((light.samples ?? 8) * quality));
    if (light.kind === 'sun') {
      const [x, y, z] = unit(light.towards);
      const spread = Math.tan((((light.size ?? 0.5) / 2) * Math.PI) / 180);
      return { light, x, y, z, spread, samples: spread > 0 ? samples : 1, cone: null, last: null };
    }
    const radius = light.radius ?? 0;
    let cone: ReadyLight['cone'] = null;
    if (light.cone) {
      const [x, y, z] = unit(light.cone.towards);
      const cos = (d: number) => Math.cos((d * Math.PI) / 180);
      cone = { x, y, z, inner: cos(light.cone.inner), outer: cos(light.cone.outer) };
    }
    const [x, y, z] = light.at;
    return { light, x, y, z, spread: radius, samples: radius > 0 ? samples : 1, cone, last: null };
  });
  return { scene, tree: treeOf(solids), materials, lights, quality };
}

const BIAS = 1e-4;
const FAR = 1e9;

// Points of a disc: radius² by one additive recurrence on the plastic number (Roberts 2018), angle by the
// other; each place adds its own shift to both. The angles' cosines are kept, so a shift is one turn.
const GOLDEN_1 = 0.7548776662466927;
const GOLDEN_2 = 0.5698402909980532;
const TURNS = 64;
const turnCos = Float64Array.from({ length: TURNS }, (_, s) => Math.cos(2 * Math.PI * GOLDEN_2 * s));
const turnSin = Float64Array.from({ length: TURNS }, (_, s) => Math.sin(2 * Math.PI * GOLDEN_2 * s));

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

function clear(out: Seen): void {
  out.solid = null;
  out.t = 0;
  out.reflectance.fill(0);
  out.key.fill(0);
  out.keyFull.fill(0);
  out.fill.fill(0);
  out.normal.fill(0);
  out.position.fill(0);
  out.emissive.fill(0);
  out.mirror.fill(0);
  out.air.fill(0);
  out.along.fill(0);
  out.k = 0;
  out.shadow = 0;
  out.mirrorShare = 0;
  out.clear = 1;
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

/**
 * Key light at the place `out.position` (rays start just above it): Lambert's cosine, soft shadow by rays to points of the source, inverse
 * square for lamps.
 */
function keys(
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
function fillAt(
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

/** Haze and halos between the eye and a surface. */
function airBetween(
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
function halo(
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
