import {
  bakeTable,
  type Census,
  calmLoss,
  DELIVERY_SPACES,
  type Examination,
  editCensus,
  editView,
  type GamutLook,
  gamutLook,
  type HandoverSettings,
  type Intent,
  paletteOf,
  type ReadingInput,
  type Recipe,
  readyRecipe,
  reduceView,
  tableNote,
  tableSpace,
  takeSurvey,
  type View,
  type Views,
  viewInSpace,
  viewsOf,
} from '@halflight/engine';
import type { Codec } from '@halflight/files';
import type { ReportData } from '@halflight/pages';
import { transfer } from 'comlink';
import type { Answer } from '../../../document/work.ts';
import type { SeenMap } from '../../../picture/desk.ts';
import type { ChosenProfile, HandoverDesk } from '../../../picture/handover-desk.ts';
import type { EditedPicture } from '../edit/desk.ts';
import { counts } from '../edit/ready.ts';

/** What this part may ask of the rest of the worker. */
export interface Surroundings {
  open(): EditedPicture;
  codec(): Promise<Codec>;
  examine(intent: Intent, answers: readonly Answer[]): { input: ReadingInput; examination: Examination };
}

/** Long side of the copy on which a loss is looked for. */
const LOOKED_AT = 900;

const TYPES: Readonly<Record<HandoverSettings['format'], string>> = {
  png: 'image/png',
  jpeg: 'image/jpeg',
  tiff: 'image/tiff',
  webp: 'image/webp',
  openraster: 'image/openraster',
};

/** What leaves the house: the picture worker's last part. What it needs is loaded when it is asked. */
export function openHandoverDesk(house: Surroundings): HandoverDesk {
  let running: AbortController | null = null;
  let gathered: { of: object; name: string; data: Promise<ReportData> } | null = null;

  const edited = (recipe: Recipe): { census: Census; views: Views } => {
    const { census, views, raster } = house.open();
    if (!recipe.steps.some(counts)) return { census, views };
    const ready = readyRecipe(recipe, views.close);
    const source = ready.areas.length > 0 ? takeSurvey(views.close, ready.areas) : census;
    return {
      census: { ...editCensus(ready, source, raster.space), area: census.area },
      views: viewsOf(editView(ready, views.close, raster.space)),
    };
  };
  const lookedAt = (recipe: Recipe): View => {
    const { views, raster } = house.open();
    const small = reduceView(views.close, LOOKED_AT);
    return editView(readyRecipe(recipe, views.close), small, raster.space);
  };
  const lookFor = async (
    { space }: HandoverSettings,
    profile: ChosenProfile,
  ): Promise<(view: View) => GamutLook> => {
    const { raster } = house.open();
    if (typeof space === 'string') {
      const target = space === 'own' ? raster.space : DELIVERY_SPACES[space];
      return (view) => gamutLook(view, viewInSpace(view, target));
    }
    const { lookInProfile, openProfile } = await import('@halflight/files/handover');
    if (profile === null) throw new Error(`The profile “${space.profile}” is gone. Choose its file again.`);
    const output = openProfile(profile, space.profile);
    if (output.space) {
      const target = output.space;
      return (view) => gamutLook(view, viewInSpace(view, target));
    }
    const inks = await (await house.codec()).openInks(output);
    return (view) => lookInProfile(view, inks, space);
  };

  return {
    async handOver(recipe, settings, profile, places, progress) {
      running?.abort();
      const mine = new AbortController();
      running = mine;
      try {
        const { writePicture } = await import('@halflight/files/handover');
        const { source, views } = house.open();
        const { bytes, name, notes } = await writePicture(await house.codec(), source, recipe, settings, {
          ...(profile && { profile }),
          close: views.close,
          places,
          signal: mine.signal,
          onProgress: progress,
        });
        const blob = new Blob([bytes as Uint8Array<ArrayBuffer>], { type: TYPES[settings.format] });
        return { blob, name, notes, readBack: true };
      } catch (error) {
        if (mine.signal.aborted) return null;
        throw error;
      }
    },

    async stopHandover() {
      running?.abort();
    },

    async loss(recipe, settings, profile) {
      const { share, map } = (await lookFor(settings, profile))(lookedAt(recipe));
      const data = Uint8Array.from(map.data, (value) => 255 * value);
      const shown: SeenMap = { width: map.width, height: map.height, data };
      return transfer({ share, map: shown }, [data.buffer]);
    },

    async calm(recipe, settings, profile) {
      const look = await lookFor(settings, profile);
      const { steps, after, enough } = await calmLoss(lookedAt(recipe), house.open().raster.space, look);
      return { steps, after, enough };
    },

    async palette(recipe) {
      return paletteOf(edited(recipe).census);
    },

    async paletteFile(recipe, title, kind) {
      const { paletteBlob } = await import('./palette.ts');
      return paletteBlob(paletteOf(edited(recipe).census), title, kind);
    },

    async table(recipe, { space }, title) {
      if (!recipe.steps.some(counts)) return null;
      const { writeAbstractProfile, writeClf } = await import('@halflight/files/handover');
      const table = bakeTable(recipe, tableSpace(space, house.open().raster.space));
      return {
        holds: table.holds,
        leftOut: table.leftOut,
        clf: new Blob([writeClf(table, title)], { type: 'application/xml' }),
        icc: new Blob([writeAbstractProfile(recipe, title) as Uint8Array<ArrayBuffer>], {
          type: 'application/vnd.iccprofile',
        }),
      };
    },

    async tableNote({ space }) {
      return tableNote(space, house.open().raster.space);
    },

    async record(recipe, wish, progress) {
      const { makeRecord } = await import('./record.ts');
      const { views, raster } = house.open();
      const recorded = { close: views.close, space: raster.space, recipe };
      return makeRecord(await house.codec(), recorded, wish, progress);
    },

    async report(recipe, kind, format, wish) {
      const { collect, make } = await import('./report.ts');
      const picture = house.open();
      // One reading serves all files of a report.
      const name = JSON.stringify([recipe, wish]);
      if (gathered?.of !== picture || gathered.name !== name) {
        const { input } = house.examine(wish.intent, wish.answers);
        const { views, raster } = picture;
        const subject = {
          input: { ...input, ...edited(recipe) },
          painted: views.close,
          space: raster.space,
          recipe,
          answers: wish.answers,
        };
        const data = collect(subject, wish);
        data.catch(() => {
          gathered = null;
        });
        gathered = { of: picture, name, data };
      }
      return make(await gathered.data, kind, format);
    },
  };
}
