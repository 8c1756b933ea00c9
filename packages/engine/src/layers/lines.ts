import { type PlaceRunner, placeRunner, rowsOf, SAME } from './place.ts';
import type { Program } from './program.ts';

/** How a layer meets what lies below, where that is a straight line in it. */
const NORMAL = 1;
const MULTIPLY = 2;
const SCREEN = 3;
const EXCLUSION = 4;
const HARD_LIGHT = 5;
const KINDS: Readonly<Record<string, number>> = {
  normal: NORMAL,
  multiply: MULTIPLY,
  screen: SCREEN,
  exclusion: EXCLUSION,
  'hard-light': HARD_LIGHT,
};
/** Numbers of what stands above a step: a and d of red, of green and of blue, and a of alpha. */
const ABOVE = 7;

/**
 * The same as `placeRunner`, many times as fast at places where only layers lie that meet by a line (`affine.ts`) and
 * no group that is put together on its own; other places are left to it.
 *
 * A change Δ of what stands behind a step changes the finished pixel by a·Δ + d·Δα, whatever is added above: of the
 * lines above only their slopes are kept, and what a part adds is told from what it made.
 */
export function lineRunner(program: Program): PlaceRunner {
  const { acts, parts } = program;
  const n = acts.length;
  const any = placeRunner(program);
  const kinds = Uint8Array.from(acts, ({ kind, node }) =>
    kind === 'draw' && node.operator === 'source-over' ? (KINDS[node.blend] ?? 0) : 0,
  );
  /** Begin and end of groups that are put together on their own. */
  const groups = Uint8Array.from(acts, ({ layer }) => (layer ? 0 : 1));
  const locals = Uint8Array.from(acts, ({ local }) => (local ? 1 : 0));
  const opacities = Float64Array.from(acts, ({ node }) => node.opacity);
  /** The part of an act and the groups around it. */
  const chains = acts.map(({ part }) => {
    const chain: number[] = [];
    for (let k = part; k >= 0; k = parts[k].parent) chain.push(k);
    return Int32Array.from(chain);
  });
  let m = 0;
  const list = new Int32Array(n);
  const slopes = new Float64Array(ABOVE * n);
  const above = new Float64Array(ABOVE * (n + 1));
  const made = new Float64Array(4 * (n + 1));
  const source = new Float64Array(4 * n);
  const touched = new Int32Array(parts.length);
  const touchedAt = new Float64Array(parts.length).fill(-1);
  const starts = new Int32Array(parts.length);
  const ends = new Int32Array(parts.length);
  const present = { count: 0, list: touched };
  const result = new Float64Array(4);
  const alone = new Float64Array(4);
  const enter = rowsOf(program);
  let place = 0;
  let general = false;
  /** Whether what stands above the steps of this place is known. */
  let known = false;

  const leave = (x: number, y: number): void => {
    general = true;
    any.at(x, y);
    present.count = any.parts.count;
    for (let k = 0; k < present.count; k++) touched[k] = any.parts.list[k];
    for (let c = 0; c < 4; c++) result[c] = any.result[c];
  };
  /** From the top down: the slopes of all that stands above each step. */
  const lookUp = (): void => {
    known = true;
    const top = ABOVE * m;
    above[top] = above[top + 2] = above[top + 4] = above[top + 6] = 1;
    above[top + 1] = above[top + 3] = above[top + 5] = 0;
    for (let at = top - ABOVE; at >= 0; at -= ABOVE) {
      const then = at + ABOVE;
      const alpha = slopes[at + 6];
      above[at] = above[then] * slopes[at];
      above[at + 1] = above[then] * slopes[at + 1] + above[then + 1] * alpha;
      above[at + 2] = above[then + 2] * slopes[at + 2];
      above[at + 3] = above[then + 2] * slopes[at + 3] + above[then + 3] * alpha;
      above[at + 4] = above[then + 4] * slopes[at + 4];
      above[at + 5] = above[then + 4] * slopes[at + 5] + above[then + 5] * alpha;
      above[at + 6] = above[then + 6] * alpha;
    }
  };
  /** What comes of the finished pixel when `alone` stands behind the step before `to`. */
  const carryOn = (to: number, out: Float64Array): boolean => {
    if (!known) lookUp();
    const at = ABOVE * to;
    const r = alone[0] - made[4 * to];
    const g = alone[1] - made[4 * to + 1];
    const b = alone[2] - made[4 * to + 2];
    const a = alone[3] - made[4 * to + 3];
    const dr = above[at] * r + above[at + 1] * a;
    const dg = above[at + 2] * g + above[at + 3] * a;
    const db = above[at + 4] * b + above[at + 5] * a;
    const da = above[at + 6] * a;
    out[0] = result[0] + dr;
    out[1] = result[1] + dg;
    out[2] = result[2] + db;
    out[3] = result[3] + da;
    return Math.abs(dr) > SAME || Math.abs(dg) > SAME || Math.abs(db) > SAME || Math.abs(da) > SAME;
  };
  /** The slopes of a channel of step `j` at `at`: its code value is `s`, its alpha with the opacity `as`. */
  const slope = (kind: number, at: number, s: number, as: number): void => {
    let a = 1 - as;
    let d = 0;
    if (kind === MULTIPLY) {
      a += as * s;
      d = -as * s;
    } else if (kind === SCREEN) a = 1 - as * s;
    else if (kind === EXCLUSION) a = 1 - 2 * as * s;
    else if (kind === HARD_LIGHT) {
      const light = 2 * s - 1;
      a = light <= 0 ? 1 - as + 2 * as * s : 1 - as * light;
      d = light <= 0 ? -as * s : as * light - as * s;
    }
    slopes[at] = a;
    slopes[at + 1] = d;
  };
  /** Step `j` meets the pixel at `at` of `of`; the result goes to `to`. */
  const meet = (j: number, of: Float64Array, at: number, to: number): void => {
    const k = ABOVE * j;
    const as = source[4 * j + 3] * opacities[list[j]];
    const alpha = of[at + 3];
    of[to] = slopes[k] * of[at] + slopes[k + 1] * alpha + as * source[4 * j];
    of[to + 1] = slopes[k + 2] * of[at + 1] + slopes[k + 3] * alpha + as * source[4 * j + 1];
    of[to + 2] = slopes[k + 4] * of[at + 2] + slopes[k + 5] * alpha + as * source[4 * j + 2];
    of[to + 3] = slopes[k + 6] * alpha + as;
  };
  /** Whether steps made one are a pixel of one layer as it stands: the only one, or one that covers the others. */
  const isKept = (from: number, to: number): boolean => {
    const i = list[to - 1];
    if (kinds[i] !== NORMAL || opacities[i] < 1) return false;
    return to - from === 1 || source[4 * (to - 1) + 3] === 1;
  };

  return {
    result,
    parts: present,
    at(x, y) {
      const row = enter(y);
      place++;
      m = 0;
      general = false;
      known = false;
      present.count = 0;
      made[0] = made[1] = made[2] = made[3] = 0;
      for (let r = 0; r < row.count; r++) {
        const i = row.acts[r];
        if (groups[i] === 1) {
          leave(x, y);
          return;
        }
        const px = x - row.left[r];
        const inside = px >= 0 && px < row.width[r];
        const data = row.data[r];
        const at = row.start[r] + row.channels[r] * px;
        const unit = row.unit[r];
        const alpha = !inside ? 0 : row.channels[r] === 4 ? data![at + 3] * unit : 1;
        if (alpha === 0 && locals[i] === 1) continue;
        const kind = kinds[i];
        if (kind === 0) {
          leave(x, y);
          return;
        }
        const s = 4 * m;
        const as = alpha * opacities[i];
        const sr = data![at] * unit;
        const sg = data![at + 1] * unit;
        const sb = data![at + 2] * unit;
        source[s] = sr;
        source[s + 1] = sg;
        source[s + 2] = sb;
        source[s + 3] = alpha;
        list[m] = i;
        const k = ABOVE * m;
        const rest = 1 - as;
        slopes[k + 6] = rest;
        if (kind === NORMAL) {
          slopes[k] = slopes[k + 2] = slopes[k + 4] = rest;
          slopes[k + 1] = slopes[k + 3] = slopes[k + 5] = 0;
          made[s + 4] = rest * made[s] + as * sr;
          made[s + 5] = rest * made[s + 1] + as * sg;
          made[s + 6] = rest * made[s + 2] + as * sb;
          made[s + 7] = rest * made[s + 3] + as;
        } else {
          slope(kind, k, sr, as);
          slope(kind, k + 2, sg, as);
          slope(kind, k + 4, sb, as);
          meet(m, made, s, s + 4);
        }
        const chain = chains[i];
        for (let c = 0; c < chain.length; c++) {
          const part = chain[c];
          if (touchedAt[part] !== place) {
            touchedAt[part] = place;
            touched[present.count++] = part;
            starts[part] = m;
          }
          ends[part] = m + 1;
        }
        m++;
      }
      for (let c = 0; c < 4; c++) result[c] = made[4 * m + c];
    },
    painted: (part) => (general ? any.painted(part) : touchedAt[part] === place),
    backed: (part) => (general ? any.backed(part) : made[4 * starts[part] + 3] > 0),
    without(part, out) {
      if (general) return any.without(part, out);
      const from = 4 * starts[part];
      for (let c = 0; c < 4; c++) alone[c] = made[from + c];
      return carryOn(ends[part], out);
    },
    merged(first, last, depth, out) {
      if (general) return any.merged(first, last, depth, out);
      let from = 0;
      while (from < m && list[from] < parts[first].from) from++;
      let to = from;
      while (to < m && list[to] < parts[last].to) to++;
      if (from === to || isKept(from, to)) return false;
      alone.fill(0);
      for (let j = from; j < to; j++) meet(j, alone, 0, 0);
      const full = 2 ** depth - 1;
      const a = Math.round(alone[3] * full) / full;
      const by = alone[3] > 0 ? full / alone[3] : 0;
      for (let c = 0; c < 3; c++)
        alone[c] = (a * Math.round(Math.min(full, alone[c] * by))) / full + (1 - a) * made[4 * from + c];
      alone[3] = a + (1 - a) * made[4 * from + 3];
      return carryOn(to, out);
    },
  };
}
