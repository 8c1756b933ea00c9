import { fastEncoder, linearTables } from '../colour/transfer.ts';
import type { Raster } from '../views/raster.ts';
import { type Corners, homography, project } from './homography.ts';

/** Left away at each side, in shares: the edge of the paper belongs to neither. */
const INSET = 0.004;

/**
 * Takes a quadrilateral out of a picture and makes it an upright rectangle, whose sides are as long as the mean of
 * opposite sides. Sampled in linear light by cubic convolution with a = −1/2 (Keys 1981, "Cubic convolution
 * interpolation for digital image processing").
 *
 * @param corners in pixels of the raster
 * @returns the raster itself when the corners are no quadrilateral
 */
export function straighten(raster: Raster, corners: Corners): Raster {
  const side = (a: number, b: number): number =>
    Math.hypot(corners[a][0] - corners[b][0], corners[a][1] - corners[b][1]);
  const width = Math.max(1, Math.round(((1 - 2 * INSET) * (side(0, 1) + side(3, 2))) / 2));
  const height = Math.max(1, Math.round(((1 - 2 * INSET) * (side(0, 3) + side(1, 2))) / 2));
  const unit: Corners = [
    [0, 0],
    [1, 0],
    [1, 1],
    [0, 1],
  ];
  const h = homography(unit, corners);
  if (!h) return raster;
  const { channels, depth, space } = raster;
  const data =
    depth === 8 ? new Uint8Array(channels * width * height) : new Uint16Array(channels * width * height);
  const max = 2 ** depth - 1;
  const encoders = space.curves.map(fastEncoder);
  const sample = cubicSampler(raster);
  const out = new Float64Array(channels);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i += channels) {
      const u = INSET + ((1 - 2 * INSET) * (x + 0.5)) / width;
      const v = INSET + ((1 - 2 * INSET) * (y + 0.5)) / height;
      const [px, py] = project(h, u, v);
      sample(px - 0.5, py - 0.5, out);
      for (let c = 0; c < 3; c++)
        data[i + c] = Math.min(max, Math.max(0, Math.round(max * encoders[c](Math.max(0, out[c])))));
      if (channels === 4) data[i + 3] = Math.min(max, Math.max(0, Math.round(out[3])));
    }
  return { ...raster, width, height, data };
}

/** Reads a place between pixels: linear light of the colours, alpha as it is; edges go on outside. */
function cubicSampler({
  width,
  height,
  channels,
  depth,
  data,
  space,
}: Raster): (x: number, y: number, out: Float64Array) => void {
  const tables = linearTables(space, depth);
  const [wx, wy] = [new Float64Array(4), new Float64Array(4)];
  return (x, y, out) => {
    const [x0, y0] = [Math.floor(x), Math.floor(y)];
    weights(x - x0, wx);
    weights(y - y0, wy);
    out.fill(0);
    for (let j = 0; j < 4; j++) {
      const row = width * Math.min(height - 1, Math.max(0, y0 + j - 1));
      for (let i = 0; i < 4; i++) {
        const at = channels * (row + Math.min(width - 1, Math.max(0, x0 + i - 1)));
        const weight = wx[i] * wy[j];
        for (let c = 0; c < 3; c++) out[c] += weight * tables[c][data[at + c]];
        if (channels === 4) out[3] += weight * data[at + 3];
      }
    }
  };
}

function weights(t: number, out: Float64Array): void {
  out[0] = ((-0.5 * t + 1) * t - 0.5) * t;
  out[1] = (1.5 * t - 2.5) * t * t + 1;
  out[2] = ((-1.5 * t + 2) * t + 0.5) * t;
  out[3] = (0.5 * t - 0.5) * t * t;
}
