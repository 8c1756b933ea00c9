import { lightness, luminance } from '../colour/cielab.ts';
import { type Plane, planeOf } from '../numbers/plane.ts';
import type { View } from './view.ts';

/** L* (0…100) of a view, place by place; negative luminance counts as black. */
export function lightnessPlane({ width, height, rgb }: View): Plane {
  return planeOf(width, height, (p) =>
    lightness(Math.max(0, luminance(rgb[3 * p], rgb[3 * p + 1], rgb[3 * p + 2]))),
  );
}
