import { linearTables } from '../colour/transfer.ts';
import type { Raster } from './raster.ts';
import type { View } from './view.ts';

/** Largest number of pixels in the close view. */
export const CLOSE_PIXELS = 1_500_000;

/**
 * The close view: every place is the mean of the pixels it covers, in linear light, weighted by alpha.
 * A picture that is small enough is only made linear.
 */
export function makeCloseView(raster: Raster, limit = CLOSE_PIXELS): View {
  const { width: w, height: h } = raster;
  const scale = Math.min(1, Math.sqrt(limit / (w * h)));
  const cw = Math.max(1, Math.floor(w * scale));
  const ch = Math.max(1, Math.floor(h * scale));
  const alpha = raster.channels === 4;
  const planes = alpha ? 4 : 3;
  const sums = new Float64Array(cw * ch * planes);
  const row = new Float64Array(cw * planes);
  const tables = linearTables(raster.space, raster.depth);
  const stepY = h / ch;

  for (let y = 0; y < h; y++) {
    row.fill(0);
    if (alpha) averageRowAlpha(raster, y, tables, row, cw);
    else averageRow(raster, y, tables, row, cw);
    // A row that lies across the border of two places gives each its part.
    const j = Math.min(ch - 1, Math.floor(y / stepY));
    const first = Math.min(1, Math.max(0, (j + 1) * stepY - y));
    addRow(sums, j, row, j === ch - 1 ? 1 : first);
    if (first < 1 && j < ch - 1) addRow(sums, j + 1, row, 1 - first);
  }
  return finish(sums, cw, ch, planes, (w / cw) * stepY, raster.space.toSrgb, cw / w);
}

function addRow(sums: Float64Array, j: number, row: Float64Array, weight: number): void {
  const base = j * row.length;
  for (let i = 0; i < row.length; i++) sums[base + i] += weight * row[i];
}

/** Sums one row of opaque pixels into `cw` places. */
function averageRow(
  raster: Raster,
  y: number,
  tables: readonly Float64Array[],
  row: Float64Array,
  cw: number,
): void {
  const { width: w, data } = raster;
  const [tr, tg, tb] = tables;
  const step = w / cw;
  let i = 3 * y * w;
  let x = 0;
  let carryR = 0;
  let carryG = 0;
  let carryB = 0;
  for (let c = 0; c < cw; c++) {
    const end = c === cw - 1 ? w : (c + 1) * step;
    const whole = Math.floor(end + 1e-9);
    let r = carryR;
    let g = carryG;
    let b = carryB;
    for (; x < whole; x++, i += 3) {
      r += tr[data[i]];
      g += tg[data[i + 1]];
      b += tb[data[i + 2]];
    }
    const part = end - whole;
    carryR = 0;
    carryG = 0;
    carryB = 0;
    if (part > 1e-9) {
      const lr = tr[data[i]];
      const lg = tg[data[i + 1]];
      const lb = tb[data[i + 2]];
      r += part * lr;
      g += part * lg;
      b += part * lb;
      carryR = (1 - part) * lr;
      carryG = (1 - part) * lg;
      carryB = (1 - part) * lb;
      x++;
      i += 3;
    }
    row[3 * c] = r;
    row[3 * c + 1] = g;
    row[3 * c + 2] = b;
  }
}

/** Sums one row of pixels with alpha into `cw` places: premultiplied colour and alpha. */
function averageRowAlpha(
  raster: Raster,
  y: number,
  tables: readonly Float64Array[],
  row: Float64Array,
  cw: number,
): void {
  const { width: w, data } = raster;
  const [tr, tg, tb] = tables;
  const max = 2 ** raster.depth - 1;
  const step = w / cw;
  for (let x = 0; x < w; x++) {
    const i = 4 * (y * w + x);
    const a = data[i + 3] / max;
    if (a === 0) continue;
    const c = Math.min(cw - 1, Math.floor(x / step));
    const first = c === cw - 1 ? 1 : Math.min(1, (c + 1) * step - x);
    const r = a * tr[data[i]];
    const g = a * tg[data[i + 1]];
    const b = a * tb[data[i + 2]];
    for (let at = 4 * c, part = first; part > 0; at += 4, part = at === 4 * c + 4 ? 1 - first : 0) {
      row[at] += part * r;
      row[at + 1] += part * g;
      row[at + 2] += part * b;
      row[at + 3] += part * a;
    }
  }
}

function finish(
  sums: Float64Array,
  width: number,
  height: number,
  planes: number,
  covered: number,
  m: readonly number[],
  scale: number,
): View {
  const n = width * height;
  const rgb = new Float32Array(3 * n);
  const alpha = planes === 4 ? new Float32Array(n) : null;
  for (let p = 0; p < n; p++) {
    const at = planes * p;
    const weight = alpha ? sums[at + 3] : covered;
    if (alpha) alpha[p] = weight / covered;
    if (weight <= 0) continue;
    const r = sums[at] / weight;
    const g = sums[at + 1] / weight;
    const b = sums[at + 2] / weight;
    rgb[3 * p] = m[0] * r + m[1] * g + m[2] * b;
    rgb[3 * p + 1] = m[3] * r + m[4] * g + m[5] * b;
    rgb[3 * p + 2] = m[6] * r + m[7] * g + m[8] * b;
  }
  return { width, height, rgb, alpha, scale };
}
