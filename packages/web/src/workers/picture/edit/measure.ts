import {
  type Census,
  type ColourSpace,
  editCensus,
  editView,
  type Intent,
  type PictureFacts,
  READINGS,
  type Recipe,
  readingInput,
  type Survey,
  takeSurvey,
  type Views,
} from '@halflight/engine';
import type { LiveMeasure } from '../../../picture/edit-desk.ts';
import type { Readier } from './ready.ts';

/** Readings that follow a value while it is dragged: those that look at colours, not at places. */
const LIVE: readonly string[] = ['hueSpread', 'value', 'mood'];

/** Counts colours of one picture for recipes; what only depends on the areas is kept. */
export interface Surveyor {
  /** The edited colours, from the full census where no step has an area. */
  count(recipe: Recipe, space: ColourSpace): Census;
  measure(recipe: Recipe, space: ColourSpace, intent: Intent): LiveMeasure[];
}

export function openSurveyor(facts: PictureFacts, census: Census, views: Views, readier: Readier): Surveyor {
  let last: { name: string; survey: Survey } | null = null;
  const surveyOf = (recipe: Recipe): Survey => {
    const name = readier.areasName(recipe);
    if (last?.name !== name) last = { name, survey: takeSurvey(views.close, readier.ready(recipe).areas) };
    return last.survey;
  };
  const count = (recipe: Recipe, space: ColourSpace, quick: boolean): Census => {
    const ready = readier.ready(recipe);
    const source = quick || ready.areas.length > 0 ? surveyOf(recipe) : census;
    // A survey is made on a small copy: how large the picture is, it does not know.
    return { ...editCensus(ready, source, space), area: census.area };
  };
  return {
    count: (recipe, space) => count(recipe, space, false),
    measure(recipe, space, intent) {
      const whole = editView(readier.ready(recipe), views.whole, space);
      // Softness of edges is no matter of colour: the picture's own edges stand for the edited ones.
      const seen: Views = { close: views.middle, middle: views.middle, whole };
      const input = readingInput({
        picture: facts,
        census: count(recipe, space, true),
        views: seen,
        intent,
      });
      return READINGS.filter(({ id }) => LIVE.includes(id)).flatMap((kind) => {
        const { value } = kind.read(input);
        return kind.measures.map(({ key, get }) => ({ reading: kind.id, key, value: get(value) }));
      });
    },
  };
}
