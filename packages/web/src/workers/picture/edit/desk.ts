import {
  type Census,
  type ColourSpace,
  DELIVERY_SPACES,
  type Examination,
  type ExaminedReading,
  examineReading,
  type PictureFacts,
  type Raster,
  READINGS,
  type ReadingInput,
  type Recipe,
  rank,
  reduceView,
  statisticsOf,
  takeCensus,
  type View,
  type Views,
  viewEditor,
  viewsOf,
} from '@halflight/engine';
import type { Decoded } from '@halflight/files';
import { transfer } from 'comlink';
import type { ScreenSpace, Seen, SeenReading } from '../../../picture/desk.ts';
import type { EditDesk, TargetSpace } from '../../../picture/edit-desk.ts';
import { leftOutOf } from '../left-out.ts';
import { paintView, type ScreenPixels } from '../paint.ts';
import { showArea } from './areas.ts';
import { openSurveyor, type Surveyor } from './measure.ts';
import { openReadier, type Readier } from './ready.ts';
import { paintEditedWindow } from './window.ts';
import { breathe, inPortions, wishes } from './wishes.ts';

/** What the edit needs of the open picture. */
export interface EditedPicture {
  readonly facts: PictureFacts;
  readonly raster: Raster;
  readonly census: Census;
  readonly views: Views;
  readonly screen: ScreenSpace;
}

/** What is made ready once for a picture. */
interface Bench {
  readonly picture: EditedPicture;
  readonly readier: Readier;
  readonly surveyor: Surveyor;
  readonly reduced: Map<number, View>;
}

/**
 * The edit's part of the picture worker.
 *
 * @param open the picture that is open; throws when none is
 * @param decode reads another picture
 * @param seen how a reading travels to the page
 */
export function openEditDesk(
  open: () => EditedPicture,
  decode: (file: Blob, name: string) => Promise<Decoded>,
  seen: (reading: ExaminedReading) => SeenReading,
  toBitmap: (pixels: ScreenPixels, width: number, screen: ScreenSpace) => Promise<ImageBitmap>,
): EditDesk {
  let bench: Bench | null = null;
  const previews = wishes();
  const windows = wishes();
  const examinations = wishes();
  const measures = wishes();

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
      reduced.clear();
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
      const pixels = await paintEditedWindow(ready, raster, spaceOf(space), part, screen, isNewest);
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
      const close = await editedView(recipe, picture.views.close, space, isNewest);
      if (close === null) return null;
      const input: ReadingInput = {
        picture: picture.facts,
        census: surveyor.count(recipe, spaceOf(space)),
        views: viewsOf(close),
        intent,
        baseline: null,
        leftOut: leftOutOf(answers, picture.views.close),
        photographed: false,
      };
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

    async areaMap(recipe, step) {
      const { picture, readier } = at();
      const alone = { ...recipe, steps: [{ ...recipe.steps[step], on: true, strength: 1 }] };
      const ready = readier.ready(alone);
      if (ready.areas.length === 0) return null;
      const map = showArea(ready, 0, picture.views.close);
      return transfer(map, [map.data.buffer]);
    },
  };
}
