import type { Census } from '../census/census.ts';
import { lightness, luminance } from '../colour/cielab.ts';
import { cssHex } from '../colour/css.ts';
import { hueOf } from '../colour/hue.ts';
import { linearToOklab, oklabToOklch } from '../colour/oklab.ts';
import { colourName } from '../colour/words.ts';
import { sortedPercentiles } from '../numbers/percentiles.ts';
import { ACCENT_AREA, type HueFamily } from '../readings/hueSpread/families.ts';
import { hueCounts, STEPS } from '../readings/hueSpread/histogram.ts';
import { measureHues } from '../readings/hueSpread/measure.ts';
import { groupTones } from '../readings/value/measure.ts';
import { groupOf, tonesOf } from '../readings/value/tones.ts';

/** A colour that carries the picture. */
export interface PaletteEntry {
  /** In painter's words, e.g. "dark blue"; each once in a palette. */
  readonly name: string;
  /** sRGB "#rrggbb", mapped into sRGB. */
  readonly hex: string;
  /** Mean linear sRGB light, unclipped. */
  readonly rgb: readonly [number, number, number];
  /** Share of the picture's area, 0…1; the shares of a palette add up to 1. */
  readonly share: number;
  /** The main colour of a hue family, another of its values (or a neutral), or an accent. */
  readonly role: 'family' | 'value' | 'accent';
}

/** From and to how many colours a palette has; fewer only when the picture has fewer. */
const FEWEST = 5;
const MOST = 12;
/** A colour of less area is put to its nearest neighbour, an accent from far less on. Our defaults. */
const LEAST = 0.02;
const LEAST_ACCENT = 0.0005;
/** Colours nearer than this in OKLab are one, and a colour that spreads less is not split. Our default. */
const ALIKE = 0.035;
/** Up to so many colours are made of those that spread more than this. Our defaults. */
const ENOUGH = 8;
const APART = 0.05;
/** Within a family, colours are an accent that are this much stronger than its mean, and strong at all. Our defaults. */
const STRONGER = 1.6;
const STRONG = 0.08;

interface Group {
  cells: number[];
  share: number;
  lab: [number, number, number];
  /** Place of its family, −1 for neutrals. */
  family: number;
  accent: boolean;
}

/**
 * The 5 to 12 colours that carry a picture: every hue family in the value groups it stands in, neutrals by value
 * group, and accents, each with the area it takes. Every part of the picture counts in exactly one.
 */
export function paletteOf(census: Census): PaletteEntry[] {
  if (census.count === 0) return [];
  const { families } = measureHues(census, undefined).value;
  let groups = grouped(census, families);
  groups = mergeSmall(groups, census);
  while (groups.length < ENOUGH) {
    const parts = splitWidest(groups, census, groups.length < FEWEST ? ALIKE : APART);
    if (!parts) break;
    groups = parts;
  }
  return named(groups, census);
}

function grouped(census: Census, families: readonly HueFamily[]): Group[] {
  const { count, share, rgb, lab } = census;
  const L = new Float32Array(count);
  for (let i = 0; i < count; i++)
    L[i] = Math.max(0, lightness(luminance(rgb[3 * i], rgb[3 * i + 1], rgb[3 * i + 2])));
  const tones = tonesOf({ width: count, height: 1, data: L }, share);
  const [low, high] = sortedPercentiles(tones.L, tones.weight, [0.05, 0.95]);
  const borders = groupTones(tones, high - low)?.chosen.borders ?? [];
  const familyOf = Array.from({ length: count }, (_, i) => {
    const a = lab[3 * i + 1];
    const b = lab[3 * i + 2];
    return hueCounts(lab[3 * i], Math.hypot(a, b)) >= 0.5 ? familyAt(families, hueOf(a, b)) : -1;
  });
  const strong = strongCells(census, families, familyOf);
  const byKey = new Map<string, Group>();
  for (let i = 0; i < count; i++) {
    const family = familyOf[i];
    const accent = strong.has(i);
    const key = `${family} ${accent ? '' : groupOf(L[i], borders)}`;
    let group = byKey.get(key);
    if (!group) {
      group = { cells: [], share: 0, lab: [0, 0, 0], family, accent };
      byKey.set(key, group);
    }
    group.cells.push(i);
    group.share += share[i];
  }
  return [...byKey.values()].map((group) => ({ ...group, lab: meanLab(group.cells, census) }));
}

/** Cells of small families of high chroma, and of small parts of a family that are far stronger than the rest of it. */
function strongCells(
  { count, share, lab }: Census,
  families: readonly HueFamily[],
  familyOf: readonly number[],
): Set<number> {
  const out = new Set<number>();
  for (const [f, family] of families.entries()) {
    const cells: number[] = [];
    let area = 0;
    for (let i = 0; i < count; i++) {
      const chroma = Math.hypot(lab[3 * i + 1], lab[3 * i + 2]);
      const stands = family.accent || (chroma > STRONG && chroma > STRONGER * family.chroma);
      if (familyOf[i] !== f || !stands) continue;
      cells.push(i);
      area += share[i];
    }
    if (area <= ACCENT_AREA) for (const i of cells) out.add(i);
  }
  return out;
}

function familyAt(families: readonly HueFamily[], hue: number): number {
  const step = Math.floor(hue) % STEPS;
  return families.findIndex(({ from, to }) => {
    const length = (to - from + STEPS) % STEPS || STEPS;
    return (step - from + STEPS) % STEPS < length;
  });
}

function mergeSmall(groups: readonly Group[], census: Census): Group[] {
  const out = [...groups];
  while (out.length > 1) {
    const order = [...out].sort((p, q) => p.share - q.share);
    const small =
      order.find((group) => group.share < (group.accent ? LEAST_ACCENT : LEAST)) ??
      order.find((group) => !group.accent && distance(group, nearest(group, out)) < ALIKE) ??
      (out.length > MOST ? (order.find((group) => !group.accent) ?? order[0]) : undefined);
    if (!small) break;
    const into = nearest(small, out);
    out.splice(out.indexOf(small), 1);
    const cells = [...into.cells, ...small.cells];
    Object.assign(into, { cells, share: into.share + small.share, lab: meanLab(cells, census) });
  }
  return out;
}

function nearest(group: Group, groups: readonly Group[]): Group {
  let best: Group | null = null;
  for (const other of groups)
    if (other !== group && (!best || rank(group, other) < rank(group, best))) best = other;
  return best ?? group;
}

/** Accents take nothing in as long as there is another place for it. */
function rank(group: Group, other: Group): number {
  return distance(group, other) + (other.accent ? 1 : 0);
}

function distance({ lab: p }: Group, { lab: q }: Group): number {
  return Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
}

/** The group that spreads most, cut in two at its mean across its widest direction; null when all are tight. */
function splitWidest(groups: readonly Group[], census: Census, least: number): Group[] | null {
  let widest: { group: Group; axis: number; spread: number } | null = null;
  for (const group of groups)
    for (let axis = 0; axis < 3; axis++) {
      const spread = deviation(group, axis, census);
      if (spread > least && (!widest || spread * group.share > widest.spread * widest.group.share))
        widest = { group, axis, spread };
    }
  if (!widest) return null;
  const { group, axis } = widest;
  const below = group.cells.filter((i) => census.lab[3 * i + axis] < group.lab[axis]);
  const above = group.cells.filter((i) => census.lab[3 * i + axis] >= group.lab[axis]);
  const part = (cells: number[]): Group => ({
    ...group,
    cells,
    share: cells.reduce((sum, i) => sum + census.share[i], 0),
    lab: meanLab(cells, census),
  });
  const parts = [part(below), part(above)];
  if (parts.some(({ share }) => share < LEAST)) return null;
  return groups.flatMap((other) => (other === group ? parts : [other]));
}

function deviation({ cells, share, lab }: Group, axis: number, census: Census): number {
  let sum = 0;
  for (const i of cells) sum += census.share[i] * (census.lab[3 * i + axis] - lab[axis]) ** 2;
  return Math.sqrt(sum / share);
}

function meanLab(cells: readonly number[], census: Census): [number, number, number] {
  return linearToOklab(meanLight(cells, census));
}

function meanLight(cells: readonly number[], { share, rgb }: Census): [number, number, number] {
  const out: [number, number, number] = [0, 0, 0];
  let area = 0;
  for (const i of cells) {
    area += share[i];
    for (let c = 0; c < 3; c++) out[c] += share[i] * rgb[3 * i + c];
  }
  return [out[0] / area, out[1] / area, out[2] / area];
}

function named(groups: readonly Group[], census: Census): PaletteEntry[] {
  const sorted = [...groups].sort((p, q) => Number(p.accent) - Number(q.accent) || q.share - p.share);
  const seen = new Set<number>();
  const names = new Map<string, number>();
  return sorted.map(({ cells, share, lab, family, accent }) => {
    const main = family >= 0 && !seen.has(family);
    if (family >= 0) seen.add(family);
    const rgb = meanLight(cells, census);
    const word = wordFor(lab);
    const times = (names.get(word) ?? 0) + 1;
    names.set(word, times);
    return {
      name: times > 1 ? `${word} ${times}` : word,
      hex: cssHex(rgb),
      rgb,
      share,
      role: accent ? 'accent' : main ? 'family' : 'value',
    };
  });
}

/** A word for a colour with how light it is; borders are our default, by eye. */
function wordFor(lab: readonly [number, number, number]): string {
  const [L, chroma, hue] = oklabToOklch(lab);
  if (L < 0.17) return 'near black';
  if (L > 0.96 && chroma < 0.02) return 'near white';
  const light = L < 0.4 ? 'dark ' : L > 0.8 ? 'light ' : '';
  if (chroma < 0.02) return `${light}grey`;
  return `${light}${chroma < 0.06 ? 'greyed ' : ''}${colourName(L, chroma, hue)}`;
}
