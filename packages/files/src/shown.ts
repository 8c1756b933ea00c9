import { srgbCode, type View } from '@halflight/engine';

/** A picture for the eye: sRGB codes, row-major, interleaved, straight alpha where there are four channels. */
export interface Shown {
  readonly data: Uint8Array;
  readonly width: number;
  readonly height: number;
  readonly channels: 3 | 4;
}

/** A view as it is shown: in sRGB, colours outside of it clipped. */
export function showView({ width, height, rgb, alpha }: View): Shown {
  const channels = alpha ? 4 : 3;
  const data = new Uint8Array(width * height * channels);
  for (let p = 0; p < width * height; p++) {
    for (let c = 0; c < 3; c++) data[p * channels + c] = srgbCode(rgb[3 * p + c]);
    if (alpha) data[p * channels + 3] = Math.round(255 * alpha[p]);
  }
  return { data, width, height, channels };
}
