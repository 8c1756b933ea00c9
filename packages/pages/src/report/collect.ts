import {
  type Answer,
  type ColourSpace,
  type ExaminedReading,
  editStages,
  examine,
  paletteOf,
  type ReadingInput,
  type Recipe,
  type View,
  workingSteps,
} from '@halflight/engine';
import type { PagePicture } from '../types/picture.ts';
import type { ReportData } from '../types/report.ts';
import {
  type GivenAnswer,
  gatherReport,
  mapsIn,
  type PaintedMap,
  paintMap,
  type ReadReading,
} from './gather.ts';

/** How pictures are made that a page can carry: command line and browser have encoders of their own. */
export interface PictureMaker {
  /** A view in sRGB, at most `side` pixels long. */
  view(view: View, side: number): Promise<PagePicture>;
  map(map: PaintedMap): Promise<PagePicture>;
}

/** What a report is read from. */
export interface ReportSubject {
  /** The picture with its edit, as readings take it. */
  readonly input: ReadingInput;
  /** The close view without the edit, and the space that its edit is held in. */
  readonly painted: View;
  readonly space: ColourSpace;
  /** The edit that `input` has; null for none. */
  readonly recipe: Recipe | null;
  readonly answers: readonly (Answer & GivenAnswer)[];
}

/** What is told beside what is read. */
export type ReportWords = Pick<ReportData, 'title' | 'author' | 'made' | 'process' | 'decided'> &
  Partial<Pick<ReportData, 'looks'>>;

/** Long side of the pictures on a page, and of those that places are drawn on. */
const LARGE = 1600;
const SMALL = 420;

/** Reads the edited picture and puts together what a report says of it. */
export async function collectReport(
  { input, painted, space, recipe, answers }: ReportSubject,
  words: ReportWords,
  make: PictureMaker,
): Promise<ReportData> {
  const { views, census, intent, picture } = input;
  const examination = examine(input, answers);
  const edit = recipe && workingSteps(recipe).length > 0 ? recipe : null;
  const stages = edit ? editStages(edit, painted, SMALL, space) : [];
  return gatherReport({
    looks: [],
    ...words,
    picture,
    now: await make.view(views.close, LARGE),
    small: await make.view(views.close, SMALL),
    ...(edit && {
      before: { label: 'as it was before the edit', picture: await make.view(painted, LARGE) },
      stages: await Promise.all(stages.map((stage) => make.view(stage, SMALL))),
    }),
    intent,
    recipe: edit,
    examination,
    readings: await Promise.all(examination.readings.map((reading) => readReading(reading, make))),
    answers,
    palette: paletteOf(census),
  });
}

async function readReading(examined: ExaminedReading, make: PictureMaker): Promise<ReadReading> {
  const { id, title, about, fine, drawing, measures, reading } = examined;
  const maps: Record<string, PagePicture> = {};
  for (const { map, palette } of mapsIn(drawing)) {
    const field = reading.maps[map]?.();
    if (field) maps[map] = await make.map(paintMap(field, palette));
  }
  return { id, title, about, fine, drawing, measures, evidence: reading.evidence, maps };
}
