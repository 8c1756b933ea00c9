import type { Writing, Written } from '../../../picture/edit-desk.ts';

/** What was written as a file that can be handed over. */
export function fileOf(bytes: Uint8Array | Blob, name: string, format: Writing['format']): Written {
  const blob =
    bytes instanceof Blob ? bytes : new Blob([bytes as Uint8Array<ArrayBuffer>], { type: `image/${format}` });
  return {
    blob,
    name,
    readBack: true,
  };
}

const ENDINGS: Record<Writing['format'], string> = {
  png: 'png',
  jpeg: 'jpg',
  webp: 'webp',
  tiff: 'tif',
  avif: 'avif',
};

/** "ferry.png" becomes "ferry edited.tif". */
export function nameAfter(name: string, word: string, format: Writing['format']): string {
  return `${name.replace(/\.[A-Za-z0-9]{1,5}$/, '')} ${word}.${ENDINGS[format]}`;
}
