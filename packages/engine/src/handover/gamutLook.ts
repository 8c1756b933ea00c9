import { ciede2000 } from '../colour/ciede2000.ts';
import { linearToCielab } from '../colour/cielab.ts';
import { gamutMapper } from '../colour/gamutMapper.ts';
import type { ColourSpace } from '../colour/space.ts';
import type { Field, View } from '../views/view.ts';

/** A colour counts as lost when its difference is seen side by side at a glance: CIEDE2000; common practice, no source. */
export const LOST = 2;

/** What a target space leaves of a picture. */
export interface GamutLook {
  /** Share of the picture's area whose colours change by more than the threshold. */
  readonly share: number;
  /** Mean CIEDE2000 of what is lost; 0 when nothing is. */
  readonly mean: number;
  /** 1 where it is lost, 0 where not. */
  readonly map: Field;
  /** The picture as it will be. */
  readonly shown: View;
}

/** A picture as a space with curves and matrix will show it. */
export function viewInSpace(view: View, space: ColourSpace): View {
  const hold = gamutMapper(space);
  const rgb = Float32Array.from(view.rgb);
  const one = new Float64Array(3);
  for (let i = 0; i < rgb.length; i += 3) {
    one[0] = rgb[i];
    one[1] = rgb[i + 1];
    one[2] = rgb[i + 2];
    if (hold(one, 0)) rgb.set(one, i);
  }
  return { ...view, rgb };
}

/** CIEDE2000 between two views of the same size, place by place. */
export function differencesOf(a: View, b: View): Float32Array {
  const out = new Float32Array(a.width * a.height);
  for (let p = 0, i = 0; p < out.length; p++, i += 3) {
    const [p0, p1, p2] = [a.rgb[i], a.rgb[i + 1], a.rgb[i + 2]];
    const [q0, q1, q2] = [b.rgb[i], b.rgb[i + 1], b.rgb[i + 2]];
    if (p0 === q0 && p1 === q1 && p2 === q2) continue;
    out[p] = ciede2000(linearToCielab([p0, p1, p2]), linearToCielab([q0, q1, q2]));
  }
  return out;
}

/**
 * Holds a picture against what a target makes of it.
 *
 * @param shown the same view after its way through the target (`viewInSpace`, or through a profile and back)
 * @param differences CIEDE2000 that count as its loss, place by place; those to what is shown unless told
 */
export function gamutLook(
  view: View,
  shown: View,
  differences: Float32Array = differencesOf(view, shown),
  threshold = LOST,
): GamutLook {
  const { width, height, alpha } = view;
  const data = new Float32Array(width * height);
  let area = 0;
  let gone = 0;
  let sum = 0;
  for (let p = 0; p < data.length; p++) {
    const weight = alpha ? alpha[p] : 1;
    if (!(weight > 0)) continue;
    area += weight;
    if (!(differences[p] > threshold)) continue;
    data[p] = 1;
    gone += weight;
    sum += weight * differences[p];
  }
  return {
    share: area > 0 ? gone / area : 0,
    mean: gone > 0 ? sum / gone : 0,
    map: { width, height, data },
    shown,
  };
}
