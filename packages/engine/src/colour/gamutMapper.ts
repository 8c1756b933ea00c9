import { fromSrgb } from './gamut.ts';
import { linearInto, oklabInto } from './oklab.ts';
import type { ColourSpace } from './space.ts';

// CSS Color 4, section 13.2: as in `gamut.ts`.
const JND = 0.02;
const EPSILON = 0.0001;
const SLACK = 1e-9;

/** Maps the colour at `at` (linear sRGB, three numbers) into the gamut; true when it had to be changed. */
export type GamutMapper = (rgb: Float64Array, at: number) => boolean;

/** Mappers made so far: they depend on the space only. */
const made = new WeakMap<ColourSpace, GamutMapper>();

/**
 * `mapToGamut` for many colours: the same search and the same results, in place and without allocation.
 * Colours inside the gamut, and not-a-number, stay as they are.
 */
export function gamutMapper(space: ColourSpace): GamutMapper {
  let mapper = made.get(space);
  if (!mapper) {
    mapper = makeMapper(space);
    made.set(space, mapper);
  }
  return mapper;
}

function makeMapper(space: ColourSpace): GamutMapper {
  const [i0, i1, i2, i3, i4, i5, i6, i7, i8] = fromSrgb(space);
  const [m0, m1, m2, m3, m4, m5, m6, m7, m8] = space.toSrgb;
  const lab = new Float64Array(3);
  const clippedLab = new Float64Array(3);
  const lin = new Float64Array(3);
  const clipped = new Float64Array(3);
  // The colour in the space's own primaries.
  let r = 0;
  let g = 0;
  let b = 0;

  /** Looks at three numbers of linear sRGB: true when they lie inside. */
  const enter = (rgb: Float64Array, at: number): boolean => {
    const x = rgb[at];
    const y = rgb[at + 1];
    const z = rgb[at + 2];
    r = i0 * x + i1 * y + i2 * z;
    g = i3 * x + i4 * y + i5 * z;
    b = i6 * x + i7 * y + i8 * z;
    return !(r < -SLACK || r > 1 + SLACK || g < -SLACK || g > 1 + SLACK || b < -SLACK || b > 1 + SLACK);
  };
  /** Clips what was entered last; its distance ΔE_OK from (L, a, b). */
  const clip = (L: number, a: number, bb: number): number => {
    const x = Math.min(1, Math.max(0, r));
    const y = Math.min(1, Math.max(0, g));
    const z = Math.min(1, Math.max(0, b));
    clipped[0] = m0 * x + m1 * y + m2 * z;
    clipped[1] = m3 * x + m4 * y + m5 * z;
    clipped[2] = m6 * x + m7 * y + m8 * z;
    oklabInto(clippedLab, 0, clipped[0], clipped[1], clipped[2]);
    const dL = clippedLab[0] - L;
    const da = clippedLab[1] - a;
    const db = clippedLab[2] - bb;
    return Math.sqrt(dL * dL + da * da + db * db);
  };
  const put = (rgb: Float64Array, at: number, from: Float64Array): void => {
    rgb[at] = from[0];
    rgb[at + 1] = from[1];
    rgb[at + 2] = from[2];
  };

  return (rgb, at) => {
    if (enter(rgb, at)) return false;
    oklabInto(lab, 0, rgb[at], rgb[at + 1], rgb[at + 2]);
    const [L, A, B] = lab;
    if (L >= 1 || L <= 0) {
      rgb.fill(L >= 1 ? 1 : 0, at, at + 3);
      return true;
    }
    const distance = clip(L, A, B);
    if (distance < JND) {
      put(rgb, at, clipped);
      return true;
    }
    const chroma = Math.sqrt(A * A + B * B);
    let low = 0;
    let high = chroma;
    let lowInside = true;
    while (high - low > EPSILON) {
      const c = (low + high) / 2;
      const a = (A * c) / chroma;
      const bb = (B * c) / chroma;
      linearInto(lin, 0, L, a, bb);
      const inside = enter(lin, 0);
      if (lowInside && inside) {
        low = c;
        clipped.set(lin);
        continue;
      }
      const miss = clip(L, a, bb);
      if (miss < JND) {
        if (JND - miss < EPSILON) break;
        lowInside = false;
        low = c;
      } else high = c;
    }
    put(rgb, at, clipped);
    return true;
  };
}
