import type { EditDesk } from '../../../picture/edit-desk.ts';
import type { Surroundings } from './desk.ts';
import { fileOf, nameAfter } from './file.ts';

/** The guide layer: the picture's size, transparent but for the places to repaint, read back sample by sample. */
export function openGuideDesk({ open, codec }: Surroundings): Pick<EditDesk, 'guide'> {
  return {
    async guide(places) {
      const { facts, raster } = open();
      const { guideLayer } = await import('./guide.ts');
      const layer = guideLayer(places, raster);
      const library = await codec();
      const bytes = await library.encode(layer, { format: 'png' });
      const back = (await library.decode(bytes, { name: facts.name })).raster.data;
      if (back.length !== layer.data.length || layer.data.some((code, k) => code !== back[k]))
        throw new Error(
          'The guide layer did not read back as it was meant. Nothing was kept; try once more.',
        );
      return fileOf(bytes, nameAfter(facts.name, 'guide', 'png'), 'png');
    },
  };
}
