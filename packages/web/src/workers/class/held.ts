import {
  type Census,
  checkLine,
  deltaOk,
  type Examination,
  editCensus,
  editView,
  examine,
  type Finding,
  type Intent,
  linearToOklab,
  type ReadingInput,
  type Recipe,
  readingInput,
  readyRecipe,
  type Triple,
  takeSurvey,
  type View,
  type Views,
  viewsOf,
} from '@halflight/engine';
import type { Decoded } from '@halflight/files';
import { placesOf } from '../picture/places.ts';

/** A picture with what its readings stand on. */
export interface Held {
  readonly id: string;
  /** With the work alone as its raster where it is a photograph or a screenshot of one. */
  readonly source: Decoded;
  readonly photographed: boolean;
  readonly census: Census;
  readonly views: Views;
}
/** The line of `check` for a picture. */
export function lineOf(
  { facts, raster }: Decoded,
  readings: Examination['readings'],
  findings: readonly Finding[],
): string {
  const told = readings.map(({ id, reading: { value, evidence } }) => ({ id, value, evidence }));
  return checkLine({ picture: facts, readings: told, findings }, raster.space);
}

/** The edited picture, read again. */
export function examineEdited(
  { source, census, views, photographed }: Held,
  recipe: Recipe,
  intent: Intent,
): { after: Examination; close: View } {
  const { facts, raster } = source;
  const ready = readyRecipe(recipe, views.close);
  const close = edited(recipe, views, source);
  const counted = ready.areas.length > 0 ? takeSurvey(views.close, ready.areas) : census;
  const input: ReadingInput = readingInput({
    picture: facts,
    census: { ...editCensus(ready, counted, raster.space), area: census.area },
    views: viewsOf(close),
    intent,
    photographed,
  });
  return { after: examine(input), close };
}

/** The close view of the edited picture. */
export function edited(recipe: Recipe, { close }: Views, { raster }: Decoded): View {
  return editView(readyRecipe(recipe, close), close, raster.space);
}

/** Findings that only have a map get its places, so that they can be drawn on a page. */
export function withPlaces(finding: Finding, readings: Examination['readings']): Finding {
  if (finding.places !== undefined || finding.map === undefined) return finding;
  const make = readings.find(({ id }) => id === finding.reading)?.reading.maps[finding.map];
  return make ? { ...finding, places: placesOf(make()) } : finding;
}

/** Every number of the readings that can tell. */
export function valuesOf(readings: Examination['readings']): Record<string, number | null> {
  const told = readings.filter(({ reading }) => reading.evidence.level !== 'weak');
  return Object.fromEntries(
    told.flatMap(({ id, measures }) => measures.map(({ key, value }) => [`${id}.${key}`, value] as const)),
  );
}

/** Mean ΔE_OK between two views of the same size, over every seventh pixel. */
export function meanChange(a: View, b: View): number {
  let sum = 0;
  let count = 0;
  const at = (view: View, p: number): Triple => [view.rgb[3 * p], view.rgb[3 * p + 1], view.rgb[3 * p + 2]];
  for (let p = 0; p < a.width * a.height; p += 7, count++)
    sum += deltaOk(linearToOklab(at(a, p)), linearToOklab(at(b, p)));
  return sum / Math.max(1, count);
}
