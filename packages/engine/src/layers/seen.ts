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

/** Change of every code value, of the full range, that is below it in any colour. */
const FAINT = 0.25 / 255;

/** Whether two pixels of code values are so near that nobody can tell them apart. */
export function isFaint(p: Float64Array, q: Float64Array): boolean {
  return (
    Math.abs(p[0] - q[0]) < FAINT &&
    Math.abs(p[1] - q[1]) < FAINT &&
    Math.abs(p[2] - q[2]) < FAINT &&
    Math.abs(p[3] - q[3]) < FAINT
  );
}

/** Tells one colour from many others; colours are premultiplied linear light and alpha. */
export interface Eye {
  /** Looks at a colour from now on. */
  at(p: Float64Array): void;
  /** Whether another one is seen to be different (`seenDifference` is at least the threshold). */
  tells(q: Float64Array): boolean;
}

/**
 * Most colours are far below or above a threshold, and that is told from CIELAB alone. CIEDE2000 (see there) divides
 * the difference of lightness by 1 to 1.75 and those of chroma and hue by at least 1, stretches a* by at most 1.5, and
 * turns by a term of at most 2 times chroma times hue: it is at most √(ΔL² + 4.5 Δa² + 2 Δb²) and at least ΔL / 1.75.
 */
export function openEye(threshold: number): Eye {
  const p = new Float64Array(4);
  let lab: [number, number, number] | null = null;
  const least = threshold * threshold;
  return {
    at(colour) {
      p.set(colour);
      lab = null;
    },
    tells(q) {
      if (p[3] <= OPAQUE || q[3] <= OPAQUE) return seenDifference(p, q) >= threshold;
      lab ??= linearToCielab([p[0], p[1], p[2]]);
      const other = linearToCielab([q[0], q[1], q[2]]);
      const L = lab[0] - other[0];
      const a = lab[1] - other[1];
      const b = lab[2] - other[2];
      if (L * L + 4.5 * a * a + 2 * b * b < least) return false;
      return Math.abs(L) >= 1.75 * threshold || ciede2000(lab, other) >= threshold;
    },
  };
}
