import { isLocal, type Meet, meeting } from './meet.ts';
import type { LayerNode, PaintedLayer } from './stack.ts';

/**
 * One step of putting a picture together at a place. `open` and `close` enclose what is put together on its own:
 * the state is a pile of pixels, of which a step changes the upper one or two.
 */
export interface Act {
  readonly kind: 'draw' | 'open' | 'close';
  readonly meet: Meet | null;
  readonly layer: PaintedLayer | null;
  /** Where nothing is painted this step changes nothing. */
  readonly local: boolean;
  /** Pile height before it. */
  readonly level: number;
}

/** A visible node and the steps `from` up to, without, `to` that it is made of. */
export interface Part {
  readonly node: LayerNode;
  readonly from: number;
  readonly to: number;
  /** The group it is in, as an index into the parts; −1 at the bottom. */
  readonly parent: number;
}

export interface Program {
  readonly acts: readonly Act[];
  /** Groups stand before their children. */
  readonly parts: readonly Part[];
  readonly levels: number;
}

/** The steps of all visible layers, in order. */
export function programOf(nodes: readonly LayerNode[]): Program {
  const acts: Act[] = [];
  const parts: Part[] = [];
  let levels = 1;
  const add = (list: readonly LayerNode[], level: number, parent: number): void => {
    levels = Math.max(levels, level + 1);
    for (const node of list) {
      if (!node.visible) continue;
      const from = acts.length;
      const index = parts.length;
      parts.push({ node, from, to: from, parent });
      const local = isLocal(node.operator);
      if (node.kind === 'layer') acts.push({ kind: 'draw', meet: meeting(node), layer: node, local, level });
      else if (node.isolated) {
        acts.push({ kind: 'open', meet: null, layer: null, local: true, level });
        add(node.children, level + 1, index);
        acts.push({ kind: 'close', meet: meeting(node), layer: null, local, level: level + 1 });
      } else add(node.children, level, index);
      parts[index] = { node, from, to: acts.length, parent };
    }
  };
  add(nodes, 0, -1);
  return { acts, parts, levels };
}

/** The picture at one place after another: what stands there after every step, and what would without some. */
export interface PlaceRunner {
  /** Goes to a place and makes the picture there. */
  at(x: number, y: number): void;
  /** The finished pixel: straight code values and alpha. */
  readonly result: Float64Array;
  /** Whether the steps changed anything at this place. */
  changes(from: number, to: number): boolean;
  /** Whether a layer of the steps has paint at this place. */
  painted(from: number, to: number): boolean;
  /** Whether anything stands at this place before a step. */
  backed(from: number): boolean;
  /**
   * The finished pixel without the steps `from` up to `to`, in `out`; false when it is the same. Stops as soon as
   * the state is the one that stood there anyway, as under an opaque layer.
   */
  without(from: number, to: number, out: Float64Array): boolean;
  /** The finished pixel with the steps `from` up to `to` made into one normal layer of `depth` bits first. */
  merged(from: number, to: number, depth: 8 | 16, out: Float64Array): boolean;
}

export function placeRunner({ acts, levels }: Program): PlaceRunner {
  const size = 4 * levels;
  const states = new Float64Array(size * (acts.length + 1));
  const state = new Float64Array(size);
  const alone = new Float64Array(size);
  const paint = new Float64Array(4 * acts.length);
  const changed = new Uint8Array(acts.length);
  const over = meeting({ blend: 'normal', operator: 'source-over', opacity: 1 });

  const act = (pile: Float64Array, i: number): void => {
    const { kind, meet, level, local } = acts[i];
    if (kind === 'draw') {
      const a = paint[4 * i + 3];
      if (a > 0 || !local) meet!(pile, 4 * level, paint[4 * i], paint[4 * i + 1], paint[4 * i + 2], a);
    } else if (kind === 'open') pile.fill(0, 4 * level + 4, 4 * level + 8);
    else {
      const t = 4 * level;
      meet!(pile, t - 4, pile[t], pile[t + 1], pile[t + 2], pile[t + 3]);
      pile.fill(0, t, t + 4);
    }
  };
  const isAsAfter = (pile: Float64Array, i: number): boolean => {
    const top =
      4 *
      (acts[i].kind === 'open'
        ? acts[i].level + 2
        : acts[i].kind === 'close'
          ? acts[i].level
          : acts[i].level + 1);
    for (let k = 0, at = size * (i + 1); k < top; k++)
      if (Math.abs(pile[k] - states[at + k]) > SAME) return false;
    return true;
  };
  /** Carries on from step `from`; false as soon as everything is as it was. */
  const carryOn = (from: number, out: Float64Array): boolean => {
    if (from > 0 && isAsAfter(state, from - 1)) return false;
    for (let i = from; i < acts.length; i++) {
      if (acts[i].local && acts[i].kind === 'draw' && paint[4 * i + 3] === 0) continue;
      act(state, i);
      if (isAsAfter(state, i)) return false;
    }
    for (let c = 0; c < 4; c++) out[c] = state[c];
    return true;
  };
  const result = new Float64Array(4);
  return {
    result,
    at(x, y) {
      state.fill(0);
      for (let i = 0; i < acts.length; i++) {
        const { layer } = acts[i];
        if (layer) takePaint(layer, x, y, paint, 4 * i);
        act(state, i);
        let differs = 0;
        for (let k = 0, at = size * i; k < size; k++) {
          states[at + size + k] = state[k];
          if (Math.abs(state[k] - states[at + k]) > SAME) differs = 1;
        }
        changed[i] = differs;
      }
      for (let c = 0; c < 4; c++) result[c] = state[c];
    },
    painted(from, to) {
      for (let i = from; i < to; i++) if (paint[4 * i + 3] > 0) return true;
      return false;
    },
    backed(from) {
      for (let k = 3, at = size * from; k < size; k += 4) if (states[at + k] > 0) return true;
      return false;
    },
    changes(from, to) {
      for (let i = from; i < to; i++) if (changed[i]) return true;
      return false;
    },
    without(from, to, out) {
      for (let k = 0; k < size; k++) state[k] = states[size * from + k];
      return carryOn(to, out);
    },
    merged(from, to, depth, out) {
      const base = acts[from].level;
      alone.fill(0);
      for (let i = from; i < to; i++) act(alone, i);
      const full = 2 ** depth - 1;
      const t = 4 * base;
      for (let c = 0; c < 4; c++) alone[t + c] = Math.round(alone[t + c] * full) / full;
      for (let k = 0; k < size; k++) state[k] = states[size * from + k];
      over(state, t, alone[t], alone[t + 1], alone[t + 2], alone[t + 3]);
      return carryOn(to, out);
    },
  };
}

/** Differences below this are rounding of the arithmetic, far below a 16-bit step. */
const SAME = 1e-9;

function takePaint(
  { raster, x, y }: PaintedLayer,
  u: number,
  v: number,
  out: Float64Array,
  at: number,
): void {
  const px = u - x;
  const py = v - y;
  out[at + 3] = 0;
  if (px < 0 || py < 0 || px >= raster.width || py >= raster.height) return;
  const { channels, data } = raster;
  const full = raster.depth === 8 ? 255 : 65535;
  const i = channels * (py * raster.width + px);
  const a = channels === 4 ? data[i + 3] : full;
  if (a === 0) return;
  out[at] = data[i] / full;
  out[at + 1] = data[i + 1] / full;
  out[at + 2] = data[i + 2] / full;
  out[at + 3] = a / full;
}
