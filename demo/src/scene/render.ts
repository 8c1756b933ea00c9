/** From scene to passes, row by row. */
import { type Seen, seenOf } from './seen.ts';
import { look } from './shade.ts';
import type { Camera, Passes, RenderOptions, Scene, Vec } from './types.ts';
import { type World, worldOf } from './world.ts';

type Mutable<T> = { -readonly [K in keyof T]: T[K] };

/**
 * Renders a scene. Deterministic: the same scene and size give the same numbers, whole or in parts of rows.
 *
 * Continuous passes are means over the sub-samples (those that see the sky are left out of all but `colour`);
 * ids, depth, position, normal and `along` are those of the sub-sample next to the pixel's centre.
 * Throws a RangeError for an empty size or rows outside the picture.
 */
export function render(scene: Scene, width: number, height: number, options: RenderOptions = {}): Passes {
  const side = Math.max(1, Math.round(options.supersample ?? 1));
  const [first, last] = options.rows ?? [0, height];
  if (!(width >= 1 && height >= 1 && first >= 0 && last <= height && first < last))
    throw new RangeError(`Cannot render rows ${first} to ${last} of ${width} × ${height} pixels.`);
  const world = worldOf(scene, options.quality ?? 1);
  const out = emptyPasses(scene, world, width, last - first, first, height);
  const camera = cameraOf(scene.camera, width, height);
  const [ex, ey, ez] = scene.camera.eye;
  const ray = new Float64Array(3);
  const seen = seenOf();
  const middle = (side >> 1) * side + (side >> 1);
  for (let y = first; y < last; y++) {
    for (let x = 0; x < width; x++) {
      const i = (y - first) * width + x;
      let solid = 0;
      for (let s = 0; s < side * side; s++) {
        const sx = x * side + (s % side);
        const sy = y * side + Math.floor(s / side);
        camera.ray((sx + 0.5) / side, (sy + 0.5) / side, ray);
        look(world, ex, ey, ez, ray[0]!, ray[1]!, ray[2]!, patternU(sx, sy), patternV(sx, sy), seen);
        for (let c = 0; c < 3; c++) out.colour[i * 3 + c]! += seen.colour[c]!;
        if (seen.solid !== null) {
          solid++;
          addTo(out, i, seen);
        }
        if (s === middle) writeCentre(out, i, seen, camera);
      }
      if (side > 1) divide(out, i, side * side, solid);
    }
    options.onProgress?.((y - first + 1) / (last - first));
  }
  return out;
}

/** Joins parts rendered by rows (in any order) to the whole picture. */
export function joinRows(parts: readonly Passes[]): Passes {
  const sorted = [...parts].sort((a, b) => a.firstRow - b.firstRow);
  const head = sorted[0];
  const rows = sorted.reduce((sum, p) => sum + p.height, 0);
  if (head?.firstRow !== 0 || rows !== head.fullHeight)
    throw new RangeError('The parts do not cover the picture.');
  const out: Record<string, unknown> = { ...head, height: rows };
  for (const [name, value] of Object.entries(head)) {
    if (!ArrayBuffer.isView(value)) continue;
    const per = (value as Float32Array).length / (head.width * head.height);
    const Kind = value.constructor as new (n: number) => Float32Array;
    const all = new Kind(head.width * rows * per);
    for (const p of sorted)
      all.set((p as unknown as Record<string, Float32Array>)[name]!, p.firstRow * head.width * per);
    out[name] = all;
  }
  return out as unknown as Passes;
}

function emptyPasses(
  scene: Scene,
  world: World,
  width: number,
  height: number,
  firstRow: number,
  fullHeight: number,
): Mutable<Passes> {
  const one = () => new Float32Array(width * height);
  const three = () => new Float32Array(width * height * 3);
  return {
    width,
    height,
    firstRow,
    fullHeight,
    colour: three(),
    reflectance: three(),
    key: three(),
    keyFull: three(),
    k: one(),
    shadow: one(),
    fill: three(),
    normal: three(),
    depth: one(),
    position: three(),
    body: new Int32Array(width * height).fill(-1),
    surface: new Int32Array(width * height).fill(-1),
    along: new Float32Array(width * height * 2),
    emissive: three(),
    sky: new Uint8Array(width * height),
    mirrorShare: one(),
    mirror: three(),
    clear: one(),
    air: three(),
    surfaceNames: world.materials.map((m) => m.name),
    things: scene.bodies.map((b) => b.thing ?? ''),
  };
}

function addTo(out: Passes, i: number, seen: Seen): void {
  for (let c = 0; c < 3; c++) {
    const j = i * 3 + c;
    out.reflectance[j]! += seen.reflectance[c]!;
    out.key[j]! += seen.key[c]!;
    out.keyFull[j]! += seen.keyFull[c]!;
    out.fill[j]! += seen.fill[c]!;
    out.emissive[j]! += seen.emissive[c]!;
    out.mirror[j]! += seen.mirror[c]!;
    out.air[j]! += seen.air[c]!;
  }
  out.k[i]! += seen.k;
  out.shadow[i]! += seen.shadow;
  out.mirrorShare[i]! += seen.mirrorShare;
  out.clear[i]! += seen.clear;
}

function divide(out: Passes, i: number, all: number, solid: number): void {
  const s = solid > 0 ? 1 / solid : 0;
  for (let c = 0; c < 3; c++) {
    const j = i * 3 + c;
    out.colour[j]! /= all;
    for (const pass of [out.reflectance, out.key, out.keyFull, out.fill, out.emissive, out.mirror, out.air])
      pass[j]! *= s;
  }
  for (const pass of [out.k, out.shadow, out.mirrorShare, out.clear]) pass[i]! *= s;
}

function writeCentre(out: Passes, i: number, seen: Seen, camera: CameraFrame): void {
  if (seen.solid === null) {
    out.sky[i] = 1;
    return;
  }
  out.body[i] = seen.solid.index;
  out.surface[i] = seen.solid.surface;
  out.depth[i] = seen.t;
  for (let c = 0; c < 3; c++) {
    out.normal[i * 3 + c] = seen.normal[c]!;
    out.position[i * 3 + c] = seen.position[c]!;
  }
  camera.direction(seen.position, seen.along, out.along, i * 2);
}

interface CameraFrame {
  /** Unit direction through a point of the picture (pixels, y down). */
  ray(x: number, y: number, out: Float64Array): void;
  /** Direction on the picture of a world direction at a world point; zero where it vanishes. */
  direction(at: Float64Array, dir: Float64Array, out: Float32Array, to: number): void;
}

/** A pinhole camera that keeps uprights upright only as far as it looks level; `shift` helps the rest. */
function cameraOf(camera: Camera, width: number, height: number): CameraFrame {
  const { eye, target } = camera;
  const f = unit([target[0] - eye[0], target[1] - eye[1], target[2] - eye[2]]);
  const r = unit([-f[2], 0, f[0]]);
  const u: Vec = [r[1] * f[2] - r[2] * f[1], r[2] * f[0] - r[0] * f[2], r[0] * f[1] - r[1] * f[0]];
  const half = Math.tan((camera.fov * Math.PI) / 360);
  const [sx, sy] = camera.shift ?? [0, 0];
  return {
    ray(x, y, out) {
      const a = ((2 * x - width) / height + 2 * sx) * half;
      const b = ((height - 2 * y) / height + 2 * sy) * half;
      const dx = f[0] + a * r[0] + b * u[0];
      const dy = f[1] + a * r[1] + b * u[1];
      const dz = f[2] + a * r[2] + b * u[2];
      const l = 1 / Math.sqrt(dx * dx + dy * dy + dz * dz);
      out[0] = dx * l;
      out[1] = dy * l;
      out[2] = dz * l;
    },
    direction(at, dir, out, to) {
      const px = at[0]! - eye[0];
      const py = at[1]! - eye[1];
      const pz = at[2]! - eye[2];
      const z = px * f[0] + py * f[1] + pz * f[2];
      const x = (px * r[0] + py * r[1] + pz * r[2]) / z;
      const y = (px * u[0] + py * u[1] + pz * u[2]) / z;
      const dz = dir[0]! * f[0] + dir[1]! * f[1] + dir[2]! * f[2];
      const dx = dir[0]! * r[0] + dir[1]! * r[1] + dir[2]! * r[2] - x * dz;
      const dy = dir[0]! * u[0] + dir[1]! * u[1] + dir[2]! * u[2] - y * dz;
      const l = Math.hypot(dx, dy);
      out[to] = l > 1e-9 ? dx / l : 0;
      out[to + 1] = l > 1e-9 ? -dy / l : 0;
    },
  };
}

function unit(v: Vec): Vec {
  const l = Math.hypot(...v);
  return [v[0] / l, v[1] / l, v[2] / l];
}

// Shifts of the sample patterns that differ from pixel to pixel without clumping: an additive recurrence on
// the plastic number (Roberts 2018) and interleaved gradient noise (Jimenez 2014).
const patternU = (x: number, y: number) => (0.7548776662466927 * x + 0.5698402909980532 * y) % 1;
const patternV = (x: number, y: number) => (52.9829189 * ((0.06711056 * x + 0.00583715 * y) % 1)) % 1;
