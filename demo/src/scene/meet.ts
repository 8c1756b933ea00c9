/** Where rays meet bodies, worked out in each body's own coordinates. */
import { BOX, CONVEX, CYLINDER, PLANE, type Solid, SPHERE } from './solid.ts';
import { hitGrid } from './terrain.ts';

/** Distance > tMin along a world ray to the body's surface, or Infinity. From inside: the way out. */
export function hitSolid(
  s: Solid,
  wx: number,
  wy: number,
  wz: number,
  vx: number,
  vy: number,
  vz: number,
  tMin: number,
  tMax: number,
): number {
  let ox = wx - s.px;
  let oy = wy - s.py;
  let oz = wz - s.pz;
  let dx = vx;
  let dy = vy;
  let dz = vz;
  if (s.turned) {
    const m = s.turn;
    const x = ox;
    const y = oy;
    const z = oz;
    ox = m[0]! * x + m[3]! * y + m[6]! * z;
    oy = m[1]! * x + m[4]! * y + m[7]! * z;
    oz = m[2]! * x + m[5]! * y + m[8]! * z;
    dx = m[0]! * vx + m[3]! * vy + m[6]! * vz;
    dy = m[1]! * vx + m[4]! * vy + m[7]! * vz;
    dz = m[2]! * vx + m[5]! * vy + m[8]! * vz;
  }
  const size = s.size;
  switch (s.kind) {
    case BOX:
      return hitBox(size, ox, oy, oz, dx, dy, dz, tMin);
    case SPHERE:
      return hitSphere(size[0]!, ox, oy, oz, dx, dy, dz, tMin);
    case CYLINDER:
      return hitCylinder(size, ox, oy, oz, dx, dy, dz, tMin);
    case CONVEX:
      return hitConvex(size, ox, oy, oz, dx, dy, dz, tMin);
    case PLANE: {
      const t = -oy / dy;
      if (!(t > tMin)) return Infinity;
      return Math.abs(ox + t * dx) <= size[0]! && Math.abs(oz + t * dz) <= size[1]! ? t : Infinity;
    }
    default:
      return hitGrid(s.grid!, ox, oy, oz, dx, dy, dz, tMin, tMax);
  }
}

function hitBox(
  h: Float64Array,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  tMin: number,
): number {
  const ix = 1 / (dx || 1e-12);
  const iy = 1 / (dy || 1e-12);
  const iz = 1 / (dz || 1e-12);
  // Each pair of faces at distances −o/d ∓ h/|d| along the ray.
  const wx = h[0]! * Math.abs(ix);
  const wy = h[1]! * Math.abs(iy);
  const wz = h[2]! * Math.abs(iz);
  const mx = -ox * ix;
  const my = -oy * iy;
  const mz = -oz * iz;
  let near = mx - wx;
  let far = mx + wx;
  if (my - wy > near) near = my - wy;
  if (my + wy < far) far = my + wy;
  if (mz - wz > near) near = mz - wz;
  if (mz + wz < far) far = mz + wz;
  if (near > far || far <= tMin) return Infinity;
  return near > tMin ? near : far;
}

function hitSphere(
  r: number,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  tMin: number,
): number {
  const b = ox * dx + oy * dy + oz * dz;
  const c = ox * ox + oy * oy + oz * oz - r * r;
  const d = b * b - c;
  if (d < 0) return Infinity;
  const q = Math.sqrt(d);
  if (-b - q > tMin) return -b - q;
  return -b + q > tMin ? -b + q : Infinity;
}

function hitCylinder(
  s: Float64Array,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  tMin: number,
): number {
  const r0 = s[0]!;
  const h = s[1]!;
  const r1 = s[2]!;
  let best = Infinity;
  // Caps.
  if (dy !== 0) {
    let t = -oy / dy;
    if (t > tMin && (ox + t * dx) ** 2 + (oz + t * dz) ** 2 <= r0 * r0) best = t;
    t = (h - oy) / dy;
    if (t > tMin && t < best && (ox + t * dx) ** 2 + (oz + t * dz) ** 2 <= r1 * r1) best = t;
  }
  // Mantle: x² + z² = (r0 + s·y)².
  const slope = (r1 - r0) / h;
  const w = r0 + slope * oy;
  const a = dx * dx + dz * dz - slope * slope * dy * dy;
  const b = ox * dx + oz * dz - slope * dy * w;
  const c = ox * ox + oz * oz - w * w;
  const d = b * b - a * c;
  if (d < 0 || a === 0) return best;
  const q = Math.sqrt(d);
  const t1 = (-b - q) / a;
  const t2 = (-b + q) / a;
  for (let i = 0; i < 2; i++) {
    const t = i === 0 ? t1 : t2;
    const y = oy + t * dy;
    if (t > tMin && t < best && y >= 0 && y <= h && r0 + slope * y >= 0) best = t;
  }
  return best;
}

function hitConvex(
  planes: Float64Array,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  tMin: number,
): number {
  let near = -Infinity;
  let far = Infinity;
  for (let i = 0; i < planes.length; i += 4) {
    const toward = planes[i]! * dx + planes[i + 1]! * dy + planes[i + 2]! * dz;
    const gap = planes[i + 3]! - (planes[i]! * ox + planes[i + 1]! * oy + planes[i + 2]! * oz);
    if (toward === 0) {
      if (gap < 0) return Infinity;
    } else if (toward < 0) near = Math.max(near, gap / toward);
    else far = Math.min(far, gap / toward);
  }
  if (near > far || far <= tMin) return Infinity;
  return near > tMin ? near : far;
}
