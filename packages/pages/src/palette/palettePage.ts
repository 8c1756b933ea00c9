import type { Page } from '../page/page.ts';
import type { PaletteColour } from '../types/picture.ts';

/** A sheet of the colours that carry a picture. */
export function palettePage(title: string, colours: readonly PaletteColour[]): Page {
  return {
    title,
    under: 'The colours that carry it, each with its share of the area; sRGB',
    blocks: [{ kind: 'swatches', colours }],
    closing: [],
  };
}
