import { type PaletteEntry, paletteCss, paletteTokens } from '@halflight/engine';
import { holdCss, holdJson, holdMarkup } from '@halflight/files/handover';
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
  const hexes = colours.map(({ hex }) => hex);
  if (kind === 'svg') {
    const face = await typeface();
    const svg = sheetSvg(layOut(palettePage(title, colours), LONG, face), face);
    holdMarkup(svg, { counts: { svg: 1, title: 1 }, texts: [], fills: hexes }, name);
    return new Blob([svg], { type: 'image/svg+xml' });
  }
  if (kind === 'css') {
    const css = `${paletteCss(colours, title)}\n`;
    holdCss(css, hexes, name);
    return new Blob([css], { type: 'text/css' });
  }
  const tokens = paletteTokens(colours, title);
  const json = `${JSON.stringify(tokens, null, 2)}\n`;
  holdJson(json, tokens, name);
  return new Blob([json], { type: 'application/json' });
}
