import { joinedAreas } from '../../numbers/components.ts';
import { groupOf, type TonalView } from './tones.ts';

/** A shape of this share of the picture or more counts in full, a smaller one in part. Our default. */
const FULL_SHAPE = 0.004;

/**
 * Into how many shapes the tones break when one steps back: joined areas of one tone, on the whole view.
 *
 * @param borders between the tones, as of `clusterExactly`
 */
export function shapesOf({ L, weights }: TonalView, borders: ArrayLike<number>): number {
  const { width, height, data } = L;
  const tone = new Int8Array(data.length).fill(-1);
  let counted = 0;
  for (let p = 0; p < tone.length; p++)
    if (weights[p] >= 0.5) {
      tone[p] = groupOf(data[p], borders);
      counted++;
    }
  let shapes = 0;
  for (let t = 0; t <= borders.length; t++)
    for (const area of joinedAreas(width, height, (p) => tone[p] === t).areas)
      shapes += Math.min(1, area.size / counted / FULL_SHAPE);
  return shapes;
}
