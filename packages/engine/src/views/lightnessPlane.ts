import { lightness, luminance } from '../colour/cielab.ts';
import type { Plane } from '../numbers/plane.ts';
import type { View } from './view.ts';

/** L* (0…100) of a view, place by place; negative luminance counts as black. */
export function lightnessPlane({ width, height, rgb }: View): Plane {
  const data = new Float32Array(width * height);
  for (let p = 0; p < data.length; p++)
    data[p] = lightness(Math.max(0, luminance(rgb[3 * p], rgb[3 * p + 1], rgb[3 * p + 2])));
  return { width, height, data };
}
