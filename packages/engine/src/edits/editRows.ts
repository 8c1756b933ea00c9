import { rowsAt } from '../areas/guidedFilter.ts';
import { fromSrgb } from '../colour/gamut.ts';
import { gamutMapper } from '../colour/gamutMapper.ts';
import { oklabInto } from '../colour/oklab.ts';
import type { ColourSpace } from '../colour/space.ts';
import { fastEncoder, linearTables } from '../colour/transfer.ts';
import type { Raster } from '../views/raster.ts';
import type { ReadyRecipe } from './compile.ts';
import { ditherAt } from './dither.ts';
import { type Coverage, eightBitRows, MOST_AREAS } from './eightBitRows.ts';

export interface EditTarget {
  readonly space: ColourSpace;
  readonly depth: 8 | 16;
}

/** Remembered colours where 16 bits take part: paintings repeat themselves, and a direct look-up is exact. */
const REMEMBERED = 1 << 16;
/**
 * Covers this near to none or to all are none or all: edges that follow the painting leave traces of an area
 * everywhere, which nobody sees and which would keep colours from being remembered.
 */
const TRACE = 1 / 512;

/**
 * Prepares the full-size edit: the kernel itself at full depth, row by row, so that strips can go to any worker.
 *
 * Pixels that no step touches keep their code values exactly when space and depth stay the same: no mapping, no
 * dither. Alpha is kept.
 *
 * @returns a function that writes rows [from, to) to the start of `out` (interleaved, the raster's channels)
 */
export function rowEditor(
  ready: ReadyRecipe,
  raster: Raster,
  target: EditTarget,
): (from: number, to: number, out: Uint8Array | Uint16Array) => void {
  const { width, height, channels, data, space, depth } = raster;
  const tables = linearTables(space, depth);
  const keeps = target.space === space && target.depth === depth;
  const into = fromSrgb(target.space);
  const hold = gamutMapper(target.space);
  const encoders = target.space.curves.map(fastEncoder);
  const max = 2 ** target.depth - 1;
  const stretch = max / (2 ** depth - 1);
  const dithered = target.depth === 8;
  const fills = ready.areas.map((fit) => rowsAt(fit, width, height));
  const lines = fills.map(() => new Float32Array(width));
  const guide = new Float64Array(fills.length > 0 ? 3 * width : 0);
  const covers = new Float64Array(fills.length);
  const one = new Float64Array(3);
  const code = new Float64Array(3);

  /** Light of pixel `i` in linear sRGB, to `one`. */
  const readLight = (i: number): void => {
    const r = tables[0][data[i]];
    const g = tables[1][data[i + 1]];
    const b = tables[2][data[i + 2]];
    const m = space.toSrgb;
    one[0] = m[0] * r + m[1] * g + m[2] * b;
    one[1] = m[3] * r + m[4] * g + m[5] * b;
    one[2] = m[6] * r + m[7] * g + m[8] * b;
  };
  /** Edited code values of pixel `i`, not yet rounded, to `code`; false when the pixel keeps its own. */
  const editPixel = (i: number): boolean => {
    readLight(i);
    const changed = ready.edit(one, 0, covers, 0);
    if (!changed && keeps) return false;
    hold(one, 0);
    for (let c = 0; c < 3; c++) {
      const own = into[3 * c] * one[0] + into[3 * c + 1] * one[1] + into[3 * c + 2] * one[2];
      code[c] = max * encoders[c](own);
    }
    return true;
  };

  const coverage: Coverage = {
    areas: fills.length,
    row: (y) => {
      if (fills.length === 0) return;
      for (let x = 0; x < width; x++) {
        readLight(channels * (y * width + x));
        oklabInto(guide, 3 * x, one[0], one[1], one[2]);
      }
      for (let k = 0; k < fills.length; k++) fills[k](guide, y, lines[k]);
    },
    at: (x) => {
      let cover = 0;
      for (let k = 0; k < lines.length; k++) {
        const part = lines[k][x];
        covers[k] = part < TRACE ? 0 : part > 1 - TRACE ? 1 : part;
        cover = covers[k] === 0 ? cover : covers[k] === 1 && cover >= 0 ? cover | (1 << k) : -1;
      }
      return cover;
    },
  };
  const few = fills.length <= MOST_AREAS;
  if (few && depth === 8 && dithered) return eightBitRows(raster, { edit: editPixel, code }, coverage);
  const memory = few ? openMemory() : null;

  return (from, to, out) => {
    let o = 0;
    for (let y = from; y < to; y++) {
      coverage.row(y);
      for (let x = 0, i = channels * y * width; x < width; x++, i += channels, o += channels) {
        const cover = coverage.at(x);
        const changed = memory && cover >= 0 ? memory(data, i, cover, code, editPixel) : editPixel(i);
        const nudge = changed && dithered ? ditherAt(x, y) : 0;
        for (let c = 0; c < 3; c++)
          out[o + c] = changed ? Math.min(max, Math.max(0, Math.round(code[c] + nudge))) : data[i + c];
        if (channels === 4) out[o + 3] = Math.round(data[i + 3] * stretch);
      }
    }
  };
}

type Remember = (
  data: Uint8Array | Uint16Array,
  i: number,
  cover: number,
  code: Float64Array,
  edit: (i: number) => boolean,
) => boolean;

/** Looks a colour and what covers it up before editing it; one place per hash, the newest stays. */
function openMemory(): Remember {
  const keys = new Float64Array(REMEMBERED).fill(-1);
  const codes = new Float64Array(3 * REMEMBERED);
  const changes = new Uint8Array(REMEMBERED);
  return (data, i, cover, code, edit) => {
    const key = ((cover * 65536 + data[i]) * 65536 + data[i + 1]) * 65536 + data[i + 2];
    const at =
      (cover * 12289 + data[i] * 2654435 + data[i + 1] * 40503 + data[i + 2] * 97) & (REMEMBERED - 1);
    if (keys[at] !== key) {
      changes[at] = edit(i) ? 1 : 0;
      keys[at] = key;
      codes[3 * at] = code[0];
      codes[3 * at + 1] = code[1];
      codes[3 * at + 2] = code[2];
    } else if (changes[at]) {
      code[0] = codes[3 * at];
      code[1] = codes[3 * at + 1];
      code[2] = codes[3 * at + 2];
    }
    return changes[at] === 1;
  };
}

/** The whole edit of a raster in one go, for small pictures and tests. */
export function editRaster(ready: ReadyRecipe, raster: Raster, target: EditTarget): Raster {
  const length = raster.width * raster.height * raster.channels;
  const data = target.depth === 8 ? new Uint8Array(length) : new Uint16Array(length);
  rowEditor(ready, raster, target)(0, raster.height, data);
  return { ...raster, data, depth: target.depth, space: target.space };
}
