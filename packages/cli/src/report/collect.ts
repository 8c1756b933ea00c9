import {
  type Answer,
  type Baseline,
  type Census,
  editCensus,
  editView,
  type Intent,
  leftOutOf,
  makeViews,
  OPEN_INTENT,
  type PictureFacts,
  type Raster,
  type Recipe,
  readingInput,
  readyRecipe,
  reduceView,
  takeCensus,
  takeSurvey,
  type Views,
  viewsOf,
  workingSteps,
} from '@halflight/engine';
import { encodeForPage, showView } from '@halflight/files/node';
import {
  collectReport as collect,
  type GivenAnswer,
  type PictureMaker,
  type ReportData,
} from '@halflight/pages';

/** What is known of a picture beside its pixels. */
export interface ReportWish {
  readonly title: string;
  readonly author?: string;
  readonly intent?: Intent;
  readonly baseline?: Baseline | null;
  readonly recipe?: Recipe | null;
  readonly answers?: readonly (Answer & GivenAnswer)[];
  /** What only a work over time knows. */
  readonly past?: Pick<ReportData, 'process' | 'looks' | 'decided'>;
}

/** Reads a picture with its edit and puts together what a report says of it. */
export async function collectReport(
  { raster, facts }: { readonly raster: Raster; readonly facts: PictureFacts },
  { title, author, intent = OPEN_INTENT, baseline = null, recipe = null, answers = [], past }: ReportWish,
): Promise<ReportData> {
  const views = makeViews(raster);
  const census = takeCensus(raster);
  const edits = recipe && workingSteps(recipe).length > 0 ? recipe : null;
  const now = edits ? edited(edits, raster, census, views) : { census, views };
  const leftOut = leftOutOf(answers, views.close);
  const input = readingInput({ picture: facts, ...now, intent, baseline, leftOut });
  return collect(
    { input, painted: views.close, space: raster.space, recipe: edits, answers },
    { title, ...(author && { author }), made: new Date().toISOString(), ...past },
    PICTURES,
  );
}

function edited(
  recipe: Recipe,
  { space }: Raster,
  census: Census,
  { close }: Views,
): { census: Census; views: Views } {
  const ready = readyRecipe(recipe, close);
  const source = ready.areas.length > 0 ? takeSurvey(close, ready.areas) : census;
  return {
    census: { ...editCensus(ready, source, space), area: census.area },
    views: viewsOf(editView(ready, close, space)),
  };
}

/** Pictures of a page by the imaging library of Node. */
export const PICTURES: PictureMaker = {
  async view(view, side) {
    const shown = showView(reduceView(view, side));
    const { width, height } = shown;
    return { bytes: await encodeForPage(shown, 'jpeg'), mediaType: 'image/jpeg', width, height };
  },
  async map({ width, height, data }) {
    const bytes = await encodeForPage({ width, height, data, channels: 3 }, 'png');
    return { bytes, mediaType: 'image/png', width, height };
  },
};
