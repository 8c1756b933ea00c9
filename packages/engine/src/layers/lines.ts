import { type PlaceRunner, placeRunner, SAME } from './place.ts';
import type { Program } from './program.ts';
import { rowsOf } from './rows.ts';
import { LINE_KINDS, NORMAL, slope } from './slope.ts';

/** Places that are made together. */
const PLACES = 16;
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
    kind === 'draw' && node.operator === 'source-over' ? (LINE_KINDS[node.blend] ?? 0) : 0,
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
  // Places of a row are made together, one layer after the other. Of each: the number of its steps, and which acts they
  // are; whether something else lies there.
  let [left, top] = [0, Number.NaN];
  const counts = new Int32Array(PLACES);
  const others = new Uint8Array(PLACES);
  /** Number of steps of the place that is looked at, its first step, and what stands before it. */
  let [m, first, bottom] = [0, 0, 0];
  const list = new Int32Array(PLACES * n);
  const slopes = new Float64Array(PLACES * ABOVE * n);
  const above = new Float64Array(ABOVE * (n + 1));
  const made = new Float64Array(PLACES * 4 * (n + 1));
  const source = new Float64Array(PLACES * 4 * n);
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
    const last = ABOVE * m;
    above[last] = above[last + 2] = above[last + 4] = above[last + 6] = 1;
    above[last + 1] = above[last + 3] = above[last + 5] = 0;
    for (let at = last - ABOVE, s = ABOVE * (first + m - 1); at >= 0; at -= ABOVE, s -= ABOVE) {
      const then = at + ABOVE;
      const alpha = slopes[s + 6];
      above[at] = above[then] * slopes[s];
      above[at + 1] = above[then] * slopes[s + 1] + above[then + 1] * alpha;
      above[at + 2] = above[then + 2] * slopes[s + 2];
      above[at + 3] = above[then + 2] * slopes[s + 3] + above[then + 3] * alpha;
      above[at + 4] = above[then + 4] * slopes[s + 4];
      above[at + 5] = above[then + 4] * slopes[s + 5] + above[then + 5] * alpha;
      above[at + 6] = above[then + 6] * alpha;
    }
  };
  /** What comes of the finished pixel when `alone` stands behind the step before `to`. */
  const carryOn = (to: number, out: Float64Array): boolean => {
    if (!known) lookUp();
    const at = ABOVE * to;
    const then = 4 * (bottom + to);
    const r = alone[0] - made[then];
    const g = alone[1] - made[then + 1];
    const b = alone[2] - made[then + 2];
    const a = alone[3] - made[then + 3];
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
  /** Step `j` of all meets the pixel at `at` of `of`; the result goes to `i` of `to`. */
  const meet = (j: number, of: Float64Array, at: number, to: Float64Array, i: number): void => {
    const k = ABOVE * j;
    const as = source[4 * j + 3] * opacities[list[j]];
    const alpha = of[at + 3];
    to[i] = slopes[k] * of[at] + slopes[k + 1] * alpha + as * source[4 * j];
    to[i + 1] = slopes[k + 2] * of[at + 1] + slopes[k + 3] * alpha + as * source[4 * j + 1];
    to[i + 2] = slopes[k + 4] * of[at + 2] + slopes[k + 5] * alpha + as * source[4 * j + 2];
    to[i + 3] = slopes[k + 6] * alpha + as;
  };
  /** Makes the places from `x0` on of a row. */
  const fill = (x0: number, y: number): void => {
    [left, top] = [x0, y];
    const row = enter(y);
    counts.fill(0);
    others.fill(0);
    for (let r = 0; r < row.count; r++) {
      const i = row.acts[r];
      const kind = kinds[i];
      // What is no line may change a place without paint on it; so may a group that is put together on its own.
      if (groups[i] === 1 || locals[i] === 0) {
        others.fill(1);
        return;
      }
      const data = row.data[r]!;
      const channels = row.channels[r];
      const unit = row.unit[r];
      const opacity = opacities[i];
      const from = Math.max(0, row.left[r] - x0);
      const to = Math.min(PLACES, row.left[r] + row.width[r] - x0);
      for (
        let p = from, at = row.start[r] + channels * (x0 + from - row.left[r]);
        p < to;
        p++, at += channels
      ) {
        const alpha = channels === 4 ? data[at + 3] * unit : 1;
        if (alpha === 0) continue;
        if (kind === 0) {
          others[p] = 1;
          continue;
        }
        const step = n * p + counts[p];
        const before = 4 * ((n + 1) * p + counts[p]++);
        const as = alpha * opacity;
        const rest = 1 - as;
        const r = data[at] * unit;
        const g = data[at + 1] * unit;
        const b = data[at + 2] * unit;
        const s = 4 * step;
        source[s] = r;
        source[s + 1] = g;
        source[s + 2] = b;
        source[s + 3] = alpha;
        list[step] = i;
        const k = ABOVE * step;
        slopes[k + 6] = rest;
        if (kind === NORMAL) {
          slopes[k] = slopes[k + 2] = slopes[k + 4] = rest;
          slopes[k + 1] = slopes[k + 3] = slopes[k + 5] = 0;
          made[before + 4] = rest * made[before] + as * r;
          made[before + 5] = rest * made[before + 1] + as * g;
          made[before + 6] = rest * made[before + 2] + as * b;
          made[before + 7] = rest * made[before + 3] + as;
        } else {
          slope(kind, slopes, k, r, as);
          slope(kind, slopes, k + 2, g, as);
          slope(kind, slopes, k + 4, b, as);
          meet(step, made, before, made, before + 4);
        }
      }
    }
  };
  /** Whether steps made one are a pixel of one layer as it stands: the only one, or one that covers the others. */
  const isKept = (from: number, to: number): boolean => {
    const i = list[first + to - 1];
    if (kinds[i] !== NORMAL || opacities[i] < 1) return false;
    return to - from === 1 || source[4 * (first + to - 1) + 3] === 1;
  };

  return {
    result,
    parts: present,
    at(x, y) {
      if (y !== top || x < left || x >= left + PLACES) fill(x - (x % PLACES), y);
      const p = x - left;
      place++;
      known = false;
      present.count = 0;
      general = others[p] === 1;
      if (general) {
        leave(x, y);
        return;
      }
      m = counts[p];
      first = n * p;
      bottom = (n + 1) * p;
      for (let j = 0; j < m; j++) {
        const chain = chains[list[first + j]];
        for (let c = 0; c < chain.length; c++) {
          const part = chain[c];
          if (touchedAt[part] !== place) {
            touchedAt[part] = place;
            touched[present.count++] = part;
            starts[part] = j;
          }
          ends[part] = j + 1;
        }
      }
      const at = 4 * (bottom + m);
      for (let c = 0; c < 4; c++) result[c] = made[at + c];
    },
    painted: (part) => (general ? any.painted(part) : touchedAt[part] === place),
    backed: (part) => (general ? any.backed(part) : made[4 * (bottom + starts[part]) + 3] > 0),
    without(part, out) {
      if (general) return any.without(part, out);
      const from = 4 * (bottom + starts[part]);
      for (let c = 0; c < 4; c++) alone[c] = made[from + c];
      return carryOn(ends[part], out);
    },
    merged(one, last, depth, out) {
      if (general) return any.merged(one, last, depth, out);
      let from = 0;
      while (from < m && list[first + from] < parts[one].from) from++;
      let to = from;
      while (to < m && list[first + to] < parts[last].to) to++;
      if (from === to || isKept(from, to)) return false;
      alone.fill(0);
      for (let j = from; j < to; j++) meet(first + j, alone, 0, alone, 0);
      const full = 2 ** depth - 1;
      const a = Math.round(alone[3] * full) / full;
      const by = alone[3] > 0 ? full / alone[3] : 0;
      for (let c = 0; c < 3; c++)
        alone[c] =
          (a * Math.round(Math.min(full, alone[c] * by))) / full + (1 - a) * made[4 * (bottom + from) + c];
      alone[3] = a + (1 - a) * made[4 * (bottom + from) + 3];
      return carryOn(to, out);
    },
  };
}
