import type { Field, View } from '../../views/view.ts';
import { type Regions, regionsOf } from './regions.ts';
import { proposeSky } from './sky.ts';

/** Why a region is not judged; `trace.excluded` holds these. */
export const JUDGED = 0;
export const CLOSED = 1;
export const SKY = 2;
export const GLOW = 3;
export const LEFT_OUT = 4;

/** For each region whether it is judged, and if not, why. The artist's own area goes before all else. */
export function exclusions(view: View, regions: Regions, leftOut: Field | null): Uint8Array {
  const out = Uint8Array.from(regions.usable, (u) => (u ? JUDGED : CLOSED));
  const sky = skyOf(view, regions);
  for (let i = 0; i < out.length; i++) if (sky[i]) out[i] = SKY;
  if (leftOut) markLeftOut(leftOut, regions, out);
  return out;
}

/** Skies of views that are still in use: no edit of colours turns sky into ground. */
const known = new WeakMap<View, Uint8Array>();

function skyOf(view: View, regions: Regions): Uint8Array {
  const shapes = view.editOf ?? view;
  let sky = known.get(shapes);
  if (!sky) {
    sky = proposeSky(shapes, shapes === view ? regions : regionsOf(shapes));
    known.set(shapes, sky);
  }
  return sky;
}

function markLeftOut(field: Field, regions: Regions, out: Uint8Array): void {
  const { width, height, labels } = regions.segmentation;
  const covered = new Float64Array(regions.count);
  for (let y = 0, i = 0; y < height; y++) {
    const fy = Math.min(field.height - 1, Math.floor(((y + 0.5) * field.height) / height));
    for (let x = 0; x < width; x++, i++) {
      if (labels[i] < 0) continue;
      const fx = Math.min(field.width - 1, Math.floor(((x + 0.5) * field.width) / width));
      covered[labels[i]] += field.data[fy * field.width + fx];
    }
  }
  for (let i = 0; i < out.length; i++) if (covered[i] > 0.5 * regions.area[i]) out[i] = LEFT_OUT;
}
