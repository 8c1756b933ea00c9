import { luminance as luminanceOfRgb } from '../../colour/cielab.ts';
import type { Air } from './air.ts';
import type { Ratio } from './curve.ts';
import { outlineOf } from './outline.ts';
import type { Regions } from './regions.ts';
import { shadeOf, turnedBack } from './shadeColours.ts';
import type { LightPlace, Trace } from './types.ts';

/** Smaller places are specks, in shares of the picture. Our default. */
const SPECK = 0.0015;
/** Neighbouring flagged regions of one kind join when their colours are nearer than this in log-chromaticity. */
const JOIN = 0.35;
/** Simplification of outlines, pixels of the working size. */
const OUTLINE = 1.5;

type Colour = [number, number, number];

const luminance = (c: ArrayLike<number>, at = 0) => luminanceOfRgb(c[at], c[at + 1], c[at + 2]);

/** For each flagged region: the same surface where it is lit, from the pairs that spoke; NaN without one. */
export function litPartners(regions: Regions, trace: Trace): { lit: Float64Array; partners: Int32Array } {
  const n = regions.count;
  const logs = new Float64Array(3 * n);
  const sum = new Float64Array(n);
  const partners = new Int32Array(n);
  for (let p = 0; p < trace.bright.length; p++) {
    const i = trace.bright[p];
    const j = trace.dark[p];
    const kind = trace.flagged[j];
    if (kind === 0) continue;
    const says = trace.says[3 * p + kind] * trace.weight[p] * trace.probability[4 * i];
    if (!(says > 0)) continue;
    logs[3 * j] += says * regions.x[i];
    logs[3 * j + 1] += says * regions.y[i];
    logs[3 * j + 2] += says * regions.l[i];
    sum[j] += says;
    if (trace.says[3 * p + kind] > 0.3 && trace.probability[4 * i] > 0.5) partners[j]++;
  }
  shareWithinPieces(trace, logs, sum);
  for (let j = 0; j < n; j++) {
    const i = trace.litFrom[j] ?? -1;
    if (sum[j] > 0 || i < 0) continue;
    logs[3 * j] = regions.x[i];
    logs[3 * j + 1] = regions.y[i];
    logs[3 * j + 2] = regions.l[i];
    sum[j] = 1;
  }
  const lit = new Float64Array(3 * n);
  for (let j = 0; j < n; j++) {
    const u = logs[3 * j] / sum[j] / Math.SQRT2;
    const v = logs[3 * j + 1] / sum[j] / Math.sqrt(6);
    const l = logs[3 * j + 2] / sum[j];
    lit[3 * j] = Math.exp(l + u + v);
    lit[3 * j + 1] = Math.exp(l - u + v);
    lit[3 * j + 2] = Math.exp(l - 2 * v);
  }
  return { lit, partners };
}

/** Regions too deep in a piece to have a lit partner of their own near by take the mean of their piece's. */
function shareWithinPieces({ flagged, pieceOf }: Trace, logs: Float64Array, sum: Float64Array): void {
  const pieces = new Map<number, [number, number, number, number]>();
  for (let j = 0; j < sum.length; j++) {
    if (flagged[j] === 0 || !(sum[j] > 0)) continue;
    const total = pieces.get(pieceOf[j]) ?? [0, 0, 0, 0];
    for (let c = 0; c < 3; c++) total[c] += logs[3 * j + c];
    total[3] += sum[j];
    pieces.set(pieceOf[j], total);
  }
  for (let j = 0; j < sum.length; j++) {
    const total = pieces.get(pieceOf[j]);
    if (flagged[j] === 0 || sum[j] > 0 || !total) continue;
    for (let c = 0; c < 3; c++) logs[3 * j + c] = total[c];
    sum[j] = total[3];
  }
}

/**
 * Joined areas of flagged regions with their three colours, the largest first.
 *
 * @param air what was taken off the regions: it lies over the three colours again
 */
export function placesOf(regions: Regions, trace: Trace, q: Ratio, air: Air | null = null): LightPlace[] {
  const { count, first, neighbour } = regions;
  const { width, height, labels } = regions.segmentation;
  const { lit, partners } = litPartners(regions, trace);
  const group = new Int32Array(count).fill(-1);
  const groups: number[][] = [];
  for (let s = 0; s < count; s++) {
    if (!trace.flagged[s] || group[s] >= 0) continue;
    const id = groups.length;
    const members = [s];
    group[s] = id;
    for (let m = 0; m < members.length; m++) {
      const a = members[m];
      for (let e = first[a]; e < first[a + 1]; e++) {
        const b = neighbour[e];
        if (group[b] >= 0 || trace.flagged[b] !== trace.flagged[s]) continue;
        if (Math.hypot(regions.x[a] - regions.x[b], regions.y[a] - regions.y[b]) > JOIN) continue;
        group[b] = id;
        members.push(b);
      }
    }
    groups.push(members);
  }

  const mark = new Int32Array(width * height).fill(-1);
  for (let i = 0; i < mark.length; i++) if (labels[i] >= 0) mark[i] = group[labels[i]];
  const places: LightPlace[] = [];
  groups.forEach((members, id) => {
    let area = 0;
    for (const s of members) area += regions.area[s];
    const share = area / (width * height);
    if (share < SPECK) return;
    const kind = trace.flagged[members[0]];
    const now: Colour = [0, 0, 0];
    const was: Colour = [0, 0, 0];
    const should: Colour = [0, 0, 0];
    const veil: Colour = [0, 0, 0];
    let sum = 0;
    let told = 0;
    let probability = 0;
    let count = 0;
    for (const s of members) {
      const w = regions.area[s];
      sum += w;
      probability += w * trace.probability[4 * s + kind + 1];
      count += partners[s];
      const clear = 1 - (air?.veil[s] ?? 0);
      for (let c = 0; c < 3; c++) {
        now[c] += w * clear * regions.rgb[3 * s + c];
        veil[c] += w * (1 - clear) * (air?.colour[c] ?? 0);
      }
      if (!(lit[3 * s] > 0)) continue;
      told += w;
      const partner = lit.subarray(3 * s, 3 * s + 3);
      const start = kind === 2 ? turnedBack(partner, q) : partner;
      const to = shadeOf(start, q, luminance(regions.rgb, 3 * s));
      for (let c = 0; c < 3; c++) {
        was[c] += w * clear * lit[3 * s + c];
        should[c] += w * clear * to[c];
      }
    }
    if (told === 0) return;
    for (let c = 0; c < 3; c++) {
      now[c] /= sum;
      was[c] /= told;
      should[c] /= told;
      veil[c] /= sum;
    }
    const gain = luminance(now) / luminance(should);
    for (let c = 0; c < 3; c++) {
      should[c] = gain * should[c] + veil[c];
      now[c] += veil[c];
      was[c] += veil[c];
    }
    const outline = outlineOf(mark, width, height, id, OUTLINE);
    let [x0, y0, x1, y1] = [width, height, 0, 0];
    for (let k = 0; k < outline.length; k += 2) {
      x0 = Math.min(x0, outline[k]);
      x1 = Math.max(x1, outline[k]);
      y0 = Math.min(y0, outline[k + 1]);
      y1 = Math.max(y1, outline[k + 1]);
    }
    const sure = probability / sum;
    places.push({
      regions: members,
      kind: kind === 1 ? 'neutral' : 'opposite',
      x: x0 / width,
      y: y0 / height,
      width: (x1 - x0) / width,
      height: (y1 - y0) / height,
      share,
      outline: outline.map((v, k) => v / (k % 2 === 0 ? width : height)),
      evidence: placeEvidence(sure, count / members.length),
      probability: sure,
      lit: was,
      now,
      should,
      ...(air && { air: veil }),
      partners: count,
    });
  });
  return places.sort((a, b) => b.share - a.share || a.y - b.y || a.x - b.x);
}

function placeEvidence(probability: number, partners: number): LightPlace['evidence'] {
  if (probability > 0.8 && partners >= 3) {
    return { level: 'strong', reason: 'The same surface is seen lit close by, several times.' };
  }
  return { level: 'fair', reason: 'The same surface is seen lit, but not often or not close by.' };
}
