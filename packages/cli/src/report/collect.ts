import {
  type Answer,
  type Baseline,
  type Census,
  type ExaminedReading,
  editCensus,
  editView,
  examine,
  type Intent,
  leftOutOf,
  makeViews,
  OPEN_INTENT,
  type PictureFacts,
  paletteOf,
  type Raster,
  type Recipe,
  readingInput,
  readyRecipe,
  reduceView,
  takeCensus,
  takeSurvey,
  type View,
  type Views,
  viewsOf,
} from '@halflight/engine';
import { encodeForPage, showView } from '@halflight/files/node';
import {
  type GivenAnswer,
  gatherReport,
  mapsIn,
  type PagePicture,
  paintMap,
  type ReadReading,
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

/** Long side of the pictures on a page, and of those that places are drawn on. */
const LARGE = 1600;
const SMALL = 420;

/** Reads a picture with its edit and puts together what a report says of it. */
export async function collectReport(
  { raster, facts }: { readonly raster: Raster; readonly facts: PictureFacts },
  { title, author, intent = OPEN_INTENT, baseline = null, recipe = null, answers = [], past }: ReportWish,
): Promise<ReportData> {
  const views = makeViews(raster);
  const census = takeCensus(raster);
  const edits = recipe?.steps.some(({ on, strength }) => on && strength > 0) ? recipe : null;
  const now = edits ? edited(edits, raster, census, views) : { census, views };
  const leftOut = leftOutOf(answers, views.close);
  const input = readingInput({ picture: facts, ...now, intent, baseline, leftOut });
  const examination = examine(input, answers);
  return gatherReport({
    title,
    ...(author && { author }),
    made: new Date().toISOString(),
    picture: facts,
    now: await photographed(now.views.close, LARGE),
    small: await photographed(now.views.close, SMALL),
    ...(edits && {
      before: { label: 'as it was before the edit', picture: await photographed(views.close, LARGE) },
    }),
    intent,
    recipe: edits,
    examination,
    readings: await Promise.all(examination.readings.map(readReading)),
    answers,
    palette: paletteOf(now.census),
    looks: [],
    ...past,
  });
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

/** A view as a picture on a page. */
async function photographed(view: View, side: number): Promise<PagePicture> {
  const shown = showView(reduceView(view, side));
  return {
    bytes: await encodeForPage(shown, 'jpeg'),
    mediaType: 'image/jpeg',
    width: shown.width,
    height: shown.height,
  };
}

async function readReading(examined: ExaminedReading): Promise<ReadReading> {
  const { id, title, about, fine, drawing, measures, reading } = examined;
  const maps: Record<string, PagePicture> = {};
  for (const { map, palette } of mapsIn(drawing)) {
    const field = reading.maps[map]?.();
    if (!field) continue;
    const { width, height, data } = paintMap(field, palette);
    const bytes = await encodeForPage({ width, height, data, channels: 3 }, 'png');
    maps[map] = { bytes, mediaType: 'image/png', width, height };
  }
  return { id, title, about, fine, drawing, measures, evidence: reading.evidence, maps };
}
