import type { Raster } from './raster.ts';
import { pixelWords } from './words.ts';

/**
 * Adds rows of pixels, each with its weight, to a band of one row: linear light in the picture's own primaries,
 * with alpha premultiplied and followed by alpha itself.
 */
export type RowAdder = (band: Float64Array, from: number, weights: Float64Array) => void;

/** The fastest adder that fits the picture; all give the same sums. */
export function rowAdder(raster: Raster, tables: readonly Float64Array[]): RowAdder {
  const { width, channels } = raster;
  const words = pixelWords(raster.data);
  const alike = tables[0] === tables[1] && tables[0] === tables[2];
  const one =
    channels === 4
      ? words
        ? alphaWordRow(width, words, tables)
        : alphaRow(raster, tables)
      : alike && words && (3 * width) % 4 === 0
        ? wordRow(width, words, tables[0])
        : plainRow(raster, tables);
  const four =
    channels === 3 && alike && words && (3 * width) % 4 === 0 ? fourWordRows(width, words, tables[0]) : null;
  return (band, from, weights) => {
    let k = 0;
    // Rows of the same weight in fours, where they can be.
    while (four && k < weights.length) {
      const weight = weights[k];
      const even =
        k + 3 < weights.length &&
        Math.abs(weights[k + 1] - weight) < 1e-12 &&
        Math.abs(weights[k + 2] - weight) < 1e-12 &&
        Math.abs(weights[k + 3] - weight) < 1e-12;
      if (even) four(band, from + k, weight);
      else one(band, from + k, weight);
      k += even ? 4 : 1;
    }
    for (; k < weights.length; k++) one(band, from + k, weights[k]);
  };
}

type AddRow = (band: Float64Array, y: number, weight: number) => void;

function plainRow({ width, data }: Raster, [tr, tg, tb]: readonly Float64Array[]): AddRow {
  return (band, y, weight) => {
    for (let k = 0, i = 3 * y * width, end = 3 * width; k < end; k += 3, i += 3) {
      band[k] += weight * tr[data[i]];
      band[k + 1] += weight * tg[data[i + 1]];
      band[k + 2] += weight * tb[data[i + 2]];
    }
  };
}

function wordRow(width: number, words: Uint32Array, table: Float64Array): AddRow {
  const stride = (3 * width) / 4;
  return (band, y, weight) => {
    for (let k = 0, i = y * stride, end = 3 * width; k < end; k += 4, i++) {
      const p = words[i];
      band[k] += weight * table[p & 255];
      band[k + 1] += weight * table[(p >> 8) & 255];
      band[k + 2] += weight * table[(p >> 16) & 255];
      band[k + 3] += weight * table[p >>> 24];
    }
  };
}

function fourWordRows(width: number, words: Uint32Array, t: Float64Array): AddRow {
  const stride = (3 * width) / 4;
  return (band, y, weight) => {
    for (let k = 0, i = y * stride, end = 3 * width; k < end; k += 4, i++) {
      const p = words[i];
      const q = words[i + stride];
      const r = words[i + 2 * stride];
      const s = words[i + 3 * stride];
      band[k] += weight * (t[p & 255] + t[q & 255] + t[r & 255] + t[s & 255]);
      band[k + 1] += weight * (t[(p >> 8) & 255] + t[(q >> 8) & 255] + t[(r >> 8) & 255] + t[(s >> 8) & 255]);
      band[k + 2] +=
        weight * (t[(p >> 16) & 255] + t[(q >> 16) & 255] + t[(r >> 16) & 255] + t[(s >> 16) & 255]);
      band[k + 3] += weight * (t[p >>> 24] + t[q >>> 24] + t[r >>> 24] + t[s >>> 24]);
    }
  };
}

function alphaRow({ width, data, depth }: Raster, [tr, tg, tb]: readonly Float64Array[]): AddRow {
  const max = 2 ** depth - 1;
  return (band, y, weight) => {
    for (let k = 0, i = 4 * y * width, end = 4 * width; k < end; k += 4, i += 4) {
      const a = data[i + 3];
      if (a === 0) continue;
      const w = a === max ? weight : (weight * a) / max;
      band[k] += w * tr[data[i]];
      band[k + 1] += w * tg[data[i + 1]];
      band[k + 2] += w * tb[data[i + 2]];
      band[k + 3] += w;
    }
  };
}

function alphaWordRow(width: number, words: Uint32Array, [tr, tg, tb]: readonly Float64Array[]): AddRow {
  return (band, y, weight) => {
    for (let k = 0, i = y * width, end = 4 * width; k < end; k += 4, i++) {
      const p = words[i];
      const a = p >>> 24;
      if (a === 0) continue;
      const w = a === 255 ? weight : (weight * a) / 255;
      band[k] += w * tr[p & 255];
      band[k + 1] += w * tg[(p >> 8) & 255];
      band[k + 2] += w * tb[(p >> 16) & 255];
      band[k + 3] += w;
    }
  };
}
