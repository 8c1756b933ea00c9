import type { Contacts } from './contacts.ts';
import type { Said } from './evidence.ts';
import type { Links } from './links.ts';
import type { Pieces } from './pieces.ts';

const LIT = 0;
const SHADE = 1;
const NEUTRAL = 2;
const OPPOSITE = 3;
const K = 4;
/** A contact speaks, and a piece is lit, from here on. */
const SPEAKS = 0.3;
const SURE = 0.6;
/** The second pigment goes the same way: colour stays within this, and its drop within this of the first one's. */
const STILL = 0.045;
const LIKE_DROP = 0.22;
/** Its lit part lies beside the first one's, within so many pixels. */
const BESIDE = 45;
/** A piece that shows its own shadow this much is lit, however well the rest fits (in shares of all its contacts). */
const LEAST_SHADOW = 1;
/** Carried no farther than over so many pieces, and to no more than so many times the area it came from. */
const FARTHEST = 4;
const MOST_AREA = 1.5;
/** Probability given to what is carried: flagged, but less sure than what was seen directly. */
const CARRIED = 0.6;

/** Partners in the light and drop in ℓ of a flagged piece. */
interface Source {
  readonly lit: readonly number[];
  readonly drop: number;
}

/**
 * Carries neutral shade over to the next pigment of the same thing (stripes, boards, patches): a piece that touches a
 * flagged one, and whose own colour is seen lit beside the flagged one's lit part, darkened by the same amount without
 * a change of colour. Changes `labels`; returns the lit partner of every piece it carried to, −1 elsewhere.
 */
export function carryNeutral(
  labels: Float64Array,
  pieces: Pieces,
  contacts: Contacts,
  said: Said,
  touch: Links,
  gaps: Float32Array,
): Int32Array {
  const n = pieces.count;
  const sources = directSources(labels, pieces, contacts, said);
  const shadows = ownShadows(labels, n, contacts, said);
  const beside: number[][] = Array.from({ length: n }, () => []);
  for (let e = 0; e < touch.a.length; e++) {
    beside[touch.a[e]].push(touch.b[e]);
    beside[touch.b[e]].push(touch.a[e]);
  }
  const lit: number[] = [];
  for (let i = 0; i < n; i++) if (labels[K * i + LIT] > SURE) lit.push(i);
  const partners = new Set([...sources.values()].flatMap((source) => source.lit));

  const partner = new Int32Array(n).fill(-1);
  const direct = [...sources.keys()].sort((a, b) => a - b);
  const carried: number[] = [];
  let ring = direct;
  for (let step = 0; step < FARTHEST && ring.length > 0; step++) {
    const next: number[] = [];
    for (const f of ring) {
      for (const j of beside[f]) {
        if (sources.has(j) || partners.has(j)) continue;
        if (labels[K * j + OPPOSITE] > 0.5 || shadows[j] > LEAST_SHADOW) continue;
        const i = litTwin(j, sources.get(f)!, lit, pieces, gaps);
        if (i < 0) continue;
        sources.set(j, { lit: [i], drop: pieces.l[i] - pieces.l[j] });
        partner[j] = i;
        next.push(j);
      }
    }
    carried.push(...next);
    ring = next;
  }
  const areaOf = (ids: readonly number[]): number => ids.reduce((sum, k) => sum + pieces.area[k], 0);
  // What runs over the whole picture was a likeness of colours, not one thing in shade.
  if (areaOf(carried) > MOST_AREA * areaOf(direct)) return partner.fill(-1);
  for (const j of carried)
    for (let k = 0; k < K; k++) labels[K * j + k] = k === NEUTRAL ? CARRIED : (1 - CARRIED) / (K - 1);
  return partner;
}

/** How much each piece shows that it is lit by the colour of its own shadow. */
function ownShadows(labels: Float64Array, n: number, contacts: Contacts, said: Said): Float64Array {
  const sum = new Float64Array(n);
  for (let c = 0; c < contacts.count; c++)
    sum[contacts.bright[c]] += said.toBright[c] * said.says[3 * c] * labels[K * contacts.dark[c] + SHADE];
  return sum;
}

function directSources(
  labels: Float64Array,
  pieces: Pieces,
  contacts: Contacts,
  said: Said,
): Map<number, Source> {
  const found = new Map<number, { lit: number[]; drop: number; weight: number }>();
  for (let c = 0; c < contacts.count; c++) {
    const i = contacts.bright[c];
    const j = contacts.dark[c];
    const says = said.says[3 * c + 1];
    if (says < SPEAKS || labels[K * i + LIT] < SURE || labels[K * j + NEUTRAL] < SURE) continue;
    let source = found.get(j);
    if (!source) {
      source = { lit: [], drop: 0, weight: 0 };
      found.set(j, source);
    }
    const w = says * contacts.weight[c];
    source.lit.push(i);
    source.drop += w * (pieces.l[i] - pieces.l[j]);
    source.weight += w;
  }
  return new Map([...found].map(([j, { lit, drop, weight }]) => [j, { lit, drop: drop / weight }]));
}

/** The lit piece of j's colour beside the source's lit part with the likest drop, or −1. */
function litTwin(
  j: number,
  source: Source,
  lit: readonly number[],
  { count, x, y, l }: Pieces,
  gaps: Float32Array,
): number {
  let best = -1;
  let least = LIKE_DROP;
  for (const i of lit) {
    const off = Math.abs(l[i] - l[j] - source.drop);
    if (off >= least || Math.hypot(x[i] - x[j], y[i] - y[j]) > STILL) continue;
    if (!source.lit.some((s) => s === i || gaps[s * count + i] <= BESIDE)) continue;
    least = off;
    best = i;
  }
  return best;
}
