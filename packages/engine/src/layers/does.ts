import { listOf, unitAfter } from '../findings/wording.ts';
import type { MoodAxis } from '../intent/intent.ts';
import { MOOD_AXES } from '../intent/moodAxes.ts';
import type { ReadingId } from '../readings/reading.ts';
import type { View } from '../views/view.ts';
import { measureSmall } from './measures.ts';
import type { LayersReading } from './read.ts';

/** One number of the picture with a layer and without it. */
export interface LayerDoes {
  readonly reading: ReadingId;
  readonly key: string;
  readonly with: number | null;
  readonly without: number | null;
}

/** CIEDE2000 at the 95th percentile from which a layer is asked what it does; below, nobody sees it. Our default. */
const ASKED = 1;

/**
 * What hiding each layer or group does to mood, hue spread and headroom, by path; layers that hardly show are left out,
 * and those without which there is no picture.
 * Numbers are those of small copies (`measureSmall`).
 */
export function* whatLayersDo(reading: LayersReading): Generator<number, Map<string, readonly LayerDoes[]>> {
  const does = new Map<string, readonly LayerDoes[]>();
  if (!reading.whole) return does;
  const { numbers } = measureSmall(reading.whole);
  const picture = cover(reading.whole);
  const asked = reading.layers.filter(
    ({ worth, without }) => without && worth.p95 >= ASKED && cover(without) >= LEFT * picture,
  );
  for (const [i, { path, without }] of asked.entries()) {
    const others = measureSmall(without!).numbers;
    does.set(
      path,
      numbers.map(({ reading, key, value }, k) => ({ reading, key, with: value, without: others[k].value })),
    );
    yield (i + 1) / asked.length;
  }
  return does;
}

/** Share of the picture that has to be left without a layer: of a hole nothing can be told. Our default. */
const LEFT = 0.9;

function cover({ alpha, width, height }: View): number {
  return alpha ? alpha.reduce((sum, a) => sum + a, 0) : width * height;
}

/** How a number is told: what having more or less of it is like, and from what change on ("our default"). */
interface Telling {
  readonly more: string;
  readonly less: string;
  readonly from: number;
  readonly ratio?: boolean;
  readonly digits: number;
  readonly unit: string;
}

/** Share of a step of a mood axis from which a change is told ("our default"). */
const TOLD = 0.25;
/** Most changes in a sentence. */
const MOST = 3;

const axisTelling = (axis: MoodAxis): Telling => {
  const { more, less, step, digits, unit } = MOOD_AXES[axis];
  return {
    more: `makes the picture ${more}`,
    less: `makes the picture ${less}`,
    from: TOLD * step,
    digits,
    unit,
  };
};
const TELLINGS: Readonly<Record<string, Telling>> = {
  effectiveHues: {
    more: 'spreads its hues',
    less: 'gathers its hues',
    from: 1.12,
    ratio: true,
    digits: 1,
    unit: 'hues',
  },
  exposureUp: {
    more: 'leaves more room to expose up',
    less: 'leaves less room to expose up',
    from: 0.15,
    digits: 2,
    unit: 'stops',
  },
  exposureDown: {
    more: 'leaves more room to expose down',
    less: 'leaves less room to expose down',
    from: 0.15,
    digits: 2,
    unit: 'stops',
  },
  chromaGain: {
    more: 'leaves more room for chroma',
    less: 'leaves less room for chroma',
    from: 1.12,
    ratio: true,
    digits: 2,
    unit: '×',
  },
  warmCool: axisTelling('warmCool'),
  heavyLight: axisTelling('heavyLight'),
  key: axisTelling('key'),
  contrast: axisTelling('contrast'),
};

/** The largest changes as one sentence, e.g. "It makes the picture warmer (-0.42 → -0.10)."; null when there is none to tell. */
export function doesSentence(does: readonly LayerDoes[]): string | null {
  const told = does
    .flatMap(({ key, with: after, without: before }) => {
      const telling = TELLINGS[key];
      if (!telling || after === null || before === null) return [];
      const { ratio, from, digits, unit } = telling;
      const change = ratio
        ? Math.log(Math.max(after, 0.01) / Math.max(before, 0.01)) / Math.log(from)
        : (after - before) / from;
      const numbers = `${before.toFixed(digits)}\u00a0→\u00a0${after.toFixed(digits)}${unitAfter(unit)}`;
      return [{ size: Math.abs(change), text: `${change > 0 ? telling.more : telling.less} (${numbers})` }];
    })
    .filter(({ size }) => size >= 1)
    .sort((a, b) => b.size - a.size)
    .slice(0, MOST);
  return told.length === 0 ? null : `It ${listOf(told.map(({ text }) => text))}.`;
}
