/** A picture one can judge by eye: what was flagged over what was planted. */
import { linearToSrgb } from '@halflight/engine';
import type { Answer } from './answer.ts';
import { writeMap } from './png.ts';
import type { TruthMaps } from './store.ts';
import * as T from './truth.ts';

/**
 * Red neutral, violet opposite, where flagged; over planted shade full, elsewhere (a false alarm) with black
 * stripes; planted shade that was missed has white stripes. The rest is the picture, greyed.
 */
export async function writeOverlay(
  path: string,
  rgb: Float32Array,
  width: number,
  height: number,
  answer: Answer,
  truth: TruthMaps | null,
): Promise<void> {
  const out = new Uint8Array(width * height * 3);
  for (let i = 0; i < width * height; i++) {
    const stripe = ((i % width) >> 1) + (Math.floor(i / width) >> 1);
    const label = truth?.labels[i] ?? 0;
    const shade = (label & T.KIND) === T.SHADE;
    const planted = shade && (label & (T.NEUTRAL | T.OPPOSITE)) !== 0;
    const neutral = answer.flagged.neutral[i] === 1;
    const opposite = answer.flagged.opposite[i] === 1;
    for (let c = 0; c < 3; c++) {
      let v = 255 * linearToSrgb(Math.min(1, Math.max(0, rgb[i * 3 + c]!)));
      if (neutral || opposite) {
        v = 0.35 * v + 0.65 * (neutral ? [235, 50, 40] : [190, 60, 230])[c]!;
        if (!planted && stripe % 3 === 0) v *= 0.3;
      } else if (planted && stripe % 3 === 0) v = 255;
      out[i * 3 + c] = v;
    }
  }
  await writeMap(path, out, width, height);
}
