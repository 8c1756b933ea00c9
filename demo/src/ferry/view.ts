/** What the painter looks at: the picture with regions, directions and importance; once with and once without thin things. */
import { blurred, type Guide } from '../paint/guide.ts';
import { HANDS } from './hands.ts';
import { THIN } from './materials.ts';
import type { Regions } from './regions.ts';
import type { Study } from './study.ts';

/** The guide for one picture of the scene. `coarse` leaves out what is thin, for the big brushes. */
export function guidesOf(
  study: Study,
  regions: Regions,
  importance: Float32Array,
  picture: Float32Array,
): { fine: Guide; coarse: Guide } {
  const { width, height } = study;
  const fine: Guide = {
    width,
    height,
    colour: picture,
    region: regions.region,
    order: regions.order,
    hand: regions.hand,
    hands: HANDS,
    direction: directions(study, regions, picture),
    importance,
  };
  const from = withoutThin(study);
  const colour = new Float32Array(picture.length);
  const region = new Int32Array(regions.region.length);
  const direction = new Float32Array(fine.direction.length);
  const order = new Float32Array(regions.order.length);
  // Nets are seen through: from afar they are the mean of their threads and what is behind.
  const mean = blurred(picture, width, height, 3, width / 150);
  const cover = new Float32Array(from.length);
  for (let i = 0; i < from.length; i++) cover[i] = study.things[study.body[i]!] === 'nets' ? 1 : 0;
  const near = blurred(cover, width, height, 1, width / 150);
  for (let i = 0; i < from.length; i++) {
    const j = from[i]!;
    region[i] = regions.region[j]!;
    order[i] = regions.order[j]!;
    const netted = Math.min(1, near[i]! * 3);
    for (let c = 0; c < 3; c++) {
      const plain = picture[j * 3 + c]!;
      colour[i * 3 + c] = plain + (mean[i * 3 + c]! - plain) * netted;
    }
    direction[i * 2] = fine.direction[j * 2]!;
    direction[i * 2 + 1] = fine.direction[j * 2 + 1]!;
  }
  return { fine, coarse: { ...fine, colour, region, order, direction } };
}

/** For every pixel itself, or where something thin stands the nearest pixel beside it. */
function withoutThin(study: Study): Int32Array {
  const { width, height, body, surface, depth, things, surfaceNames } = study;
  const thin = (i: number) => {
    if (body[i]! < 0) return false;
    const s = surfaceNames[surface[i]!]!;
    const t = things[body[i]!]!;
    return (
      THIN.has(s) ||
      t === 'withies' ||
      t === 'lamp post' ||
      t === 'mooring' ||
      (s === 'pile' && depth[i]! > 15)
    );
  };
  const from = new Int32Array(width * height);
  for (let y = 0; y < height; y++) {
    const row = y * width;
    for (let x = 0; x < width; x++) {
      if (!thin(row + x)) {
        from[row + x] = row + x;
        continue;
      }
      let l = x;
      let r = x;
      while (l >= 0 && thin(row + l)) l--;
      while (r < width && thin(row + r)) r++;
      from[row + x] = row + (l < 0 ? Math.min(width - 1, r) : r >= width ? l : x - l <= r - x ? l : r);
    }
  }
  return from;
}

/** Directions of strokes: the surface's grain, else level for sky and flats, upright for reflections, bent by strong edges. */
function directions(study: Study, regions: Regions, picture: Float32Array): Float32Array {
  const { width, height, along } = study;
  const n = width * height;
  const tone = new Float32Array(n);
  for (let i = 0; i < n; i++)
    tone[i] = Math.sqrt(
      Math.max(0, 0.21 * picture[i * 3]! + 0.72 * picture[i * 3 + 1]! + 0.07 * picture[i * 3 + 2]!),
    );
  const soft = blurred(tone, width, height, 1, width / 400);
  const out = new Float32Array(n * 2);
  const tensor = new Float32Array(n * 2);
  for (let y = 1; y < height - 1; y++)
    for (let x = 1; x < width - 1; x++) {
      const i = y * width + x;
      const gx = soft[i + 1]! - soft[i - 1]!;
      const gy = soft[i + width]! - soft[i - width]!;
      // Tangent of the edge as a doubled angle: (cos 2θ, sin 2θ) of the gradient turned by a right angle.
      tensor[i * 2] = -(gx * gx - gy * gy);
      tensor[i * 2 + 1] = -2 * gx * gy;
    }
  const smooth = blurred(tensor, width, height, 2, width / 160);
  for (let i = 0; i < n; i++) {
    const r = regions.region[i]!;
    const h = HANDS[regions.hand[r]!]!.name;
    let cx = 0;
    let cy = 0;
    const ax = along[i * 2]!;
    const ay = along[i * 2 + 1]!;
    const bend = Math.hypot(smooth[i * 2]!, smooth[i * 2 + 1]!);
    let strength = 0;
    if (h === 'water') {
      cx = -1;
    } else if (h === 'sky') {
      cx = 0.9;
      cy = -0.16;
      strength = 2.2;
    } else if (h === 'ground' || h === 'far') {
      cx = 1;
      strength = 0.7;
    } else if (ax !== 0 || ay !== 0) {
      cx = ax * ax - ay * ay;
      cy = 2 * ax * ay;
      strength = 0.3;
    } else {
      cx = -0.3;
      strength = 1;
    }
    if (strength > 0 && bend > 0) {
      const w = (strength * bend) / (bend + 2e-5);
      cx += (w * smooth[i * 2]!) / bend;
      cy += (w * smooth[i * 2 + 1]!) / bend;
    }
    out[i * 2] = cx;
    out[i * 2 + 1] = cy;
  }
  return out;
}
