/** Bodies made ready for rays: a frame, numbers, bounds, normals. */
import { type Grid, gridNormal, gridOf } from './terrain.ts';
import type { Body, Shape, Vec } from './types.ts';

export const PLANE = 0;
export const BOX = 1;
export const SPHERE = 2;
export const CYLINDER = 3;
export const CONVEX = 4;
export const TERRAIN = 5;

/** A body with its inverse frame (rows of `turn` are the body's axes in the world) and shape numbers. */
export interface Solid {
  readonly kind: number;
  readonly index: number;
  readonly surface: number;
  readonly shadow: boolean;
  readonly px: number;
  readonly py: number;
  readonly pz: number;
  readonly turned: boolean;
  readonly turn: Float64Array;
  readonly size: Float64Array;
  readonly grid: Grid | null;
  /** World bounds: min x y z, max x y z; endless bodies have infinite ones. */
  readonly bounds: Float64Array;
}

/** Columns of Ry·Rx·Rz, row-major: local to world. */
export function turnMatrix(turn: Vec): Float64Array {
  const [x, y, z] = turn.map((d) => (d * Math.PI) / 180) as [number, number, number];
  const cx = Math.cos(x);
  const sx = Math.sin(x);
  const cy = Math.cos(y);
  const sy = Math.sin(y);
  const cz = Math.cos(z);
  const sz = Math.sin(z);
  return Float64Array.of(
    cy * cz + sy * sx * sz,
    -cy * sz + sy * sx * cz,
    sy * cx,
    cx * sz,
    cx * cz,
    -sx,
    -sy * cz + cy * sx * sz,
    sy * sz + cy * sx * cz,
    cy * cx,
  );
}

/** The planes n·p ≤ d of a roof of the given size. */
function roofPlanes(size: Vec, ridge: number): number[] {
  const [w, h, l] = size;
  const side = (foot: number) => {
    // The slope through (foot, 0) and (ridge, h), looking outward.
    const s = Math.sign(foot - ridge) || Math.sign(foot);
    const nx = h * s;
    const ny = Math.abs(foot - ridge);
    const n = Math.hypot(nx, ny);
    return [nx / n, ny / n, 0, (nx * foot) / n];
  };
  return [...side(w / 2), ...side(-w / 2), 0, -1, 0, 0, 0, 0, 1, l / 2, 0, 0, -1, l / 2];
}

interface Prepared {
  kind: number;
  size: number[];
  low: Vec;
  high: Vec;
  grid: Grid | null;
}

function prepare(shape: Shape): Prepared {
  switch (shape.kind) {
    case 'plane': {
      const x = shape.halfX ?? Infinity;
      const z = shape.halfZ ?? Infinity;
      return { kind: PLANE, size: [x, z], low: [-x, 0, -z], high: [x, 0, z], grid: null };
    }
    case 'box': {
      const [x, y, z] = shape.size.map((s) => s / 2) as [number, number, number];
      return { kind: BOX, size: [x, y, z], low: [-x, -y, -z], high: [x, y, z], grid: null };
    }
    case 'sphere': {
      const r = shape.radius;
      return { kind: SPHERE, size: [r], low: [-r, -r, -r], high: [r, r, r], grid: null };
    }
    case 'cylinder': {
      const top = shape.top ?? shape.radius;
      const r = Math.max(shape.radius, top);
      return {
        kind: CYLINDER,
        size: [shape.radius, shape.height, top],
        low: [-r, 0, -r],
        high: [r, shape.height, r],
        grid: null,
      };
    }
    case 'roof': {
      const [w, h, l] = shape.size;
      return {
        kind: CONVEX,
        size: roofPlanes(shape.size, shape.ridge ?? 0),
        low: [-w / 2, 0, -l / 2],
        high: [w / 2, h, l / 2],
        grid: null,
      };
    }
    case 'convex': {
      const [x, y, z] = shape.bounds;
      const planes = shape.planes.flatMap(([nx, ny, nz, d]) => {
        const n = Math.hypot(nx, ny, nz);
        return [nx / n, ny / n, nz / n, d / n];
      });
      return { kind: CONVEX, size: planes, low: [-x, -y, -z], high: [x, y, z], grid: null };
    }
    case 'terrain': {
      const grid = gridOf(shape.size, shape.cells, shape.height);
      return {
        kind: TERRAIN,
        size: [],
        low: [-grid.halfX, grid.min, -grid.halfZ],
        high: [grid.halfX, grid.max, grid.halfZ],
        grid,
      };
    }
  }
}

/** Makes a body ready: throws a RangeError that names the body if a size is not a positive number. */
export function solidOf(body: Body, index: number, surface: number): Solid {
  const { kind, size, low, high, grid } = prepare(body.shape);
  if (
    size.some(Number.isNaN) ||
    (kind !== CONVEX && kind !== TERRAIN && size.slice(0, 2).some((s) => s <= 0))
  )
    throw new RangeError(`Body ${index} (${body.material.name}): sizes must be positive numbers.`);
  const at = body.at ?? [0, 0, 0];
  const turned = body.turn?.some((d) => d !== 0) ?? false;
  const m = turnMatrix(body.turn ?? [0, 0, 0]);
  const bounds = Float64Array.of(Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity);
  for (let corner = 0; corner < 8; corner++) {
    const c = [corner & 1 ? high[0] : low[0], corner & 2 ? high[1] : low[1], corner & 4 ? high[2] : low[2]];
    for (let a = 0; a < 3; a++) {
      let v = at[a]!;
      for (let b = 0; b < 3; b++) if (m[a * 3 + b]! !== 0) v += m[a * 3 + b]! * c[b]!;
      bounds[a] = Math.min(bounds[a]!, v - 1e-9);
      bounds[a + 3] = Math.max(bounds[a + 3]!, v + 1e-9);
    }
  }
  return {
    kind,
    index,
    surface,
    shadow: body.shadow ?? body.material.glow === undefined,
    px: at[0],
    py: at[1],
    pz: at[2],
    turned,
    turn: m,
    size: Float64Array.from(size),
    grid,
    bounds,
  };
}

/** Outward normal at a point of the surface, both in the body's own coordinates. */
export function localNormal(s: Solid, x: number, y: number, z: number, out: Float64Array): void {
  const size = s.size;
  out[0] = 0;
  out[1] = 0;
  out[2] = 0;
  switch (s.kind) {
    case PLANE:
      out[1] = 1;
      return;
    case BOX: {
      const fx = Math.abs(Math.abs(x) - size[0]!);
      const fy = Math.abs(Math.abs(y) - size[1]!);
      const fz = Math.abs(Math.abs(z) - size[2]!);
      if (fx <= fy && fx <= fz) out[0] = Math.sign(x);
      else if (fy <= fz) out[1] = Math.sign(y);
      else out[2] = Math.sign(z);
      return;
    }
    case SPHERE: {
      const r = 1 / size[0]!;
      out[0] = x * r;
      out[1] = y * r;
      out[2] = z * r;
      return;
    }
    case CYLINDER: {
      const slope = (size[2]! - size[0]!) / size[1]!;
      const r = Math.hypot(x, z);
      const offMantle = Math.abs(r - (size[0]! + slope * y));
      if (Math.min(Math.abs(y), Math.abs(y - size[1]!)) < offMantle) {
        out[1] = y < size[1]! / 2 ? -1 : 1;
        return;
      }
      const l = 1 / Math.sqrt(1 + slope * slope);
      out[0] = (x / (r || 1)) * l;
      out[1] = -slope * l;
      out[2] = (z / (r || 1)) * l;
      return;
    }
    case CONVEX: {
      let best = Infinity;
      for (let i = 0; i < size.length; i += 4) {
        const off = Math.abs(size[i + 3]! - (size[i]! * x + size[i + 1]! * y + size[i + 2]! * z));
        if (off < best) {
          best = off;
          out[0] = size[i]!;
          out[1] = size[i + 1]!;
          out[2] = size[i + 2]!;
        }
      }
      return;
    }
    default:
      gridNormal(s.grid!, x, z, out);
  }
}
