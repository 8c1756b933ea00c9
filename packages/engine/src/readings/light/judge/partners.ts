import type { Pieces } from '../pieces.ts';
import { RELATIONS, type Relations } from './relations.ts';

/** Pieces count by their area up to this share of the picture. */
const WHOLE = 0.002;
/** Gaps up to which pieces touch, and at which a partner near by, and one farther off, counts half; pixels. */
const TOUCH = 20;
const NEAR = 25;
const FAR = 90;
/** A picture in more pieces than this is all grain: partners farther off than so many pixels tell nothing of it. */
const CROWD = 1200;
const CROWDED_REACH = 150;
const K = 4;
/** Sums over partners: near, farther off, anywhere. */
const RANGES = 3;

/**
 * What each piece finds among all others in its light, whatever lies between: sums over its partners, by relation and
 * range (relation-major), and which partner would tell its lit colour.
 */
export interface Partners {
  /** Brighter partners: all, and as far as they are lit; `count × 9`. */
  readonly brighter: Float64Array;
  readonly brighterLit: Float64Array;
  /** The best single lit one, near and farther off: `count × 6`. */
  readonly best: Float64Array;
  /** Darker partners as far as they are labelled as the relation says (`× 9`), and all near ones (`× 3`). */
  readonly darker: Float64Array;
  readonly darkerNear: Float64Array;
  /** Partners of one colour by range (`× 3`), and their labels (`× 4`). */
  readonly same: Float64Array;
  readonly sameLabels: Float64Array;
  /** The brighter lit partner that says most for shade by darkening only, and for the opposite light; −1 without. */
  readonly litFor: readonly [neutral: Int32Array, opposite: Int32Array];
}

/**
 * Holds every pair of pieces against each other, the brighter one first.
 *
 * @param gaps least distances between pieces, pixels, `count × count`
 * @param labels what the pieces were taken for so far, `count × 4`
 * @param total area of the picture, pixels
 */
export function partnersOf(
  { count, x, y, l, area }: Pieces,
  gaps: Float32Array,
  labels: Float64Array,
  relations: Relations,
  total: number,
): Partners {
  const size = Float64Array.from(area, (a) => Math.min(1, a / (WHOLE * total)));
  const sums = (width: number) => new Float64Array(count * width);
  const out = {
    brighter: sums(RELATIONS * RANGES),
    brighterLit: sums(RELATIONS * RANGES),
    best: sums(2 * RELATIONS),
    darker: sums(RELATIONS * RANGES),
    darkerNear: sums(RELATIONS),
    same: sums(RANGES),
    sameLabels: sums(K),
    litFor: [new Int32Array(count).fill(-1), new Int32Array(count).fill(-1)] as const,
  };
  const most = sums(2);
  const says = new Float64Array(RELATIONS);
  const weights = [0, 0, 1];
  const reach2 = relations.reach ** 2;
  const farthest = count > CROWD ? CROWDED_REACH : Number.POSITIVE_INFINITY;
  const order = Int32Array.from(l, (_, i) => i).sort((a, b) => l[b] - l[a] || a - b);
  for (let u = 0; u < count; u++) {
    const i = order[u];
    const lit = labels[K * i];
    for (let v = u + 1; v < count; v++) {
      const j = order[v];
      if (gaps[i * count + j] > farthest) continue;
      const dx = x[i] - x[j];
      const dy = y[i] - y[j];
      if (dx * dx + dy * dy > reach2) continue;
      const dl = l[i] - l[j];
      const same = relations.same(dx, dy, dl);
      const told = relations.tell(says, dx, dy, dl);
      if (same === 0 && !told) continue;
      const gap = Math.max(0, gaps[i * count + j] - TOUCH);
      weights[0] = 1 / (1 + (gap / NEAR) ** 2);
      weights[1] = 1 / (1 + (gap / FAR) ** 2);
      if (same > 0) {
        alike(i, j, same);
        alike(j, i, same);
      }
      if (!told) continue;
      for (let r = 0; r < RELATIONS; r++) {
        const s = says[r];
        if (s === 0) continue;
        const is = labels[K * j + r + 1];
        for (let g = 0; g < RANGES; g++) {
          const w = s * weights[g];
          const at = RANGES * r + g;
          out.brighter[RELATIONS * RANGES * j + at] += w * size[i];
          out.brighterLit[RELATIONS * RANGES * j + at] += w * size[i] * lit;
          out.darker[RELATIONS * RANGES * i + at] += w * size[j] * is;
        }
        out.darkerNear[RELATIONS * i + r] += s * weights[0] * size[j];
        for (let g = 0; g < 2; g++) {
          const at = 2 * RELATIONS * j + RELATIONS * g + r;
          out.best[at] = Math.max(out.best[at], s * weights[g] * lit);
        }
        const much = s * weights[1] * size[i] * lit;
        if (r > 0 && much > most[2 * j + r - 1]) {
          most[2 * j + r - 1] = much;
          out.litFor[r - 1][j] = i;
        }
      }
    }
  }
  return out;

  function alike(of: number, other: number, same: number): void {
    const s = same * size[other];
    for (let g = 0; g < RANGES; g++) out.same[RANGES * of + g] += s * weights[g];
    const w = s * weights[1];
    for (let k = 0; k < K; k++) out.sameLabels[K * of + k] += w * labels[K * other + k];
  }
}
