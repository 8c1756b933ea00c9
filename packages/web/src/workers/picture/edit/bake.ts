import {
  type ColourSpace,
  DISPLAY_P3,
  fromSrgb,
  gamutMapper,
  linearToSrgb,
  type Recipe,
  SRGB,
  type Step,
  stepRunner,
  type View,
} from '@halflight/engine';
import type { ScreenSpace } from '../../../picture/desk.ts';
import type { CardPass, CardSource } from '../../../picture/edit-desk.ts';
import { counts } from './ready.ts';
import { inPortions } from './wishes.ts';

/** Places a side of a table: while a value is dragged, and after. */
const COARSE = 17;
const FINE = 33;
/** Covers that are baked for steps in an area; between them the card mixes. */
const LEVELS = 5;
/** Numbers are kept as a root of light, so that darks get as many places as lights; negative light stays negative. */
const ROOT = 2.4;
const code = (light: number): number => Math.sign(light) * Math.abs(light) ** (1 / ROOT);
const light = (coded: number): number => Math.sign(coded) * Math.abs(coded) ** ROOT;

/** A view as the card reads it. */
export function cardSourceOf({ width, height, rgb, alpha }: View): CardSource {
  const data = new Float32Array(4 * width * height);
  for (let p = 0; p < width * height; p++) {
    for (let c = 0; c < 3; c++) data[4 * p + c] = code(rgb[3 * p + c]);
    data[4 * p + 3] = alpha ? alpha[p] : 1;
  }
  return { width, height, data };
}

/** Steps that follow each other in one area. */
interface Run {
  readonly steps: Step[];
  readonly area: string | null;
  readonly areaOf: number | null;
}

function runsOf({ steps }: Recipe): Run[] {
  const runs: Run[] = [];
  for (const [index, step] of steps.entries()) {
    if (!counts(step)) continue;
    const area = step.area && step.area.parts.length > 0 ? JSON.stringify(step.area) : null;
    const last = runs.at(-1);
    if (last && last.area === area) last.steps.push(step);
    else runs.push({ steps: [step], area, areaOf: area === null ? null : index });
  }
  return runs;
}

/**
 * The passes of a recipe, each a table made by the kernel; the last one ends in code values of the screen, inside the
 * target space. Null when the wish is no longer the newest.
 */
export async function bakePasses(
  recipe: Recipe,
  view: View,
  space: ColourSpace,
  screen: ScreenSpace,
  fine: boolean,
  isNewest: () => boolean,
): Promise<CardPass[] | null> {
  const size = fine ? FINE : COARSE;
  const runs = runsOf(recipe);
  const passes: CardPass[] = [];
  let range = viewRange(view);
  for (const [index, { steps, area, areaOf }] of runs.entries()) {
    const levels = area === null ? 1 : LEVELS;
    const edit = stepRunner(
      steps,
      steps.map(() => (area === null ? null : 0)),
    );
    const last = index === runs.length - 1;
    const finish = last ? toScreen(space, screen) : toCode;
    const data = new Float32Array(4 * levels * size ** 3);
    const { low, high } = range;
    const one = new Float64Array(3);
    const cover = new Float64Array(1);
    const at = (c: number, k: number): number => light(low[c] + ((high[c] - low[c]) * k) / (size - 1));
    const done = await inPortions(
      levels * size,
      (from, to) => {
        for (let plane = from; plane < to; plane++) {
          cover[0] = levels === 1 ? 1 : Math.floor(plane / size) / (levels - 1);
          const blue = at(2, plane % size);
          for (let g = 0, o = 4 * plane * size * size; g < size; g++) {
            const green = at(1, g);
            for (let r = 0; r < size; r++, o += 4) {
              one[0] = at(0, r);
              one[1] = green;
              one[2] = blue;
              edit(one, 0, cover, 0);
              finish(one);
              data[o] = one[0];
              data[o + 1] = one[1];
              data[o + 2] = one[2];
            }
          }
        }
      },
      isNewest,
    );
    if (!done) return null;
    passes.push({ size, levels, data, low, high, areaOf });
    range = rangeOf(data, 4, (v) => v);
  }
  return passes;
}

/** Ranges of views that were asked for: looking for them takes longer than a small table. */
const ranges = new WeakMap<View, Range>();

function viewRange(view: View): Range {
  let range = ranges.get(view);
  if (!range) {
    range = rangeOf(view.rgb, 3, code);
    ranges.set(view, range);
  }
  return range;
}

/** The lowest and the highest of each channel, coded. */
type Range = Pick<CardPass, 'low' | 'high'>;

function toCode(rgb: Float64Array): void {
  for (let c = 0; c < 3; c++) rgb[c] = code(rgb[c]);
}

/** Into the target space, then to code values of the screen. */
function toScreen(space: ColourSpace, screen: ScreenSpace): (rgb: Float64Array) => void {
  const hold = gamutMapper(space);
  const m = fromSrgb(screen === 'display-p3' ? DISPLAY_P3 : SRGB);
  return (rgb) => {
    hold(rgb, 0);
    const [r, g, b] = rgb;
    for (let c = 0; c < 3; c++) {
      const own = m[3 * c] * r + m[3 * c + 1] * g + m[3 * c + 2] * b;
      rgb[c] = linearToSrgb(Math.min(1, Math.max(0, own)));
    }
  };
}

/** The range of each channel, never empty. */
function rangeOf(data: Float32Array, stride: number, coded: (v: number) => number): Range {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < data.length; i += stride)
    for (let c = 0; c < 3; c++) {
      const v = data[i + c];
      if (v < low[c]) low[c] = v;
      if (v > high[c]) high[c] = v;
    }
  return {
    low: low.map((v) => (Number.isFinite(v) ? coded(v) : 0)),
    high: high.map((v, c) => Math.max(coded(Number.isFinite(v) ? v : 1), coded(low[c]) + 1e-3)),
  };
}
