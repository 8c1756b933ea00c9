import { ciede2000 } from '../colour/ciede2000.ts';
import { linearToCielab } from '../colour/cielab.ts';
import type { ColourSpace } from '../colour/space.ts';
import { decode } from '../colour/transfer.ts';

/** Steps of the tables from code values to linear light. */
const STEPS = 4096;

/** Brings code values times alpha, and alpha, into linear light in sRGB primaries, times alpha too; four numbers. */
export function lightOfCodes(space: ColourSpace): (codes: ArrayLike<number>, out: Float64Array) => void {
  const tables = space.curves.map((curve) =>
    Float64Array.from({ length: STEPS + 2 }, (_, i) => decode(curve, Math.min(1, i / STEPS))),
  );
  const m = space.toSrgb;
  const linear = (c: number, code: number): number => {
    const at = STEPS * Math.min(1, Math.max(0, code));
    const i = Math.floor(at);
    return tables[c][i] + (at - i) * (tables[c][i + 1] - tables[c][i]);
  };
  return (codes, out) => {
    const a = codes[3];
    const by = a > 0 ? 1 / a : 0;
    const r = a * linear(0, by * codes[0]);
    const g = a * linear(1, by * codes[1]);
    const b = a * linear(2, by * codes[2]);
    out[0] = m[0] * r + m[1] * g + m[2] * b;
    out[1] = m[3] * r + m[4] * g + m[5] * b;
    out[2] = m[6] * r + m[7] * g + m[8] * b;
    out[3] = a;
  };
}

/**
 * CIEDE2000 between two premultiplied linear colours, as they are seen on black or on white, whichever shows more:
 * a hidden bottom layer leaves a hole, and what stands behind a picture is not known.
 */
export function seenDifference(p: ArrayLike<number>, q: ArrayLike<number>): number {
  const onBlack = ciede2000(linearToCielab([p[0], p[1], p[2]]), linearToCielab([q[0], q[1], q[2]]));
  if (p[3] > OPAQUE && q[3] > OPAQUE) return onBlack;
  const v = 1 - p[3];
  const w = 1 - q[3];
  const onWhite = ciede2000(
    linearToCielab([p[0] + v, p[1] + v, p[2] + v]),
    linearToCielab([q[0] + w, q[1] + w, q[2] + w]),
  );
  return Math.max(onBlack, onWhite);
}

const OPAQUE = 0.9995;
