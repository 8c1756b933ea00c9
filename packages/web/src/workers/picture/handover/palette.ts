import type { PaletteEntry } from '@halflight/engine';
import { holdMarkup, writePalette } from '@halflight/files/handover';
import { LONG, layOut, palettePage, sheetSvg } from '@halflight/pages';
import type { PaletteFormat } from '../../../picture/handover-desk.ts';
import { typeface } from './fonts.ts';

/** A palette as a file, read again before anybody gets it. */
export async function paletteBlob(
  colours: readonly PaletteEntry[],
  title: string,
  kind: PaletteFormat,
): Promise<Blob> {
  const name = `palette.${kind}`;
  if (kind === 'svg') {
    const hexes = colours.map(({ hex }) => hex);
    const face = await typeface();
    const svg = sheetSvg(layOut(palettePage(title, colours), LONG, face), face);
    holdMarkup(svg, { counts: { svg: 1, title: 1 }, texts: [], fills: hexes }, name);
    return new Blob([svg], { type: 'image/svg+xml' });
  }
  const type = kind === 'css' ? 'text/css' : 'application/json';
  return new Blob([writePalette(kind, colours, title, name)], { type });
}
