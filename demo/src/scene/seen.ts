/** What is known of the first surface along a ray. */
import type { Solid } from './solid.ts';

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

/** Forgets everything but the colour: nothing was met. */
export function clear(out: Seen): void {
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
