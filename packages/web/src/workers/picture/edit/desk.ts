import {
  type Census,
  type ColourSpace,
  DELIVERY_SPACES,
  type Examination,
  type ExaminedReading,
  examineReading,
  type Intent,
  type PictureFacts,
  type Raster,
  READINGS,
  type ReadingInput,
  type Recipe,
  rank,
  readingInput,
  reduceView,
  statisticsOf,
  takeCensus,
  type View,
  type Views,
  viewEditor,
  viewsOf,
} from '@halflight/engine';
import type { Codec, Decoded } from '@halflight/files';
import { breathe } from '@halflight/files';
import { transfer } from 'comlink';
import type { Answer } from '../../../document/work.ts';
import type { ScreenSpace, Seen, SeenReading } from '../../../picture/desk.ts';
import type { EditDesk, TargetSpace } from '../../../picture/edit-desk.ts';
import { leftOutOf } from '../left-out.ts';
import { openLightDesk } from '../light/desk.ts';
import { paintView, type ScreenPixels } from '../paint.ts';
import { showArea } from './areas.ts';
import { bakePasses, cardSourceOf } from './bake.ts';
import { fileOf, nameAfter } from './file.ts';
import { openGuideDesk } from './guideDesk.ts';
import { openSurveyor, type Surveyor } from './measure.ts';
import { openReadier, type Readier } from './ready.ts';
import { openSheetDesk } from './sheetDesk.ts';
import { paintEditedWindow } from './window.ts';
import { inPortions, wishes } from './wishes.ts';
import { type Source, writeEdited } from './write.ts';

/** What the edit needs of the open picture. */
export interface EditedPicture {
  readonly facts: PictureFacts;
  readonly raster: Raster;
  readonly census: Census;
  readonly views: Views;
  readonly screen: ScreenSpace;
  /** What is known of its file. */
  readonly source: Source;
}

/** What the edit may ask of the rest of the worker. */
export interface Surroundings {
  /** The picture that is open; throws when none is. */
  open(): EditedPicture;
  codec(): Promise<Codec>;
  /** Reads another picture. */
  decode(file: Blob, name: string): Promise<Decoded>;
  /** The readings of the open picture. */
  examine(intent: Intent, answers: readonly Answer[]): { input: ReadingInput; examination: Examination };
  /** How a reading travels to the page. */
  seen(reading: ExaminedReading): SeenReading;
  toBitmap(pixels: ScreenPixels, width: number, screen: ScreenSpace): Promise<ImageBitmap>;
}

/** What is made ready once for a picture. */
interface Bench {
  readonly picture: EditedPicture;
  readonly readier: Readier;
  readonly surveyor: Surveyor;
  readonly reduced: Map<number, View>;
}

/** The edit's part of the picture worker. */
export function openEditDesk(house: Surroundings): EditDesk {
  const { open, decode, seen, toBitmap } = house;
  let bench: Bench | null = null;
  const previews = wishes();
  const windows = wishes();
  const examinations = wishes();
  const measures = wishes();
  const proposals = wishes();
  const bakes = wishes();
  let writing: AbortController | null = null;
  /** The window that is being painted: it is looked at, so that readings wait for it. */
  let painted: Promise<unknown> = Promise.resolve();

  /** The bench of the picture that is open now. */
  const at = (): Bench => {
    const picture = open();
    if (bench?.picture !== picture) {
      const { facts, census, views } = picture;
      const readier = openReadier(views.close);
      const surveyor = openSurveyor(facts, census, views, readier);
      bench = { picture, readier, surveyor, reduced: new Map() };
    }
    return bench;
  };
  const spaceOf = (name: TargetSpace): ColourSpace =>
    name === 'own' ? at().picture.raster.space : DELIVERY_SPACES[name];
  const reducedTo = (side: number): View => {
    const { reduced, picture } = at();
    let view = reduced.get(side);
    if (!view) {
      view = reduceView(picture.views.close, side);
      if (reduced.size > 2) reduced.clear();
      reduced.set(side, view);
    }
    return view;
  };
  const editedView = async (
    recipe: Recipe,
    view: View,
    space: TargetSpace,
    isNewest: () => boolean,
  ): Promise<View | null> => {
    const edit = viewEditor(at().readier.ready(recipe), view, spaceOf(space));
    const rgb = new Float32Array(view.rgb.length);
    const done = await inPortions(view.height, (from, to) => edit(from, to, rgb), isNewest);
    return done ? { ...view, rgb } : null;
  };

  return {
    ...openLightDesk(house),
    ...openSheetDesk(house),
    ...openGuideDesk(house),

    async preview(recipe, space, side) {
      const isNewest = previews();
      await breathe();
      if (!isNewest()) return null;
      const view = await editedView(recipe, reducedTo(side), space, isNewest);
      if (view === null) return null;
      const { screen } = at().picture;
      const bitmap = await toBitmap(paintView(view, screen), view.width, screen);
      return transfer(bitmap, [bitmap]);
    },

    async editedWindow(recipe, space, part) {
      const isNewest = windows();
      const { picture, readier } = at();
      const { raster, screen } = picture;
      const ready = readier.ready(recipe);
      const painting = paintEditedWindow(ready, raster, spaceOf(space), part, screen, isNewest);
      painted = painting.catch(() => null);
      const pixels = await painting;
      if (pixels === null) return null;
      const bitmap = await toBitmap(pixels, part.outWidth, screen);
      return transfer(bitmap, [bitmap]);
    },

    async measure(recipe, space, intent) {
      const isNewest = measures();
      await breathe();
      return isNewest() ? at().surveyor.measure(recipe, spaceOf(space), intent) : null;
    },

    async examineEdit(recipe, space, intent, answers) {
      const isNewest = examinations();
      const { picture, surveyor } = at();
      await painted;
      if (!isNewest()) return null;
      const close = await editedView(recipe, picture.views.close, space, isNewest);
      if (close === null) return null;
      const input = readingInput({
        picture: picture.facts,
        census: surveyor.count(recipe, spaceOf(space)),
        views: viewsOf(close),
        intent,
        leftOut: leftOutOf(answers, picture.views.close),
      });
      const readings: ExaminedReading[] = [];
      for (const kind of READINGS) {
        await breathe();
        if (!isNewest()) return null;
        readings.push(examineReading(kind, input));
      }
      const { findings, settled, undecided }: Omit<Examination, 'readings'> = rank(readings, intent, answers);
      return { findings, settled, undecided, readings: readings.map(seen) } satisfies Seen;
    },

    async example(file, name) {
      const { raster } = await decode(file, name);
      return { from: statisticsOf(at().picture.census), to: statisticsOf(takeCensus(raster)) };
    },

    async propose(intent, answers, kept, progress) {
      const isNewest = proposals();
      progress({ doing: 'Reading the picture', share: null });
      await breathe();
      // The search is large, and the first load is for looking.
      const { proposeInPortions } = await import('./propose.ts');
      const { input, examination } = house.examine(intent, answers);
      const tell = (share: number): void => progress({ doing: 'Trying steps on its colours', share });
      return proposeInPortions({ input, examination, answers, kept }, tell, isNewest);
    },

    async stopProposing() {
      proposals();
    },

    async write(recipe, how, progress) {
      writing?.abort();
      const mine = new AbortController();
      writing = mine;
      const { picture, readier } = at();
      try {
        const ready = readier.ready(recipe);
        const codec = await house.codec();
        const { source } = picture;
        const bytes = await writeEdited(codec, source, ready, spaceOf(how.space), how, progress, mine.signal);
        return fileOf(bytes, nameAfter(picture.facts.name, 'edited', how.format), how.format);
      } catch (error) {
        if (mine.signal.aborted) return null;
        throw error;
      }
    },

    async stopWriting() {
      writing?.abort();
    },

    async areaMap(step, side) {
      const { picture, readier } = at();
      const alone: Recipe = { schema: 'halflight/recipe@1', steps: [{ ...step, on: true, strength: 1 }] };
      const ready = readier.ready(alone);
      if (ready.areas.length === 0) return null;
      const map = showArea(ready, 0, picture.views.close, side);
      return transfer(map, [map.data.buffer]);
    },

    async cardSource(side) {
      const source = cardSourceOf(reducedTo(side));
      return transfer(source, [source.data.buffer]);
    },

    async bake(recipe, space, side, fine) {
      const isNewest = bakes();
      const { screen } = at().picture;
      const passes = await bakePasses(recipe, reducedTo(side), spaceOf(space), screen, fine, isNewest);
      return (
        passes &&
        transfer(
          passes,
          passes.map(({ data }) => data.buffer),
        )
      );
    },
  };
}
