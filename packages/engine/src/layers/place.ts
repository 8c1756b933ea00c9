import { follow, joinLines, LINE, type Liner, linerOf, noLine } from './affine.ts';
import type { Program } from './program.ts';
import { rowsOf } from './rows.ts';
import { meetStraight, straighten, straightenAt } from './straight.ts';

/**
 * The picture at one place after another: the finished pixel, and what it would be without a part.
 *
 * Pixels are colour times alpha and alpha, 0…1. At a place only the steps count that have paint there; they are
 * numbered from 0, and what they make is kept after each. Above every step the rest of its group is one line as far as
 * modes allow it (`affine.ts`), so that leaving one out costs the same however many stand above.
 */
export interface PlaceRunner {
  /** Goes to a place and makes the picture there; places are fastest in the order of rows. */
  at(x: number, y: number): void;
  /** The finished pixel. */
  readonly result: Float64Array;
  /** Number of parts that have steps at this place, and which. */
  readonly parts: { readonly count: number; readonly list: Int32Array };
  /** Whether a layer of the part has paint at this place. */
  painted(part: number): boolean;
  /** Whether anything stands at this place before the part. */
  backed(part: number): boolean;
  /** The finished pixel without a part that has steps here, in `out`; false when it is the same. */
  without(part: number, out: Float64Array): boolean;
  /**
   * The finished pixel with the neighbours `first` to `last`, parts of one group, made into one normal layer of `depth`
   * bits first; false when it is the same.
   */
  merged(first: number, last: number, depth: 8 | 16, out: Float64Array): boolean;
}

/** Differences below this are rounding of the arithmetic, far below a 16-bit step. */
export const SAME = 1e-9;

export function placeRunner(program: Program): PlaceRunner {
  const { acts, parts } = program;
  const n = acts.length;
  const liners: (Liner | null)[] = acts.map(({ kind, node }) => (kind === 'open' ? null : linerOf(node)));
  // Steps at the place: which act; the open step of a close and the other way round; that of the group a step is in; the line above it and
  // where that ends; its own line; what it makes, one further on, so that 0 is before everything.
  let m = 0;
  const list = new Int32Array(n);
  const opens = new Int32Array(n);
  const closings = new Int32Array(n);
  const inside = new Int32Array(n);
  const stops = new Int32Array(n + 1);
  const own = new Float64Array(LINE * n);
  const above = new Float64Array(LINE * (n + 1));
  const made = new Float64Array(4 * (n + 1));
  const source = new Float64Array(4 * n);
  // Parts at the place and their steps.
  const touched = new Int32Array(parts.length);
  const touchedAt = new Float64Array(parts.length).fill(-1);
  const paintedAt = new Float64Array(parts.length).fill(-1);
  const starts = new Int32Array(parts.length);
  const ends = new Int32Array(parts.length);
  const present = { count: 0, list: touched };
  let place = 0;
  const state = new Float64Array(4);
  const alone = new Float64Array(4);
  const straight = new Float64Array(4);
  const result = new Float64Array(4);
  const enter = rowsOf(program);
  const pile = new Int32Array(n + 1);

  const touch = (part: number, from: number, to: number): void => {
    if (touchedAt[part] !== place) {
      touchedAt[part] = place;
      touched[present.count++] = part;
      starts[part] = from;
    }
    ends[part] = to;
  };
  /** A group that is not put together on its own reaches over the steps of what is in it. */
  const touchOpenGroups = (part: number, from: number, to: number): void => {
    for (let k = parts[part].parent; k >= 0; k = parts[k].parent) {
      const { node } = parts[k];
      if (node.kind === 'group' && node.isolated) return;
      touch(k, from, to);
    }
  };
  /** Step `j` meets the pixel that stands at `at` of `of`. */
  const meet = (j: number, of: Float64Array, at: number): void => {
    const i = list[j];
    if (liners[i]) follow(own, LINE * j, of, at);
    else meetStraight(acts[i].meet!, source, 4 * j, of, at, straight);
  };
  /** Whether steps made one are a pixel of one layer as it stands: the only one, or one that covers the others. */
  const isKept = (from: number, to: number): boolean => {
    const { kind, node } = acts[list[to - 1]];
    if (kind !== 'draw' || node.opacity < 1) return false;
    if (node.blend !== 'normal' || node.operator !== 'source-over') return false;
    return to - from === 1 || source[4 * (to - 1) + 3] === 1;
  };
  /** Carries the state on from behind step `j`; false as soon as it is what was made anyway. */
  const carryOn = (j: number, out: Float64Array): boolean => {
    let step = j;
    for (;;) {
      if (isMade(state, made, 4 * (step + 1))) return false;
      follow(above, LINE * (step + 1), state, 0);
      const stop = stops[step + 1];
      if (stop === m) break;
      const i = list[stop];
      const closes = acts[i].kind === 'close';
      const group = acts[list[step]].kind === 'open' ? step : inside[step];
      const leaves = closes && opens[stop] === group;
      if (isMade(state, made, 4 * (closes && !leaves ? opens[stop] : stop))) return false;
      if (leaves) {
        // What the group is now meets what stood before it.
        for (let c = 0; c < 4; c++) {
          alone[c] = state[c];
          state[c] = made[4 * opens[stop] + c];
        }
        straighten(alone);
        meetStraight(acts[i].meet!, alone, 0, state, 0, straight);
      } else meet(stop, state, 0);
      step = stop;
    }
    let differs = false;
    for (let c = 0; c < 4; c++) {
      out[c] = state[c];
      if (Math.abs(state[c] - result[c]) > SAME) differs = true;
    }
    return differs;
  };

  return {
    result,
    parts: present,
    at(x, y) {
      const row = enter(y);
      place++;
      m = 0;
      present.count = 0;
      let group = -1;
      let depth = 0;
      for (let r = 0; r < row.count; r++) {
        const i = row.acts[r];
        const { kind, part, local } = acts[i];
        if (kind === 'open') {
          pile[depth++] = group;
          group = m;
          list[m] = i;
          inside[m] = pile[depth - 1];
          made.fill(0, 4 * m + 4, 4 * m + 8);
          m++;
          continue;
        }
        const s = 4 * m;
        if (kind === 'draw') {
          const px = x - row.left[r];
          let a = 0;
          if (px >= 0 && px < row.width[r]) {
            const data = row.data[r]!;
            const at = row.start[r] + row.channels[r] * px;
            a = row.channels[r] === 4 ? data[at + 3] * row.unit[r] : 1;
            if (a > 0) {
              source[s] = data[at] * row.unit[r];
              source[s + 1] = data[at + 1] * row.unit[r];
              source[s + 2] = data[at + 2] * row.unit[r];
              for (let k = part; k >= 0 && paintedAt[k] !== place; k = parts[k].parent) paintedAt[k] = place;
            }
          }
          if (a === 0) {
            if (local) continue;
            source[s] = 0;
            source[s + 1] = 0;
            source[s + 2] = 0;
          }
          source[s + 3] = a;
          inside[m] = group;
          for (let c = 0; c < 4; c++) made[s + 4 + c] = made[s + c];
          touch(part, m, m + 1);
        } else {
          const opened = group;
          depth--;
          group = pile[depth];
          if (opened === m - 1 && local) {
            m--;
            continue;
          }
          for (let c = 0; c < 4; c++) {
            source[s + c] = made[s + c];
            made[s + 4 + c] = made[4 * opened + c];
          }
          straightenAt(source, s);
          opens[m] = opened;
          closings[opened] = m;
          inside[m] = group;
          touch(part, opened, m + 1);
        }
        list[m] = i;
        const liner = liners[i];
        if (liner) liner(own, LINE * m, source[s], source[s + 1], source[s + 2], source[s + 3]);
        meet(m, made, s + 4);
        touchOpenGroups(part, starts[part], m + 1);
        m++;
      }
      for (let c = 0; c < 4; c++) result[c] = made[4 * m + c];
      // From the top down: what stands above each step as one line. `above[j]` is behind step j − 1.
      noLine(above, LINE * m);
      stops[m] = m;
      for (let j = m - 1; j >= 0; j--) {
        const { kind } = acts[list[j]];
        const at = LINE * j;
        // Behind step j − 1, on its level, step j comes next; a group there meets it with its last step.
        const next = kind === 'open' ? closings[j] : j;
        if (kind === 'close' || !liners[list[next]]) {
          noLine(above, at);
          stops[j] = next;
        } else {
          joinLines(above, at, own, LINE * next, above, LINE * (next + 1));
          stops[j] = stops[next + 1];
        }
      }
    },
    painted: (part) => paintedAt[part] === place,
    backed(part) {
      for (let j = starts[part]; ; ) {
        if (made[4 * j + 3] > 0) return true;
        j = j < m ? inside[j] : -1;
        if (j < 0) return false;
      }
    },
    without(part, out) {
      const [from, to] = [starts[part], ends[part]];
      for (let c = 0; c < 4; c++) state[c] = made[4 * from + c];
      return carryOn(to - 1, out);
    },
    merged(first, last, depth, out) {
      let [from, to] = [-1, -1];
      for (let k = 0; k < present.count; k++) {
        const part = touched[k];
        if (part < first || parts[part].from >= parts[last].to) continue;
        if (from < 0 || starts[part] < from) from = starts[part];
        if (ends[part] > to) to = ends[part];
      }
      if (from < 0 || isKept(from, to)) return false;
      alone.fill(0);
      for (let j = from; j < to; j++) {
        // A group in it meets with its last step.
        if (acts[list[j]].kind === 'open') j = closings[j];
        meet(j, alone, 0);
      }
      straighten(alone);
      const full = 2 ** depth - 1;
      for (let c = 0; c < 4; c++) alone[c] = Math.round(alone[c] * full) / full;
      const a = alone[3];
      for (let c = 0; c < 3; c++) state[c] = a * alone[c] + (1 - a) * made[4 * from + c];
      state[3] = a + (1 - a) * made[4 * from + 3];
      return carryOn(to - 1, out);
    },
  };
}

function isMade(state: Float64Array, made: Float64Array, at: number): boolean {
  for (let c = 0; c < 4; c++) if (Math.abs(state[c] - made[at + c]) > SAME) return false;
  return true;
}
