import type { ColourSpace, LightRow, SizePlan } from '@halflight/engine';
import type { Inks, Way } from './inks.ts';
import { labInto } from './lab.ts';

/** Rows of a picture as code values of a profile, from rows of opaque linear light in `space`. */
export function inkRows(
  light: { readonly row: LightRow },
  { width }: SizePlan,
  { toSrgb: m }: ColourSpace,
  inks: Inks,
  depth: 8 | 16,
  way: Way,
): (y: number, count: number) => Uint8Array | Uint16Array {
  const line = new Float64Array(3 * width);
  return (y, count) => {
    const lab = new Float32Array(3 * width * count);
    for (let k = 0, at = 0; k < count; k++) {
      light.row(y + k, line);
      for (let i = 0; i < line.length; i += 3, at += 3) {
        // The filter may swing beyond black and white.
        const r = Math.min(1, Math.max(0, line[i]));
        const g = Math.min(1, Math.max(0, line[i + 1]));
        const b = Math.min(1, Math.max(0, line[i + 2]));
        labInto(
          lab,
          at,
          m[0] * r + m[1] * g + m[2] * b,
          m[3] * r + m[4] * g + m[5] * b,
          m[6] * r + m[7] * g + m[8] * b,
        );
      }
    }
    return inks.to(lab, depth, way);
  };
}
