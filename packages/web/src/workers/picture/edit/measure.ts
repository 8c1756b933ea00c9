import {
  type Census,
  type ColourSpace,
  editCensus,
  type Intent,
  liveMeasures,
  type PictureFacts,
  type Recipe,
  readingInput,
  type Survey,
  takeSurvey,
  type Views,
} from '@halflight/engine';
import type { LiveMeasure } from '../../../picture/edit-desk.ts';
import type { Readier } from './ready.ts';

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
  return {
    count(recipe, space) {
      const ready = readier.ready(recipe);
      const source = ready.areas.length > 0 ? surveyOf(recipe) : census;
      // A survey is made on a small copy: how large the picture is, it does not know.
      return { ...editCensus(ready, source, space), area: census.area };
    },
    measure: (recipe, space, intent) =>
      liveMeasures(
        readingInput({ picture: facts, census, views, intent }),
        surveyOf(recipe),
        readier.ready(recipe),
        space,
      ),
  };
}
