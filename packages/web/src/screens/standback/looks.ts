import { countWord, sentence, toLater } from '@halflight/engine';
import type { Look, Work } from '../../document/work.ts';
import type { SeenMap } from '../../picture/desk.ts';
import type { LookFacts } from '../../picture/time-desk.ts';

type Point = readonly [number, number];

/** A look whose places lie on the newest version; places that it does not show are left out. */
export interface CarriedLook extends Omit<Look, 'first' | 'pulledOut'> {
  readonly first?: Point;
  readonly pulledOut?: { readonly place?: Point; readonly word?: string };
}

/** The looks of a work, the latest first, with their places carried to the newest version. */
export function carriedLooks({ looks, versions }: Work): CarriedLook[] {
  const carry = (point: Point | undefined, from: number): Point | undefined => {
    let at = point;
    for (const { number, change } of versions) {
      if (number <= from || at === undefined) continue;
      at = change && toLater(change.pose, ...at);
    }
    return at?.every((share) => share >= 0 && share <= 1) ? at : undefined;
  };
  return looks.toReversed().map(({ first, pulledOut, ...look }) => {
    const begun = carry(first, look.version);
    const place = carry(pulledOut?.place, look.version);
    return {
      ...look,
      ...(begun && { first: begun }),
      ...(pulledOut && {
        pulledOut: { ...(place && { place }), ...(pulledOut.word && { word: pulledOut.word }) },
      }),
    };
  });
}

/** Long side of the heat of looks, and how far a look reaches on it: some 4 % of the picture, our default. */
const HEAT = 96;
const REACH = 0.04 * HEAT;

/** Where looks began, as a map: 255 where most of them did. */
export function heatOf(points: readonly Point[], aspect: number): SeenMap {
  const width = Math.max(1, Math.round(aspect >= 1 ? HEAT : HEAT * aspect));
  const height = Math.max(1, Math.round(aspect >= 1 ? HEAT / aspect : HEAT));
  const sum = new Float32Array(width * height);
  let most = 0;
  for (let p = 0; p < sum.length; p++) {
    const x = (p % width) + 0.5;
    const y = Math.floor(p / width) + 0.5;
    for (const [u, v] of points) {
      const distance = Math.hypot(x - u * width, y - v * height) / REACH;
      sum[p] += Math.exp(-0.5 * distance * distance);
    }
    most = Math.max(most, sum[p]);
  }
  return { width, height, data: Uint8Array.from(sum, (value) => (most > 0 ? (255 * value) / most : 0)) };
}

/** Share of a map's places that say less than this one: 1 is its peak. */
export function rankIn({ width, height, data }: SeenMap, [x, y]: Point): number {
  const at = (share: number, size: number): number =>
    Math.min(size - 1, Math.max(0, Math.floor(share * size)));
  const value = data[at(y, height) * width + at(x, width)];
  let below = 0;
  for (const other of data) if (other < value) below++;
  return below / data.length;
}

/** A look counts as foreseen in the upper tenth of the prediction: our default. */
const FORESEEN = 0.9;

/** What the looks say together, in sentences. */
export function lookSentences(looks: readonly CarriedLook[], facts: LookFacts | null): string[] {
  const begun = looks.flatMap(({ first }) => (first ? [first] : []));
  const sentences: string[] = [];
  if (begun.length > 0 && facts) {
    const { focus, predicted } = facts;
    if (focus) sentences.push(begunSentence(begun, (at) => valueAt(focus, at) > 127, 'in the focus'));
    const foreseen = (at: Point): boolean => rankIn(predicted, at) >= FORESEEN;
    sentences.push(begunSentence(begun, foreseen, 'where the eye is predicted to go'));
  }
  const moods = looks.flatMap(({ mood }) => (mood === undefined ? [] : [mood]));
  if (moods.length > 0) {
    const mean = moods.reduce((sum, mood) => sum + mood, 0) / moods.length;
    const who =
      moods.length === 1 ? 'One look says' : `${sentence(countWord(moods.length))} looks say on the average`;
    sentences.push(`${who} that the mood is ${moodWord(mean)}.`);
  }
  const words = looks.flatMap(({ pulledOut }) => (pulledOut?.word ? [pulledOut.word] : []));
  if (words.length > 0) {
    const counted = [...new Set(words)].map((word) => {
      const times = words.filter((it) => it === word).length;
      return times > 1 ? `${word} (${countWord(times)} times)` : word;
    });
    sentences.push(`What pulled the eye out: ${counted.join(', ')}.`);
  }
  return sentences;
}

function begunSentence(all: readonly Point[], is: (point: Point) => boolean, where: string): string {
  const count = all.filter(is).length;
  if (all.length === 1) return count === 1 ? `The look began ${where}.` : `The look did not begin ${where}.`;
  if (count === 0) return `None of ${countWord(all.length)} looks began ${where}.`;
  if (count === all.length) return `All ${countWord(count)} looks began ${where}.`;
  return `${sentence(countWord(count))} of ${countWord(all.length)} looks began ${where}.`;
}

function valueAt({ width, height, data }: SeenMap, [x, y]: Point): number {
  return data[
    Math.min(height - 1, Math.floor(y * height)) * width + Math.min(width - 1, Math.floor(x * width))
  ];
}

/** The five answers about the mood. */
export const MOODS = [
  { mood: 0, word: 'not there' },
  { mood: 0.25, word: 'hardly there' },
  { mood: 0.5, word: 'half there' },
  { mood: 0.75, word: 'mostly there' },
  { mood: 1, word: 'all there' },
] as const;

export function moodWord(mood: number): string {
  return MOODS[Math.round(4 * Math.min(1, Math.max(0, mood)))].word;
}

/** The neutral sRGB grey of an L*, as CSS (IEC 61966-2-1 and CIE 15). */
export function greyOf(lightness: number): string {
  const f = (lightness + 16) / 116;
  const y = lightness > 8 ? f ** 3 : lightness / 903.2963;
  const code = y <= 0.0031308 ? 12.92 * y : 1.055 * y ** (1 / 2.4) - 0.055;
  const value = Math.round(255 * Math.min(1, Math.max(0, code)));
  return `rgb(${value} ${value} ${value})`;
}
