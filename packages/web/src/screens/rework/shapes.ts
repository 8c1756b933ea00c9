import { type AreaShape, hueName } from '@halflight/engine';
import type { Seen } from '../../picture/desk.ts';

/** What the readings know of the picture that an area can be made of. */
export interface Shapes {
  readonly groups: readonly { readonly words: string; readonly shape: AreaShape }[];
  readonly families: readonly number[];
  readonly notes: readonly { readonly words: string; readonly outlines: readonly (readonly number[])[] }[];
}

/** Thirds of L*, while no groups were read. */
const THIRDS = [33, 60];

export function shapesFrom(seen: Seen | null): Shapes {
  const readingOf = (id: string): unknown => seen?.readings.find((reading) => reading.id === id)?.value;
  const value = readingOf('value') as { groups?: readonly { L: number }[] } | undefined;
  const hue = readingOf('hueSpread') as { families?: readonly { hue: number }[] } | undefined;
  const hues = (hue?.families ?? []).map((family) => Math.round(family.hue) % 360);
  return {
    groups: groupsOf(value?.groups ?? []),
    // Families with one name would be told apart by nobody.
    families: hues.filter((it, index) => hues.findIndex((other) => hueName(other) === hueName(it)) === index),
    notes: [...(seen?.findings ?? []), ...(seen?.settled ?? [])].flatMap(({ text, places = [] }) => {
      const outlines = places.flatMap(({ outline }) => (outline ? [outline] : []));
      return outlines.length > 0 ? [{ words: text, outlines }] : [];
    }),
  };
}

/** Groups of value are told apart halfway between their means, as the reading does. */
function groupsOf(groups: readonly { L: number }[]): Shapes['groups'] {
  const means = groups.map(({ L }) => L).sort((a, b) => a - b);
  const halves = means.slice(1).map((L, index) => Math.round((L + means[index]) / 2));
  const borders = halves.length > 0 ? halves : THIRDS;
  return [0, ...borders].map((from, index) => {
    const to = borders[index] ?? 100;
    const name = index === 0 ? 'the darks' : index === borders.length ? 'the lights' : 'middle values';
    return { words: `${name}, from ${from} to ${to}`, shape: { kind: 'values', from, to } };
  });
}
