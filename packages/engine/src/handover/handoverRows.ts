import { fromSrgb } from '../colour/gamut.ts';
import { transform } from '../colour/matrix.ts';
import type { ColourSpace } from '../colour/space.ts';
import { fastEncoder, linearTables, srgbToLinear } from '../colour/transfer.ts';
import type { ReadyRecipe } from '../edits/compile.ts';
import { ditherAt } from '../edits/dither.ts';
import { rowEditor } from '../edits/editRows.ts';
import type { Raster } from '../views/raster.ts';
import { type LightRow, resizedRows } from './lanczos.ts';
import type { SizePlan } from './sizePlan.ts';

/** What the rows of a file are made for. */
export interface RowsTarget {
  readonly space: ColourSpace;
  readonly depth: 8 | 16;
  /** 0…100 %, after a change of size. */
  readonly sharpen: number;
  /** sRGB "#rrggbb". */
  readonly ground: string;
  /** True where the file will have no transparency: the ground shows through. */
  readonly opaque: boolean;
  /** False where it is known that the recipe does nothing: the picture's own codes are then read as they are. */
  readonly edits?: boolean;
}

/** Rows of the file, and how many channels they have. */
export interface HandoverRows {
  readonly channels: 3 | 4;
  /** Writes rows y … y + count to `out`; in rising order, or from the top again. */
  readonly write: (y: number, count: number, out: Uint8Array | Uint16Array) => void;
}

/**
 * The edited picture in the size of its file, row after row: the edit's own kernel at full size, then, where the size
 * changes, linear light through the filter. A picture in its own size is the edit itself, code for code.
 */
export function handoverRows(
  ready: ReadyRecipe,
  raster: Raster,
  plan: SizePlan,
  target: RowsTarget,
): HandoverRows {
  const { space, depth, sharpen } = target;
  if (plan.asPainted && !(target.opaque && raster.channels === 4)) {
    const edit = rowEditor(ready, raster, { space, depth });
    return { channels: raster.channels, write: (y, count, out) => edit(y, y + count, out) };
  }
  const light = lightRows(ready, raster, plan, target);
  const { channels } = light;
  const encoders = space.curves.map(fastEncoder);
  const max = 2 ** depth - 1;
  const { width, height } = plan;
  const coded: LightRow = (y, out) => {
    light.row(y, out);
    for (let i = 0; i < out.length; i += channels) {
      const alpha = channels === 4 ? Math.min(1, Math.max(0, out[i + 3])) : 1;
      for (let c = 0; c < 3; c++) out[i + c] = alpha > 0 ? max * encoders[c](out[i + c] / alpha) : 0;
      if (channels === 4) out[i + 3] = max * alpha;
    }
  };
  const crisp =
    sharpen > 0 && !plan.asPainted ? sharpened(coded, width, height, channels, sharpen / 100) : coded;
  const line = new Float64Array(channels * width);
  return {
    channels,
    write(y, count, out) {
      for (let k = 0, o = 0; k < count; k++) {
        crisp(y + k, line);
        for (let i = 0; i < line.length; i++, o++) {
          const colour = channels === 3 || i % 4 < 3;
          const nudge = depth === 8 && colour ? ditherAt(Math.floor(i / channels), y + k) : 0;
          const v = line[i];
          // Both ends stay as they are: a white ground with single greyer pixels would look dirty.
          out[o] = v <= 0 ? 0 : v >= max ? max : Math.min(max, Math.max(0, Math.round(v + nudge)));
        }
      }
    },
  };
}

/**
 * The same as linear light in the primaries of `target.space`, premultiplied: what a conversion to inks begins with.
 */
export function lightRows(
  ready: ReadyRecipe,
  raster: Raster,
  plan: SizePlan,
  { space, ground, opaque, edits = true }: Pick<RowsTarget, 'space' | 'ground' | 'opaque' | 'edits'>,
): { readonly channels: 3 | 4; readonly row: LightRow } {
  const { channels: planes } = raster;
  const untouched = !edits && space === raster.space;
  const depth = untouched ? raster.depth : 16;
  const edit = untouched ? null : rowEditor(ready, raster, { space, depth });
  const length = planes * raster.width;
  const edited = new Uint16Array(edit ? length : 0);
  const full = 2 ** depth - 1;
  const [red, green, blue] = linearTables(space, depth);
  const row: LightRow = (y, out) => {
    edit?.(y, y + 1, edited);
    const codes = edit ? edited : raster.data.subarray(length * y, length * (y + 1));
    if (planes === 3)
      for (let i = 0; i < length; i += 3) {
        out[i] = red[codes[i]];
        out[i + 1] = green[codes[i + 1]];
        out[i + 2] = blue[codes[i + 2]];
      }
    else
      for (let i = 0; i < length; i += 4) {
        const alpha = codes[i + 3] / full;
        out[i] = alpha * red[codes[i]];
        out[i + 1] = alpha * green[codes[i + 1]];
        out[i + 2] = alpha * blue[codes[i + 2]];
        out[i + 3] = alpha;
      }
  };
  const { place, part } = plan;
  const painted = plan.asPainted
    ? row
    : resizedRows(
        { width: raster.width, height: raster.height, planes, row },
        part,
        place.width,
        place.height,
      );
  const paper = groundLight(ground, space);
  const fills = place.width < plan.width || place.height < plan.height;
  const channels = planes === 4 && !opaque && !fills ? 4 : 3;
  const inner = new Float64Array(planes * place.width);
  return {
    channels,
    row(y, out) {
      const inside = y >= place.y && y < place.y + place.height;
      if (fills) for (let i = 0; i < out.length; i++) out[i] = paper[i % 3];
      if (!inside) return;
      painted(y - place.y, inner);
      for (let x = 0; x < place.width; x++) {
        const at = channels * (place.x + x);
        const rest = planes === 4 && channels === 3 ? 1 - Math.min(1, Math.max(0, inner[4 * x + 3])) : 0;
        for (let c = 0; c < 3; c++) out[at + c] = inner[planes * x + c] + rest * paper[c];
        if (channels === 4) out[at + 3] = inner[4 * x + 3];
      }
    },
  };
}

/** Linear light of the ground in the primaries of a space, held inside it. */
function groundLight(hex: string, space: ColourSpace): [number, number, number] {
  const part = (k: number): number => srgbToLinear(Number.parseInt(hex.slice(k, k + 2), 16) / 255);
  const own = transform(fromSrgb(space), [part(1), part(3), part(5)]);
  // Rounded entries of the matrices leave white a hair below 1.
  return own.map((v) => (Math.abs(1 - v) < 1e-6 ? 1 : Math.min(1, Math.max(0, v)))) as [
    number,
    number,
    number,
  ];
}

/**
 * Unsharp mask on what the three channels share, so that edges get no coloured rims: the difference to a binomial
 * blur of 3 × 3 places, times `amount`.
 */
function sharpened(row: LightRow, width: number, height: number, planes: 3 | 4, amount: number): LightRow {
  const kept = [0, 1, 2].map(() => ({
    y: -1,
    line: new Float64Array(planes * width),
    mean: new Float64Array(width),
  }));
  const get = (y: number) => {
    const held = kept[y % 3];
    if (held.y !== y) {
      row(y, held.line);
      held.y = y;
      for (let x = 0, i = 0; x < width; x++, i += planes)
        held.mean[x] = (held.line[i] + held.line[i + 1] + held.line[i + 2]) / 3;
    }
    return held;
  };
  return (y, out) => {
    const above = get(Math.max(0, y - 1)).mean;
    const here = get(y);
    const below = get(Math.min(height - 1, y + 1)).mean;
    const sum = (x: number): number => above[x] + 2 * here.mean[x] + below[x];
    for (let x = 0, i = 0; x < width; x++, i += planes) {
      const blur = (sum(Math.max(0, x - 1)) + 2 * sum(x) + sum(Math.min(width - 1, x + 1))) / 16;
      const add = amount * (here.mean[x] - blur);
      for (let c = 0; c < 3; c++) out[i + c] = here.line[i + c] + add;
      if (planes === 4) out[i + 3] = here.line[i + 3];
    }
  };
}
