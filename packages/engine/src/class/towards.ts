import { luminanceOf } from '../colour/cielab.ts';
import type { Recipe, Step } from '../edits/step.ts';
import { consistencyOf, degrees, hueCentre, middleOf } from './consistency.ts';
import { medianOf } from './statistics.ts';
import type { LineWork } from './work.ts';

/** Shorter than this, the centre of a work's hues names no direction: they lie all around. Our default. */
const LEANS = 0.2;
/** More than this many stops are repainting. Our default. */
const MOST_STOPS = 2;

/**
 * The simplest edit towards a series for a work that is off by hue or key: all hues turned by the angle between its
 * centre and that of the series, and exposed by the distance of the keys. It comes from numbers alone: whether it
 * brings the work in is told by reading the edited picture again.
 *
 * @param at place of the work in the series
 * @returns null when the work is off by something else, or not at all
 */
export function towardsSeries(works: readonly LineWork[], at: number): Recipe | null {
  const off = consistencyOf(works).off.filter(({ work }) => work === at);
  const steps = off.flatMap(({ aspect, text }): Step[] => {
    if (aspect === 'hue') return turned(works, at, text);
    return aspect === 'key' ? exposed(works, at, text) : [];
  });
  return steps.length > 0 ? { schema: 'halflight/recipe@1', steps } : null;
}

function turned(works: readonly LineWork[], at: number, reason: string): Step[] {
  const centres = works.map(hueCentre);
  const [own, middle] = [centres[at], middleOf(centres)];
  if (!own || !middle || Math.hypot(...own) < LEANS || Math.hypot(...middle) < LEANS) return [];
  const turn = Math.round(((degrees(middle) - degrees(own) + 540) % 360) - 180);
  if (turn === 0) return [];
  return [
    {
      kind: 'hueTurn',
      on: true,
      strength: 1,
      values: { degrees: turn },
      reason: `${reason} All hues are turned by ${turn}°.`,
    },
  ];
}

function exposed(works: readonly LineWork[], at: number, reason: string): Step[] {
  const keys = works.map(({ values }) => values['mood.key'] ?? null);
  const own = keys[at];
  const middle = medianOf(keys.filter((key) => key !== null));
  if (own === null || own <= 0 || middle <= 0) return [];
  const stops = Math.log2(luminanceOf(middle) / luminanceOf(own));
  const held = Math.min(MOST_STOPS, Math.max(-MOST_STOPS, Number(stops.toFixed(2))));
  const words = `${reason} The whole is exposed ${held > 0 ? 'up' : 'down'} by ${Math.abs(held)} stops.`;
  return [{ kind: 'exposure', on: true, strength: 1, values: { stops: held }, reason: words }];
}
