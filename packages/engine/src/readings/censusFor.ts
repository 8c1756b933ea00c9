import type { Census } from '../census/census.ts';
import { censusOfView } from '../census/ofView.ts';
import type { ReadingInput } from './reading.ts';

/** The colours a reading judges: all of the picture, or the rest when the artist left areas out. */
export function censusFor({ census, views, leftOut }: ReadingInput): Census {
  return leftOut ? censusOfView(views.close, leftOut) : census;
}
