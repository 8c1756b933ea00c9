import type { Clustering } from '../../numbers/clusters.ts';
import { stretch } from '../../numbers/plane.ts';
import type { Field, View } from '../../views/view.ts';
import { groupOf, type TonalView } from './tones.ts';

/**
 * Value groups at close-view size: 0 the darkest, 1 the lightest, the others evenly between. The whole view is
 * enlarged before it is split, so that the shapes have smooth borders.
 */
export function groupMap({ L, weights }: TonalView, { means, borders }: Clustering, close: View): Field {
  const large = stretch(L, close.width, close.height);
  const last = Math.max(1, means.length - 1);
  const data = new Float32Array(large.data.length);
  for (let y = 0, p = 0; y < close.height; y++) {
    const row = Math.min(L.height - 1, Math.floor(((y + 0.5) * L.height) / close.height)) * L.width;
    for (let x = 0; x < close.width; x++, p++) {
      const at = row + Math.min(L.width - 1, Math.floor(((x + 0.5) * L.width) / close.width));
      if (weights[at] > 0) data[p] = groupOf(large.data[p], borders) / last;
    }
  }
  return { width: close.width, height: close.height, data };
}
