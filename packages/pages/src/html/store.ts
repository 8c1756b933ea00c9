import type { PagePicture } from '../types/picture.ts';
import { dataAddress } from './base64.ts';

/** Pictures that drawings refer to: each stands in the file once, however often it is shown. */
export interface PictureStore {
  /** An element that shows a picture in this box of an SVG. */
  use(picture: PagePicture, box: string): string;
  /** The pictures themselves, to stand before what uses them. */
  markup(): string;
}

export function openStore(): PictureStore {
  const names = new Map<PagePicture, string>();
  return {
    use(picture, box) {
      const name = names.get(picture) ?? `picture-${names.size + 1}`;
      names.set(picture, name);
      return `<use href="#${name}" ${box}/>`;
    },
    markup() {
      if (names.size === 0) return '';
      const symbols = [...names].map(
        ([{ bytes, mediaType }, name]) =>
          `<symbol id="${name}" viewBox="0 0 1 1" preserveAspectRatio="none"><image width="1" height="1" preserveAspectRatio="none" href="${dataAddress(bytes, mediaType)}"/></symbol>`,
      );
      return `<svg class="store" aria-hidden="true" focusable="false">${symbols.join('\n')}</svg>\n`;
    },
  };
}
