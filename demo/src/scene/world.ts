/** A scene made ready for rays. */
import { type Tree, treeOf } from './bvh.ts';
import { type Solid, solidOf } from './solid.ts';
import type { Light, Material, Scene, Vec } from './types.ts';

export interface World {
  readonly scene: Scene;
  readonly tree: Tree;
  readonly materials: readonly Material[];
  readonly lights: readonly ReadyLight[];
  readonly quality: number;
}

export interface ReadyLight {
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
