import { type Plane, readAt } from '../numbers/plane.ts';
import { type Pose, toEarlier } from './pose.ts';

/** Pearson correlation over what both show; NaN when that is less than a twentieth of the smaller one. */
export function correlate(a: Plane, b: Plane, pose: Pose, every = 1): number {
  let n = 0;
  let sa = 0;
  let sb = 0;
  let saa = 0;
  let sbb = 0;
  let sab = 0;
  for (let y = 0; y < b.height; y += every)
    for (let x = 0; x < b.width; x += every) {
      const [u, v] = toEarlier(pose, (x + 0.5) / b.width, (y + 0.5) / b.height);
      if (u < 0 || v < 0 || u > 1 || v > 1) continue;
      const va = readAt(a, u * a.width - 0.5, v * a.height - 0.5);
      const vb = b.data[y * b.width + x];
      n++;
      sa += va;
      sb += vb;
      saa += va * va;
      sbb += vb * vb;
      sab += va * vb;
    }
  if (n * every * every < 0.05 * Math.min(a.data.length, b.data.length)) return Number.NaN;
  const spread = (saa - (sa * sa) / n) * (sbb - (sb * sb) / n);
  // Two even planes agree when their levels do.
  if (spread <= 1e-9) return Math.abs(sa - sb) / n < 1 ? 1 : 0;
  return (sab - (sa * sb) / n) / Math.sqrt(spread);
}
