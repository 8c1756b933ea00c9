import { hueOf } from '../../colour/hue.ts';
import { linearToOklab, oklabInto, oklabToLinear, oklabToOklch, oklchToOklab } from '../../colour/oklab.ts';
import type { Place } from '../../findings/finding.ts';
import { joinedAreas } from '../../numbers/components.ts';
import { reduceView } from '../../views/resample.ts';
import type { Field, View } from '../../views/view.ts';
import { weightsOf } from '../value/tones.ts';
import { hueCounts, STEPS } from './histogram.ts';
import { type HuePlan, nearestPlanned } from './plan.ts';

/** How far each place of a view has a hue for which `wanted` (one number a degree, 0…1) speaks. */
export function hueMap(view: View, wanted: Float64Array, leftOut: Field | null): Field {
  const { width, height, rgb, alpha } = view;
  const data = new Float32Array(width * height);
  const lab = [0, 0, 0];
  for (let p = 0; p < data.length; p++) {
    if (alpha && alpha[p] === 0) continue;
    oklabInto(lab, 0, rgb[3 * p], rgb[3 * p + 1], rgb[3 * p + 2]);
    const counts = hueCounts(lab[0], Math.hypot(lab[1], lab[2]));
    if (counts === 0) continue;
    const hue = Math.min(STEPS - 1, Math.floor(hueOf(lab[1], lab[2])));
    data[p] = counts * wanted[hue] * (leftOut ? 1 - leftOut.data[p] : 1);
  }
  return { width, height, data };
}

/** What a plan leaves outside: 1 for a stray hue, 0 for a planned one and for the accent. */
export function strayHues({ inside, accentOnly }: HuePlan): Float64Array {
  return inside.map((v, h) => Math.max(0, 1 - v - accentOnly[h]));
}

/** Joined stray areas smaller than this share of the picture are specks. Our default. */
const SPECK = 0.002;
const MOST_PLACES = 8;

/** Long side of the copy on which places are looked for: coarse enough for strokes, not blurred across borders. */
const PLACES_SIZE = 160;

/** The largest stray places of a picture, each beside the planned hue next to it. */
export function strayPlaces(close: View, plan: HuePlan, leftOut: Field | null): Place[] {
  const small = reduceView(close, PLACES_SIZE);
  const { width, height, rgb } = small;
  const map = hueMap(small, strayHues(plan), null);
  const counts = weightsOf(small, leftOut);
  const { labels, areas } = joinedAreas(width, height, (p) => counts[p] > 0.5 && map.data[p] > 0.5);
  // A line one pixel thin is where two planned colours mix along their border.
  const thick = new Set<number>();
  for (let p = width + 1; p < labels.length - width - 1; p++) {
    const id = labels[p];
    if (id < 0 || p % width === 0 || p % width === width - 1) continue;
    const ring = [-width - 1, -width, -width + 1, -1, 1, width - 1, width, width + 1];
    if (ring.every((d) => labels[p + d] === id)) thick.add(id);
  }
  const arcs = plan.accent ? [...plan.arcs, plan.accent] : plan.arcs;
  return areas
    .map((area, id) => ({ area, id }))
    .filter(({ area, id }) => thick.has(id) && area.size >= SPECK * width * height)
    .sort((a, b) => b.area.size - a.area.size)
    .slice(0, MOST_PLACES)
    .map(({ area, id }) => {
      const mean: [number, number, number] = [0, 0, 0];
      for (let p = 0; p < labels.length; p++)
        if (labels[p] === id) for (let c = 0; c < 3; c++) mean[c] += rgb[3 * p + c] / area.size;
      const [L, chroma, hue] = oklabToOklch(linearToOklab(mean));
      const planned = oklabToLinear(oklchToOklab([L, chroma, nearestPlanned(hue, arcs)]));
      return {
        x: area.left / width,
        y: area.top / height,
        width: (area.right + 1 - area.left) / width,
        height: (area.bottom + 1 - area.top) / height,
        share: area.size / (width * height),
        swatches: [
          { label: 'now', rgb: mean },
          { label: 'in your plan', rgb: planned },
        ],
      };
    });
}
