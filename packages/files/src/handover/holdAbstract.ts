import { type Recipe, stepRunner, tableSteps } from '@halflight/engine';
import { ascii, viewOf } from '../container/bytes.ts';
import { labInto, lightInto } from './lab.ts';

/** Every so many places of the table are held against the edit. */
const STRIDE = 4;
/** What rounding to codes may leave, in units of CIELAB. */
const LEFT = 0.25;

/**
 * Whether an abstract profile holds an edit: its table is found by the tags and followed from a colour's code through
 * curve and table to a colour, which must be the one that the edit makes.
 *
 * Source: ICC.1:2010, sections 7.2 (header), 7.3 (tag table), 10.10 (lut16Type), 6.3.4.2 (its coding of CIELAB).
 */
export function holdsEdit(bytes: Uint8Array, recipe: Recipe): boolean {
  const view = viewOf(bytes);
  if (view.getUint32(0) !== bytes.length || ascii(bytes, 36, 4) !== 'acsp') return false;
  if (ascii(bytes, 12, 12) !== 'abstLab Lab ') return false;
  const tag = Array.from({ length: view.getUint32(128) }, (_, k) => 132 + 12 * k).find(
    (at) => ascii(bytes, at, 4) === 'A2B0',
  );
  if (tag === undefined) return false;
  const table = openTable(view, view.getUint32(tag + 4), view.getUint32(tag + 8));
  if (table === null) return false;
  const { side, codeAt, colourAt } = table;
  const { held } = tableSteps(recipe);
  const run = stepRunner(
    held.steps,
    held.steps.map(() => null),
  );
  const codes = [0, 1, 2].map((c) => Array.from({ length: side }, (_, place) => codeAt(c, place)));
  const light = new Float64Array(3);
  const meant = new Float64Array(3);
  for (let i = 0; i < side; i += STRIDE)
    for (let j = 0; j < side; j += STRIDE)
      for (let k = 0; k < side; k += STRIDE) {
        labOf(codes[0][i], codes[1][j], codes[2][k], meant);
        lightInto(light, 0, meant[0], meant[1], meant[2]);
        if (run(light, 0, NONE, 0) && light.every(Number.isFinite))
          labInto(meant, 0, light[0], light[1], light[2]);
        const [l, a, b] = colourAt(i, j, k);
        if (!near(l / 652.8, meant[0], 0, 65535 / 652.8)) return false;
        if (!near(a / 256 - 128, meant[1], -128, 127.996) || !near(b / 256 - 128, meant[2], -128, 127.996))
          return false;
      }
  return true;
}

const NONE = new Float64Array(0);

/** CIELAB of codes of 16 bits in the older coding: 65280 is L* 100, 32768 is grey. */
function labOf(l: number, a: number, b: number, out: Float64Array): void {
  out[0] = l / 652.8;
  out[1] = a / 256 - 128;
  out[2] = b / 256 - 128;
}

const near = (read: number, meant: number, low: number, high: number): boolean =>
  Math.abs(read - Math.min(high, Math.max(low, meant))) <= LEFT;

/** A table of three channels; null when it is of another kind or goes beyond its tag. */
function openTable(view: DataView, at: number, length: number) {
  if (at + length > view.byteLength || view.getUint32(at) !== 0x6d667432) return null;
  const [inputs, outputs, side] = [8, 9, 10].map((k) => view.getUint8(at + k));
  const [entries, ends] = [view.getUint16(at + 48), view.getUint16(at + 50)];
  const first = at + 52;
  const body = first + 6 * entries;
  if (inputs !== 3 || outputs !== 3 || length !== 52 + 2 * (3 * entries + 3 * side ** 3 + 3 * ends))
    return null;
  const curve = (c: number, code: number): number => {
    const x = (code * (entries - 1)) / 65535;
    const k = Math.min(entries - 2, Math.floor(x));
    const [low, high] = [0, 1].map((d) => view.getUint16(first + 2 * (c * entries + k + d)));
    return low + (high - low) * (x - k);
  };
  // What comes out is the colour itself: curves from end to end.
  const straight = [0, 1, 2].every(
    (c) =>
      view.getUint16(body + 6 * side ** 3 + 4 * c) === 0 &&
      view.getUint16(body + 6 * side ** 3 + 4 * c + 2) === 65535,
  );
  if (ends !== 2 || !straight) return null;
  return {
    side,
    /** The code whose curve leads to a place of the table, found by halving. */
    codeAt(c: number, place: number): number {
      let [low, high] = [0, 65535];
      for (let k = 0; k < 40; k++) {
        const middle = (low + high) / 2;
        if (curve(c, middle) < (65535 * place) / (side - 1)) low = middle;
        else high = middle;
      }
      return (low + high) / 2;
    },
    colourAt: (i: number, j: number, k: number): number[] =>
      [0, 1, 2].map((c) => view.getUint16(body + 6 * (k + side * (j + side * i)) + 2 * c)),
  };
}
