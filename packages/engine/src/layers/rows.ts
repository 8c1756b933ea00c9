import type { Program } from './program.ts';

/** The steps that may have paint in a row, and where their pixels lie. */
export interface Row {
  count: number;
  readonly acts: Int32Array;
  readonly left: Int32Array;
  readonly width: Int32Array;
  readonly start: Int32Array;
  readonly channels: Uint8Array;
  readonly unit: Float64Array;
  readonly data: (Uint8Array | Uint16Array | null)[];
}

/** The rows of a program's paint; asked again for the same row it gives what it has, and the object is used again. */
export function rowsOf({ acts }: Program): (y: number) => Row {
  const n = acts.length;
  const row: Row = {
    count: 0,
    acts: new Int32Array(n),
    left: new Int32Array(n),
    width: new Int32Array(n),
    start: new Int32Array(n),
    channels: new Uint8Array(n),
    unit: new Float64Array(n),
    data: new Array(n).fill(null),
  };
  let now = Number.NaN;
  return (y) => {
    if (y === now) return row;
    now = y;
    row.count = 0;
    for (let i = 0; i < n; i++) {
      const { layer, local } = acts[i];
      const r = row.count;
      if (layer) {
        const { raster } = layer;
        const v = y - layer.y;
        const there = v >= 0 && v < raster.height && raster.width > 0;
        if (!there && local) continue;
        row.left[r] = layer.x;
        row.width[r] = there ? raster.width : 0;
        row.start[r] = raster.channels * v * raster.width;
        row.channels[r] = raster.channels;
        row.unit[r] = raster.depth === 8 ? 1 / 255 : 1 / 65535;
        row.data[r] = raster.data;
      }
      row.acts[r] = i;
      row.count++;
    }
    return row;
  };
}
