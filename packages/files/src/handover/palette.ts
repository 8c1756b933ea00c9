import { type PaletteEntry, paletteCss, paletteTokens } from '@halflight/engine';
import { holdCss, holdJson } from './readBack.ts';

/**
 * The palette as text of a file, read again before anybody gets it: design tokens (JSON) or custom properties (CSS).
 *
 * @param name the file's name, for the sentence when it does not read back
 * @throws FileTrouble
 */
export function writePalette(
  kind: 'json' | 'css',
  colours: readonly PaletteEntry[],
  title: string,
  name: string,
): string {
  if (kind === 'css') {
    const css = `${paletteCss(colours, title)}\n`;
    const hexes = colours.map(({ hex }) => hex);
    holdCss(css, hexes, name);
    return css;
  }
  const tokens = paletteTokens(colours, title);
  const json = `${JSON.stringify(tokens, null, 2)}\n`;
  holdJson(json, tokens, name);
  return json;
}
