import type { Contacts } from './contacts.ts';
import type { Pieces } from './pieces.ts';
import type { Regions } from './regions.ts';

/** Pieces that differ by less than this in log-chromaticity and ℓ are of one colour here. */
const COLOUR = 0.06;
const DARKER = 0.16;

/**
 * How much each contact looks like a pattern (stripes, checks, boards) instead of light and shade: 0 not at all.
 *
 * In a pattern the dark piece touches several pieces of the bright one's colour, and the bright piece several of
 * the dark one's; a shade touches the lit part of its surface once. The smaller of the two effective numbers
 * (inverse Simpson index of the borders), minus one.
 */
export function patternOf(regions: Regions, pieces: Pieces, contacts: Contacts): Float32Array {
  const around = bordersOf(regions, pieces);
  const { x, y, l } = pieces;
  const alike = (a: number, b: number) =>
    Math.hypot(x[a] - x[b], y[a] - y[b]) < COLOUR && Math.abs(l[a] - l[b]) < DARKER;
  const number = (of: number, like: number) => {
    let sum = 0;
    let squares = 0;
    for (const [other, border] of around[of]) {
      if (!alike(other, like)) continue;
      sum += border;
      squares += border * border;
    }
    return squares > 0 ? (sum * sum) / squares : 0;
  };
  const out = new Float32Array(contacts.count);
  for (let c = 0; c < contacts.count; c++) {
    const i = contacts.bright[c];
    const j = contacts.dark[c];
    out[c] = Math.max(0, Math.min(number(i, j), number(j, i)) - 1);
  }
  return out;
}

function bordersOf(regions: Regions, pieces: Pieces): Map<number, number>[] {
  const { count, first, neighbour, border } = regions;
  const around: Map<number, number>[] = Array.from({ length: pieces.count }, () => new Map());
  for (let i = 0; i < count; i++) {
    const a = pieces.of[i];
    if (a < 0) continue;
    for (let e = first[i]; e < first[i + 1]; e++) {
      const b = pieces.of[neighbour[e]];
      if (b >= 0 && b !== a) around[a].set(b, (around[a].get(b) ?? 0) + border[e]);
    }
  }
  return around;
}
