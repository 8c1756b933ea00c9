import { breathe } from '@halflight/files';
import { transfer } from 'comlink';
import type { EditDesk } from '../../../picture/edit-desk.ts';
import { paintView } from '../paint.ts';
import type { Surroundings } from './desk.ts';
import { wishes } from './wishes.ts';

/** Long side of the small pictures of a sheet. */
const OPTION_SIDE = 280;

/** The sheets of small pictures: one step in many settings, the whole painting in many lights. */
export function openSheetDesk({
  open,
  examine,
  toBitmap,
}: Surroundings): Pick<EditDesk, 'options' | 'lights' | 'stopOptions'> {
  // One sheet lies open at a time: the newest ends the one before.
  const sheets = wishes();
  return {
    async options(recipe, index, intent, answers, each) {
      const isNewest = sheets();
      await breathe();
      const { optionsOf } = await import('./sheets.ts');
      const { input, examination } = examine(intent, answers);
      const { screen } = open();
      for (const { column, row, view, distance, recipe: one } of optionsOf(
        input,
        recipe,
        index,
        OPTION_SIDE,
        examination,
      )) {
        await breathe();
        if (!isNewest()) return false;
        const bitmap = await toBitmap(paintView(view, screen), view.width, screen);
        each(transfer({ column, row, step: one.steps[index], distance, bitmap }, [bitmap]));
      }
      return true;
    },

    async lights(recipe, intent, answers, each) {
      const isNewest = sheets();
      await breathe();
      const { lightsOf } = await import('./sheets.ts');
      const { input, examination } = examine(intent, answers);
      const { screen } = open();
      for (const { situation, recipe: own, view, distance } of lightsOf(
        input,
        recipe,
        OPTION_SIDE,
        examination,
      )) {
        await breathe();
        if (!isNewest()) return false;
        const bitmap = await toBitmap(paintView(view, screen), view.width, screen);
        each(transfer({ name: situation.name, recipe: own, distance, bitmap }, [bitmap]));
      }
      return true;
    },

    async stopOptions() {
      sheets();
    },
  };
}
