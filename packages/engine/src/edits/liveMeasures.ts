import type { ColourSpace } from '../colour/space.ts';
import { READINGS } from '../readings/list.ts';
import type { ReadingId, ReadingInput } from '../readings/reading.ts';
import type { ReadyRecipe } from './compile.ts';
import { editCensus } from './editCensus.ts';
import { editView } from './editView.ts';
import type { Survey } from './survey.ts';

/** One number of a reading. */
export interface LiveNumber {
  readonly reading: ReadingId;
  readonly key: string;
  readonly value: number | null;
}

/** Readings that follow a value while it is dragged: those that look at colours, not at places. */
const LIVE: readonly ReadingId[] = ['hueSpread', 'value', 'mood'];

/**
 * The numbers of an edit while one of its values is dragged, from a survey of the picture's colours.
 *
 * @param input of the picture as it is
 * @param survey its colours, kept apart by the areas of the recipe
 */
export function liveMeasures(
  input: ReadingInput,
  survey: Survey,
  ready: ReadyRecipe,
  space: ColourSpace,
): LiveNumber[] {
  const { views, census } = input;
  const edited: ReadingInput = {
    ...input,
    // A survey is made on a small copy: how large the picture is, it does not know.
    census: { ...editCensus(ready, survey, space), area: census.area },
    // Softness of edges is no matter of colour: the picture's own edges stand for the edited ones.
    views: { close: views.middle, middle: views.middle, whole: editView(ready, views.whole, space) },
  };
  return READINGS.filter(({ id }) => LIVE.includes(id)).flatMap((kind) => {
    const { value } = kind.read(edited);
    return kind.measures.map(({ key, get }) => ({ reading: kind.id, key, value: get(value) }));
  });
}
