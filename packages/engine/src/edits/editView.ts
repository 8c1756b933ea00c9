import { rowsAt } from '../areas/guidedFilter.ts';
import { guideOf } from '../areas/rasterise.ts';
import { gamutMapper } from '../colour/gamutMapper.ts';
import type { ColourSpace } from '../colour/space.ts';
import type { View } from '../views/view.ts';
import type { ReadyRecipe } from './compile.ts';

/** What a recipe makes of a view, mapped into the gamut of `space`; it remembers whose shapes it has. */
export function editView(ready: ReadyRecipe, view: View, space: ColourSpace): View {
  const rgb = new Float32Array(view.rgb.length);
  viewEditor(ready, view, space)(0, view.height, rgb);
  return { ...view, rgb, editOf: view.editOf ?? view };
}

/**
 * Prepares the edit of a view row by row, so that others may be heard between the rows.
 *
 * @returns a function that writes rows [from, to) to their place in `out`, which is as large as `view.rgb`
 */
export function viewEditor(
  ready: ReadyRecipe,
  view: View,
  space: ColourSpace,
): (from: number, to: number, out: Float32Array) => void {
  const { width, height } = view;
  const hold = gamutMapper(space);
  const guide = ready.areas.length > 0 ? guideOf(view) : null;
  const fills = ready.areas.map((fit) => rowsAt(fit, width, height));
  const lines = ready.areas.map(() => new Float32Array(width));
  const covers = new Float64Array(lines.length);
  const one = new Float64Array(3);
  return (from, to, out) => {
    for (let y = from; y < to; y++) {
      if (guide) {
        const row = guide.subarray(3 * y * width, 3 * (y + 1) * width);
        for (let k = 0; k < fills.length; k++) fills[k](row, y, lines[k]);
      }
      for (let x = 0; x < width; x++) {
        const at = 3 * (y * width + x);
        one[0] = view.rgb[at];
        one[1] = view.rgb[at + 1];
        one[2] = view.rgb[at + 2];
        for (let k = 0; k < lines.length; k++) covers[k] = lines[k][x];
        if (ready.edit(one, 0, covers, 0)) hold(one, 0);
        out[at] = one[0];
        out[at + 1] = one[1];
        out[at + 2] = one[2];
      }
    }
  };
}
